#include "exact/smooth.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <string>

namespace couplet {
namespace {

// By trial division: derived.
bool has_no_prime_above_251(std::uint64_t number) {
    for (std::uint64_t factor = 2; factor <= 251; ++factor)
        while (number % factor == 0) number /= factor;
    return number == 1;
}

TEST(Smooth, AgreesWithTrialDivision) {
    for (std::uint64_t number = 1; number < 70000; ++number)
        ASSERT_EQ(is_smooth(number), has_no_prime_above_251(number)) << number;
}

TEST(Smooth, TellsWholeWords) {
    EXPECT_TRUE(is_smooth(std::uint64_t{1} << 63));
    EXPECT_TRUE(is_smooth(std::uint64_t{251} * 251 * 251 * 251 * 251 * 251 * 251));
    EXPECT_TRUE(is_smooth(16602024129889268070U));  // 27 times the product of the primes up to 47
    EXPECT_FALSE(is_smooth(UINT64_MAX));            // 3 x 5 x 17 x 257 x 641 x 65537 x 6700417
    EXPECT_FALSE(is_smooth(std::uint64_t{257} << 55));
    EXPECT_FALSE(is_smooth(0));
}

class Fraction {
  public:
    Fraction() { mpq_init(value_); }
    ~Fraction() { mpq_clear(value_); }
    Fraction(const Fraction&) = delete;
    Fraction& operator=(const Fraction&) = delete;

    mpq_ptr get() { return value_; }
    mpz_ptr top() { return mpq_numref(value_); }
    mpz_ptr bottom() { return mpq_denref(value_); }

  private:
    mpq_t value_{};
};

// 2^3217 - 1 and 2^2281 - 1, whose factors are themselves (from memory): nothing else divides them.
constexpr unsigned kPrimeBits = 3217;
constexpr unsigned kOtherPrimeBits = 2281;

// GMP's own lowest terms of (common x a) / (common x b), beside ours.
void expect_lowest_terms(mpz_srcptr common, long a_sign) {
    Fraction ours;
    mpz_ui_pow_ui(ours.top(), 2, kPrimeBits);
    mpz_sub_ui(ours.top(), ours.top(), 1);
    mpz_mul(ours.top(), ours.top(), common);
    mpz_mul_si(ours.top(), ours.top(), a_sign);
    mpz_ui_pow_ui(ours.bottom(), 2, kOtherPrimeBits);
    mpz_sub_ui(ours.bottom(), ours.bottom(), 1);
    mpz_mul(ours.bottom(), ours.bottom(), common);
    Fraction general;
    mpq_set(general.get(), ours.get());
    mpq_canonicalize(general.get());
    reduce_smooth(ours.get());
    EXPECT_EQ(mpz_cmp(ours.top(), general.top()), 0);
    EXPECT_EQ(mpz_cmp(ours.bottom(), general.bottom()), 0);
}

void expect_lowest_terms_with_common_power(unsigned long base, unsigned long exponent) {
    SCOPED_TRACE(std::to_string(base) + "^" + std::to_string(exponent));
    Fraction common;
    mpz_ui_pow_ui(common.top(), base, exponent);
    expect_lowest_terms(common.top(), 1);
    expect_lowest_terms(common.top(), -1);
}

TEST(Smooth, ReducesByEachPrimeAndItsPowers) {
    for (unsigned long number = 1; number <= 251; ++number)
        for (const unsigned long exponent : {1UL, 3UL, 4UL, 5UL, 90UL})
            expect_lowest_terms_with_common_power(number, exponent);
}

TEST(Smooth, ReducesWhereMoreIsCommonThanAWordHolds) {
    Fraction common;
    mpz_primorial_ui(common.top(), 251);
    expect_lowest_terms(common.top(), -1);
    mpz_pow_ui(common.top(), common.top(), 6);
    expect_lowest_terms(common.top(), 1);
}

TEST(Smooth, MakesNothingOverAnythingZero) {
    Fraction nothing;
    mpz_ui_pow_ui(nothing.bottom(), 30, 100);
    reduce_smooth(nothing.get());
    EXPECT_EQ(mpq_cmp_ui(nothing.get(), 0, 1), 0);
    EXPECT_EQ(mpz_cmp_ui(nothing.bottom(), 1), 0);
}

}  // namespace
}  // namespace couplet
