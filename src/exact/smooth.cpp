#include "exact/smooth.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <optional>

namespace couplet {

namespace {

constexpr std::uint64_t kLargestPrime = 251;

// n = 0 modulo an odd p exactly where n / p modulo 2^64 is at most (2^64 - 1) / p (T. Granlund, P. L. Montgomery,
// Division by Invariant Integers using Multiplication, 1994, section 9, from memory).
struct OddPrime {
    std::uint64_t value = 0;
    std::uint64_t inverse = 0;
    std::uint64_t most_quotient = 0;

    [[nodiscard]] constexpr bool divides(std::uint64_t number) const { return number * inverse <= most_quotient; }
};

// Newton's iteration: each step doubles the bits that are right, the first three of which an odd number itself has.
constexpr std::uint64_t inverse_of_odd(std::uint64_t number) {
    std::uint64_t inverse = number;
    for (int bits = 3; bits < 64; bits *= 2) inverse *= 2 - number * inverse;
    return inverse;
}

constexpr std::size_t kOddPrimes = 53;
constexpr std::array<OddPrime, kOddPrimes> odd_primes() {
    std::array<OddPrime, kOddPrimes> primes{};
    std::size_t found = 0;
    for (std::uint64_t number = 3; number <= kLargestPrime; number += 2) {
        bool prime = true;
        for (std::uint64_t factor = 3; factor * factor <= number; factor += 2) prime = prime && number % factor != 0;
        if (prime) primes.at(found++) = {number, inverse_of_odd(number), UINT64_MAX / number};
    }
    return primes;
}
constexpr auto kPrimes = odd_primes();

// As many primes, one after the other, as have a product in one word.
struct Block {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::uint64_t product = 1;
};

constexpr std::size_t kBlocks = 6;
constexpr std::array<Block, kBlocks> blocks_of_primes() {
    std::array<Block, kBlocks> blocks{};
    std::size_t at = 0;
    for (std::size_t i = 0; i < kOddPrimes; ++i) {
        if (blocks.at(at).product > UINT64_MAX / kPrimes.at(i).value) blocks.at(++at).begin = i;
        blocks.at(at).product *= kPrimes.at(i).value;
        blocks.at(at).end = i + 1;
    }
    return blocks;
}
constexpr auto kBlocksOfPrimes = blocks_of_primes();

// The product of the odd primes that divide both; nothing where it leaves a word.
std::optional<std::uint64_t> common_odd_primes(mpz_srcptr a, mpz_srcptr b) {
    std::uint64_t common = 1;
    for (const Block& block : kBlocksOfPrimes) {
        const std::uint64_t a_rest = mpz_tdiv_ui(a, block.product);
        std::optional<std::uint64_t> b_rest;
        for (std::size_t i = block.begin; i < block.end; ++i) {
            if (!kPrimes[i].divides(a_rest)) continue;
            if (!b_rest) b_rest = mpz_tdiv_ui(b, block.product);
            if (kPrimes[i].divides(*b_rest) && __builtin_mul_overflow(common, kPrimes[i].value, &common))
                return std::nullopt;
        }
    }
    return common;
}

}  // namespace

bool is_smooth(std::uint64_t number) noexcept {
    if (number == 0) return false;
    number >>= std::countr_zero(number);
    for (const OddPrime& prime : kPrimes) {
        if (number == 1) return true;
        while (prime.divides(number)) number *= prime.inverse;
    }
    return number == 1;
}

void reduce_smooth(mpq_ptr fraction) {
    // Where that does not do, much is common, and then the general way is short.
    constexpr int kRounds = 4;
    mpz_ptr top = mpq_numref(fraction);
    mpz_ptr bottom = mpq_denref(fraction);
    if (mpz_sgn(top) == 0) {
        mpz_set_ui(bottom, 1);
        return;
    }
    const mp_bitcnt_t twos = std::min(mpz_scan1(top, 0), mpz_scan1(bottom, 0));
    mpz_tdiv_q_2exp(top, top, twos);
    mpz_tdiv_q_2exp(bottom, bottom, twos);
    std::optional<std::uint64_t> common = common_odd_primes(top, bottom);
    for (int round = 0; common && round < kRounds; ++round) {
        if (*common == 1) return;
        mpz_divexact_ui(top, top, *common);
        mpz_divexact_ui(bottom, bottom, *common);
        common = mpz_gcd_ui(nullptr, bottom, *common);
        if (*common != 1) common = mpz_gcd_ui(nullptr, top, *common);
    }
    mpq_canonicalize(fraction);
}

}  // namespace couplet
