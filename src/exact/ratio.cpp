#include "exact/ratio.hpp"

#include <gmp.h>

#include <algorithm>
#include <new>
#include <optional>
#include <stdexcept>
#include <vector>

#include "exact/smooth.hpp"

namespace couplet {

using detail::gcd_words;
using detail::word_magnitude;

namespace detail {

// The heap form: a canonical GMP rational, at least one part of which leaves a machine word, in one block: this header,
// then the limbs of the numerator's magnitude, then those of the denominator.
struct BigRatio {
    std::int32_t numerator_size;  // in limbs, negative where the value is
    std::int32_t denominator_size;

    [[nodiscard]] const mp_limb_t* limbs() const { return reinterpret_cast<const mp_limb_t*>(this + 1); }
    [[nodiscard]] mp_limb_t* limbs() { return reinterpret_cast<mp_limb_t*>(this + 1); }
    [[nodiscard]] std::size_t numerator_limbs() const {
        return static_cast<std::size_t>(numerator_size < 0 ? -numerator_size : numerator_size);
    }
    [[nodiscard]] std::size_t limb_count() const {
        return numerator_limbs() + static_cast<std::size_t>(denominator_size);
    }

    static const BigRatio& of(const Ratio& ratio) { return *std::bit_cast<const BigRatio*>(ratio.numerator_); }

    static BigRatio* allocate(std::int32_t numerator_size, std::int32_t denominator_size) {
        const BigRatio header{numerator_size, denominator_size};
        void* block = ::operator new(sizeof(BigRatio) + header.limb_count() * sizeof(mp_limb_t));
        return new (block) BigRatio(header);
    }

    // A Ratio of a canonical value; in words where it fits them.
    static Ratio settle(mpq_srcptr value) {
        const __mpz_struct* num = mpq_numref(value);
        const __mpz_struct* den = mpq_denref(value);
        if (mpz_sizeinbase(num, 2) <= 63 && mpz_sizeinbase(den, 2) <= 63)
            return {mpz_get_si(num), mpz_get_si(den), Ratio::Reduced{}};
        BigRatio* big = allocate(num->_mp_size, den->_mp_size);
        std::copy_n(mpz_limbs_read(num), big->numerator_limbs(), big->limbs());
        std::copy_n(mpz_limbs_read(den), static_cast<std::size_t>(den->_mp_size),
                    big->limbs() + big->numerator_limbs());
        return {std::bit_cast<std::int64_t>(big), 0, Ratio::Reduced{}};
    }
};

}  // namespace detail

using detail::BigRatio;

static_assert(sizeof(void*) == sizeof(std::int64_t), "Ratio keeps a heap address in a 64-bit word");
static_assert(GMP_NUMB_BITS == 64, "Ratio hands one word to GMP as one limb");
static_assert(sizeof(long) == sizeof(std::int64_t), "mpz_get_si must return a full word");

namespace {

// A read-only GMP view of any Ratio, without heap; it must not outlive the Ratio.
class View {
  public:
    explicit View(const Ratio& ratio) {
        if (!ratio.is_small()) {
            const BigRatio& big = BigRatio::of(ratio);
            mpz_roinit_n(mpq_numref(value_), big.limbs(), big.numerator_size);
            mpz_roinit_n(mpq_denref(value_), big.limbs() + big.numerator_limbs(), big.denominator_size);
            return;
        }
        limbs_[0] = word_magnitude(ratio.small_numerator());
        limbs_[1] = word_magnitude(ratio.small_denominator());
        const mp_size_t size = ratio.small_numerator() == 0 ? 0 : 1;
        mpz_roinit_n(mpq_numref(value_), &limbs_[0], ratio.small_numerator() < 0 ? -size : size);
        mpz_roinit_n(mpq_denref(value_), &limbs_[1], 1);
    }
    View(const View&) = delete;
    View& operator=(const View&) = delete;

    [[nodiscard]] mpq_srcptr get() const { return value_; }
    [[nodiscard]] mpz_srcptr numerator() const { return mpq_numref(value_); }
    [[nodiscard]] mpz_srcptr denominator() const { return mpq_denref(value_); }

  private:
    mp_limb_t limbs_[2] = {0, 1};
    mpq_t value_{};
};

// Where GMP computes: one for each thread, so that a result costs one allocation, its own.
struct Scratch {
    mpq_t value;

    Scratch() { mpq_init(value); }
    ~Scratch() { mpq_clear(value); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
};

template <class Operation>
Ratio compute_big(Operation operation) {
    static thread_local Scratch scratch;
    operation(scratch.value);
    return BigRatio::settle(scratch.value);
}

template <class Operation>
Ratio compute_whole(Operation operation) {
    return compute_big([&](mpq_ptr q) {
        operation(mpq_numref(q));
        mpz_set_ui(mpq_denref(q), 1);
    });
}

// Twos are counted rather than divided by: a pass over the limbs less wherever a factor is a power of two.
std::uint64_t gcd_with_word(mpz_srcptr large, std::uint64_t word) {
    const auto twos = static_cast<mp_bitcnt_t>(std::countr_zero(word));
    const std::uint64_t odd = word >> twos;
    const std::uint64_t odd_common = odd == 1 ? 1 : mpz_gcd_ui(nullptr, large, odd);
    return odd_common << (twos == 0 ? 0 : std::min(twos, mpz_scan1(large, 0)));
}

// The product of a large ratio and a small one other than 0, one pass over the limbs for each gcd and product.
Ratio scale_big(const Ratio& big, std::int64_t numerator, std::int64_t denominator) {
    const View view(big);
    mpz_srcptr top = view.numerator();
    mpz_srcptr bottom = view.denominator();
    const auto words = [](mpz_ptr product, mpz_srcptr large, std::uint64_t divisor, std::uint64_t factor) {
        if (divisor == 1) {
            mpz_mul_ui(product, large, factor);
        } else {
            mpz_divexact_ui(product, large, divisor);
            if (factor != 1) mpz_mul_ui(product, product, factor);
        }
    };
    const std::uint64_t size = word_magnitude(numerator);
    const auto divisor = static_cast<std::uint64_t>(denominator);
    const std::uint64_t top_common = gcd_with_word(top, divisor);
    const std::uint64_t bottom_common = gcd_with_word(bottom, size);
    return compute_big([&](mpq_ptr q) {
        words(mpq_numref(q), top, top_common, size / bottom_common);
        words(mpq_denref(q), bottom, bottom_common, divisor / top_common);
        if (numerator < 0) mpz_neg(mpq_numref(q), mpq_numref(q));
    });
}

struct Words {
    std::uint64_t first;
    std::uint64_t second;
};

// The top 63 bits of two numbers, both shifted alike.
Words leading_words(mpz_srcptr a, mpz_srcptr b) {
    const std::size_t bits = std::max(mpz_sizeinbase(a, 2), mpz_sizeinbase(b, 2));
    const std::size_t shift = bits > 63 ? bits - 63 : 0;
    const auto word = [shift](mpz_srcptr z) {
        const std::size_t limb = shift / 64;
        const auto bit = static_cast<unsigned>(shift % 64);
        const std::uint64_t low = mpz_getlimbn(z, static_cast<mp_size_t>(limb)) >> bit;
        const std::uint64_t high = bit == 0 ? 0 : mpz_getlimbn(z, static_cast<mp_size_t>(limb + 1)) << (64 - bit);
        return low | high;
    };
    return {word(a), word(b)};
}

// Factors u, v of a few bits with a u = b v, where there seem to be such: two denominators in a chain of gears are
// often alike but for a tooth count. By the continued fraction of the leading words; the caller proves it.
std::optional<Words> small_cofactors(mpz_srcptr a, mpz_srcptr b) {
    constexpr std::uint64_t kMost = std::uint64_t{1} << 28;
    auto [x, y] = leading_words(a, b);
    Words older{0, 1};
    Words newer{1, 0};
    while (y != 0) {
        const std::uint64_t quotient = x / y;
        if (quotient > kMost) return std::nullopt;
        older = std::exchange(newer, {quotient * newer.first + older.first, quotient * newer.second + older.second});
        x = std::exchange(y, x - quotient * y);
        if (newer.first > kMost || newer.second > kMost) return std::nullopt;
        if (y <= newer.first + newer.second) return Words{newer.second, newer.first};
    }
    return std::nullopt;
}

// a + b, or a - b, of large ratios whose denominators differ by small factors only, over the common denominator and not
// reduced: what is left is one gcd, instead of two. False where they do not.
bool add_alike(mpq_ptr sum, const View& a, const View& b, bool subtract) {
    const std::optional<Words> factors = small_cofactors(a.denominator(), b.denominator());
    if (!factors) return false;
    static thread_local Scratch other;
    mpz_ptr bottom = mpq_denref(sum);
    mpz_mul_ui(bottom, a.denominator(), factors->first);
    mpz_mul_ui(mpq_denref(other.value), b.denominator(), factors->second);
    if (mpz_cmp(bottom, mpq_denref(other.value)) != 0) return false;
    mpz_mul_ui(mpq_numref(sum), a.numerator(), factors->first);
    const auto add = subtract ? mpz_submul_ui : mpz_addmul_ui;
    add(mpq_numref(sum), b.numerator(), factors->second);
    return true;
}

// a + b of any large ratios over their least common denominator, not reduced.
void add_unlike(mpq_ptr sum, const View& a, const View& b) {
    static thread_local Scratch work;
    mpz_ptr common = mpq_numref(work.value);
    mpz_ptr cofactor = mpq_denref(work.value);
    mpz_gcd(common, a.denominator(), b.denominator());
    mpz_divexact(cofactor, b.denominator(), common);
    mpz_mul(mpq_numref(sum), a.numerator(), cofactor);
    mpz_mul(mpq_denref(sum), a.denominator(), cofactor);
    mpz_divexact(cofactor, a.denominator(), common);
    mpz_addmul(mpq_numref(sum), b.numerator(), cofactor);
}

bool fits(std::int64_t value) {
    return value != INT64_MIN;
}

// The quotient rounded towards minus infinity; b is positive.
std::int64_t floor_div(std::int64_t a, std::int64_t b) {
    return a / b - (a % b < 0 ? 1 : 0);
}

}  // namespace

Ratio::Ratio(std::int64_t numerator, std::int64_t denominator) : numerator_(0), denominator_(1) {
    if (denominator == 0) throw std::domain_error("a ratio's denominator is 0");
    if (!fits(numerator) || !fits(denominator)) {
        *this = beyond_words(numerator, denominator);
        return;
    }
    const auto divisor = static_cast<std::int64_t>(gcd_words(word_magnitude(numerator), word_magnitude(denominator)));
    const std::int64_t sign = denominator < 0 ? -1 : 1;
    numerator_ = sign * (numerator / divisor);
    denominator_ = sign * (denominator / divisor);
}

Ratio Ratio::beyond_words(std::int64_t numerator, std::int64_t denominator) {
    return compute_big([&](mpq_ptr q) {
        mpz_set_si(mpq_numref(q), numerator);
        mpz_set_si(mpq_denref(q), denominator);
        mpq_canonicalize(q);
    });
}

Ratio Ratio::whole_from_digits(const std::string& digits) {
    const std::size_t first = digits.starts_with('-') ? 1 : 0;
    if (digits.size() == first || digits.find_first_not_of("0123456789", first) != std::string::npos)
        throw std::invalid_argument("'" + digits + "' is not a whole number");
    return compute_whole([&](mpz_ptr z) { mpz_set_str(z, digits.c_str(), 10); });
}

void Ratio::copy_big(const Ratio& other) {
    const BigRatio& source = BigRatio::of(other);
    BigRatio* copy = BigRatio::allocate(source.numerator_size, source.denominator_size);
    std::copy_n(source.limbs(), source.limb_count(), copy->limbs());
    numerator_ = std::bit_cast<std::int64_t>(copy);
}

void Ratio::drop_big() noexcept {
    ::operator delete(std::bit_cast<void*>(numerator_));
}

bool Ratio::is_whole() const noexcept {
    return is_small() ? denominator_ == 1 : mpz_cmp_ui(View(*this).denominator(), 1) == 0;
}

int Ratio::sign() const noexcept {
    if (is_small()) return (numerator_ > 0 ? 1 : 0) - (numerator_ < 0 ? 1 : 0);
    return BigRatio::of(*this).numerator_size < 0 ? -1 : 1;
}

Ratio Ratio::numerator() const {
    if (is_small()) return numerator_;
    return compute_whole([&](mpz_ptr z) { mpz_set(z, View(*this).numerator()); });
}

Ratio Ratio::denominator() const {
    if (is_small()) return denominator_;
    return compute_whole([&](mpz_ptr z) { mpz_set(z, View(*this).denominator()); });
}

std::size_t Ratio::bits() const noexcept {
    const View view(*this);
    return mpz_sizeinbase(view.numerator(), 2) + mpz_sizeinbase(view.denominator(), 2);
}

Ratio Ratio::floor() const {
    if (is_small()) return {floor_div(numerator_, denominator_), 1, Reduced{}};
    const View view(*this);
    return compute_whole([&](mpz_ptr z) { mpz_fdiv_q(z, view.numerator(), view.denominator()); });
}

Ratio Ratio::fraction() const {
    if (is_small()) {
        const std::int64_t rest = numerator_ % denominator_;
        return {rest < 0 ? rest + denominator_ : rest, denominator_, Reduced{}};
    }
    const View view(*this);
    return compute_big([&](mpq_ptr q) {
        mpz_fdiv_r(mpq_numref(q), view.numerator(), view.denominator());
        mpz_set(mpq_denref(q), view.denominator());
    });
}

Ratio Ratio::inverse() const {
    if (is_zero()) throw std::domain_error("zero has no inverse");
    if (is_small())
        return numerator_ < 0 ? Ratio{-denominator_, -numerator_, Reduced{}}
                              : Ratio{denominator_, numerator_, Reduced{}};
    return compute_big([&](mpq_ptr q) { mpq_inv(q, View(*this).get()); });
}

double Ratio::to_double() const noexcept {
    if (!is_small()) return mpq_get_d(View(*this).get());
    constexpr std::int64_t kExactInDouble = std::int64_t{1} << 53;
    if (numerator_ <= kExactInDouble && numerator_ >= -kExactInDouble && denominator_ <= kExactInDouble)
        return static_cast<double>(numerator_) / static_cast<double>(denominator_);
    return static_cast<double>(static_cast<long double>(numerator_) / static_cast<long double>(denominator_));
}

std::string Ratio::to_string() const {
    if (is_small())
        return denominator_ == 1 ? std::to_string(numerator_)
                                 : std::to_string(numerator_) + "/" + std::to_string(denominator_);
    const View view(*this);
    std::string text(mpz_sizeinbase(view.numerator(), 10) + mpz_sizeinbase(view.denominator(), 10) + 3, '\0');
    mpq_get_str(text.data(), 10, view.get());
    text.resize(text.find('\0'));
    return text;
}

Ratio Ratio::operator-() const {
    if (is_small()) return {-numerator_, denominator_, Reduced{}};
    return compute_big([&](mpq_ptr q) { mpq_neg(q, View(*this).get()); });
}

// Knuth, The Art of Computer Programming, vol. 2, 4.5.1: only the common part of the denominators can cancel.
Ratio Ratio::sum(const Ratio& other, bool negate_other) const {
    if (is_small() && other.is_small()) {
        const std::int64_t addend = negate_other ? -other.numerator_ : other.numerator_;
        const auto common = static_cast<std::int64_t>(
            gcd_words(static_cast<std::uint64_t>(denominator_), static_cast<std::uint64_t>(other.denominator_)));
        const std::int64_t own_cofactor = denominator_ / common;
        const std::int64_t other_cofactor = other.denominator_ / common;
        std::int64_t left = 0;
        std::int64_t right = 0;
        std::int64_t total = 0;
        std::int64_t bottom = 0;
        if (!__builtin_mul_overflow(numerator_, other_cofactor, &left) &&
            !__builtin_mul_overflow(addend, own_cofactor, &right) && !__builtin_add_overflow(left, right, &total) &&
            fits(total)) {
            const auto cancel =
                static_cast<std::int64_t>(gcd_words(word_magnitude(total), static_cast<std::uint64_t>(common)));
            if (!__builtin_mul_overflow(own_cofactor, other.denominator_ / cancel, &bottom))
                return {total / cancel, bottom, Reduced{}};
        }
    }
    const View a(*this);
    const View b(other);
    return compute_big([&](mpq_ptr q) {
        if (!is_small() && !other.is_small() && add_alike(q, a, b, negate_other)) {
            mpq_canonicalize(q);
        } else {
            negate_other ? mpq_sub(q, a.get(), b.get()) : mpq_add(q, a.get(), b.get());
        }
    });
}

Ratio smooth_sum(const Ratio& a, const Ratio& b) {
    if (a.is_small() || b.is_small()) return a + b;
    const View va(a);
    const View vb(b);
    return compute_big([&](mpq_ptr q) {
        if (!add_alike(q, va, vb, false)) add_unlike(q, va, vb);
        reduce_smooth(q);
    });
}

Ratio operator*(const Ratio& a, const Ratio& b) {
    if (a.is_small() && b.is_small()) {
        const auto left = static_cast<std::int64_t>(
            gcd_words(word_magnitude(a.numerator_), static_cast<std::uint64_t>(b.denominator_)));
        const auto right = static_cast<std::int64_t>(
            gcd_words(word_magnitude(b.numerator_), static_cast<std::uint64_t>(a.denominator_)));
        std::int64_t top = 0;
        std::int64_t bottom = 0;
        if (!__builtin_mul_overflow(a.numerator_ / left, b.numerator_ / right, &top) &&
            !__builtin_mul_overflow(a.denominator_ / right, b.denominator_ / left, &bottom) && fits(top))
            return {top, bottom, Ratio::Reduced{}};
    } else if (a.is_small() != b.is_small()) {
        const Ratio& small = a.is_small() ? a : b;
        if (small.is_zero()) return {};
        return scale_big(a.is_small() ? b : a, small.numerator_, small.denominator_);
    }
    const View va(a);
    const View vb(b);
    return compute_big([&](mpq_ptr q) { mpq_mul(q, va.get(), vb.get()); });
}

Ratio operator/(const Ratio& a, const Ratio& b) {
    if (b.is_zero()) throw std::domain_error("division of a ratio by zero");
    if (b.is_small()) return a * b.inverse();
    const View va(a);
    const View vb(b);
    return compute_big([&](mpq_ptr q) { mpq_div(q, va.get(), vb.get()); });
}

bool operator==(const Ratio& a, const Ratio& b) noexcept {
    if (a.is_small() || b.is_small()) return a.numerator_ == b.numerator_ && a.denominator_ == b.denominator_;
    return mpq_equal(View(a).get(), View(b).get()) != 0;
}

std::strong_ordering operator<=>(const Ratio& a, const Ratio& b) noexcept {
    if (a.is_small() && b.is_small()) {
        __extension__ using Wide = __int128;
        return Wide{a.numerator_} * b.denominator_ <=> Wide{b.numerator_} * a.denominator_;
    }
    const View va(a);
    const View vb(b);
    return mpq_cmp(va.get(), vb.get()) <=> 0;
}

// What the divisor shares with any numerator it shares with their product, of which the remainder will do. Multiples of
// the divisor, which would share all of it, go first.
void divide_each(std::span<Ratio* const> values, const Ratio& divisor) {
    if (divisor.is_small()) {
        for (Ratio* value : values) *value /= divisor;
        return;
    }
    const View whole(divisor);
    Scratch shared;
    Scratch work;
    mpz_ptr product = mpq_denref(shared.value);
    mpz_ptr remainder = mpq_numref(work.value);
    mpz_ptr common = mpq_denref(work.value);
    std::vector<Ratio*> others;
    for (Ratio* value : values) {
        mpz_tdiv_r(remainder, View(*value).numerator(), whole.numerator());
        if (mpz_sgn(remainder) == 0) {
            *value /= divisor;
        } else {
            others.push_back(value);
            mpz_mul(product, product, remainder);
            mpz_tdiv_r(product, product, whole.numerator());
        }
    }
    mpz_gcd(product, product, whole.numerator());
    for (Ratio* value : others) {
        const View view(*value);
        *value = compute_big([&](mpq_ptr q) {
            mpz_gcd(common, view.numerator(), product);
            mpz_divexact(mpq_numref(q), view.numerator(), common);
            mpz_divexact(mpq_denref(q), whole.numerator(), common);
            mpz_mul(mpq_denref(q), mpq_denref(q), view.denominator());
        });
    }
}

Ratio whole_gcd(const Ratio& a, const Ratio& b) {
    if (a.is_small() && b.is_small())
        return {static_cast<std::int64_t>(gcd_words(word_magnitude(a.numerator_), word_magnitude(b.numerator_))), 1,
                Ratio::Reduced{}};
    const View va(a);
    const View vb(b);
    return compute_whole([&](mpz_ptr z) { mpz_gcd(z, va.numerator(), vb.numerator()); });
}

}  // namespace couplet
