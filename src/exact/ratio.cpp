#include "exact/ratio.hpp"

#include <gmp.h>

#include <memory>
#include <stdexcept>

namespace couplet {

using detail::gcd_words;
using detail::word_magnitude;

namespace detail {

// The heap form: a canonical GMP rational, at least one part of which leaves a machine word. Made without limbs, and
// invalid until both parts are set: the usual denominator of 1 would be allocated only to be replaced.
struct BigRatio {
    mpq_t value;

    BigRatio() {
        mpz_init(mpq_numref(value));
        mpz_init(mpq_denref(value));
    }
    ~BigRatio() { mpq_clear(value); }
    BigRatio(const BigRatio&) = delete;
    BigRatio& operator=(const BigRatio&) = delete;

    static const BigRatio& of(const Ratio& ratio) { return *std::bit_cast<const BigRatio*>(ratio.numerator_); }
    static BigRatio& of(Ratio& ratio) { return *std::bit_cast<BigRatio*>(ratio.numerator_); }

    // Takes the value over; back into words where it fits them.
    static Ratio settle(std::unique_ptr<BigRatio> big) {
        const __mpz_struct* num = mpq_numref(big->value);
        const __mpz_struct* den = mpq_denref(big->value);
        if (mpz_sizeinbase(num, 2) <= 63 && mpz_sizeinbase(den, 2) <= 63)
            return {mpz_get_si(num), mpz_get_si(den), Ratio::Reduced{}};
        return {std::bit_cast<std::int64_t>(big.release()), 0, Ratio::Reduced{}};
    }
};

}  // namespace detail

using detail::BigRatio;

static_assert(sizeof(void*) == sizeof(std::int64_t), "Ratio keeps a heap address in a 64-bit word");
static_assert(GMP_NUMB_BITS == 64, "Ratio hands one word to GMP as one limb");
static_assert(sizeof(long) == sizeof(std::int64_t), "mpz_get_si must return a full word");

namespace {

// A read-only GMP view of any Ratio; a small one is laid out in the view itself, without heap.
class View {
  public:
    explicit View(const Ratio& ratio) {
        if (!ratio.is_small()) {
            source_ = BigRatio::of(ratio).value;
            return;
        }
        limbs_[0] = word_magnitude(ratio.small_numerator());
        limbs_[1] = word_magnitude(ratio.small_denominator());
        const mp_size_t size = ratio.small_numerator() == 0 ? 0 : 1;
        mpz_roinit_n(mpq_numref(local_), &limbs_[0], ratio.small_numerator() < 0 ? -size : size);
        mpz_roinit_n(mpq_denref(local_), &limbs_[1], 1);
        source_ = local_;
    }
    View(const View&) = delete;
    View& operator=(const View&) = delete;

    [[nodiscard]] mpq_srcptr get() const { return source_; }
    [[nodiscard]] mpz_srcptr numerator() const { return mpq_numref(source_); }
    [[nodiscard]] mpz_srcptr denominator() const { return mpq_denref(source_); }

  private:
    mp_limb_t limbs_[2] = {0, 1};
    mpq_t local_{};
    mpq_srcptr source_ = nullptr;
};

template <class Operation>
Ratio compute_big(Operation operation) {
    auto result = std::make_unique<BigRatio>();
    operation(result->value);
    return BigRatio::settle(std::move(result));
}

template <class Operation>
Ratio compute_whole(Operation operation) {
    return compute_big([&](mpq_ptr q) {
        operation(mpq_numref(q));
        mpz_set_ui(mpq_denref(q), 1);
    });
}

// The product of a large ratio and a small one other than 0, one pass over the limbs for each gcd and product.
Ratio scale_big(const BigRatio& big, std::int64_t numerator, std::int64_t denominator) {
    mpz_srcptr top = mpq_numref(big.value);
    mpz_srcptr bottom = mpq_denref(big.value);
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
    const std::uint64_t top_common = divisor == 1 ? 1 : mpz_gcd_ui(nullptr, top, divisor);
    const std::uint64_t bottom_common = size == 1 ? 1 : mpz_gcd_ui(nullptr, bottom, size);
    return compute_big([&](mpq_ptr q) {
        words(mpq_numref(q), top, top_common, size / bottom_common);
        words(mpq_denref(q), bottom, bottom_common, divisor / top_common);
        if (numerator < 0) mpz_neg(mpq_numref(q), mpq_numref(q));
    });
}

bool fits(std::int64_t value) {
    return value != INT64_MIN;
}

// The sign and size of a whole number divided by a positive word that divides it or not: truncated towards minus
// infinity.
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
    auto copy = std::make_unique<BigRatio>();
    mpq_set(copy->value, BigRatio::of(other).value);
    numerator_ = std::bit_cast<std::int64_t>(copy.release());
}

void Ratio::drop_big() noexcept {
    delete &BigRatio::of(*this);
}

bool Ratio::is_whole() const noexcept {
    return is_small() ? denominator_ == 1 : mpz_cmp_ui(mpq_denref(BigRatio::of(*this).value), 1) == 0;
}

int Ratio::sign() const noexcept {
    if (is_small()) return (numerator_ > 0 ? 1 : 0) - (numerator_ < 0 ? 1 : 0);
    return mpq_sgn(BigRatio::of(*this).value);
}

Ratio Ratio::numerator() const {
    if (is_small()) return numerator_;
    return compute_whole([&](mpz_ptr z) { mpz_set(z, mpq_numref(BigRatio::of(*this).value)); });
}

Ratio Ratio::denominator() const {
    if (is_small()) return denominator_;
    return compute_whole([&](mpz_ptr z) { mpz_set(z, mpq_denref(BigRatio::of(*this).value)); });
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
    return compute_big([&](mpq_ptr q) { mpq_inv(q, BigRatio::of(*this).value); });
}

double Ratio::to_double() const noexcept {
    if (!is_small()) return mpq_get_d(BigRatio::of(*this).value);
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
    return compute_big([&](mpq_ptr q) { mpq_neg(q, BigRatio::of(*this).value); });
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
    return compute_big([&](mpq_ptr q) { negate_other ? mpq_sub(q, a.get(), b.get()) : mpq_add(q, a.get(), b.get()); });
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
        return scale_big(BigRatio::of(a.is_small() ? b : a), small.numerator_, small.denominator_);
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
    return mpq_equal(BigRatio::of(a).value, BigRatio::of(b).value) != 0;
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

Ratio whole_gcd(const Ratio& a, const Ratio& b) {
    if (a.is_small() && b.is_small())
        return {static_cast<std::int64_t>(gcd_words(word_magnitude(a.numerator_), word_magnitude(b.numerator_))), 1,
                Ratio::Reduced{}};
    const View va(a);
    const View vb(b);
    return compute_whole([&](mpz_ptr z) { mpz_gcd(z, va.numerator(), vb.numerator()); });
}

}  // namespace couplet
