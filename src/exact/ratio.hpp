// Ratio: an exact rational number of any size.
//
// Always in lowest terms with a positive denominator, so equal values have equal parts. A value whose numerator and
// denominator both fit a signed 64-bit word lives in two words and touches no heap; an operation that would leave
// those words is detected before it wraps and moves to GMP, and a result that fits again moves back. Sixteen bytes:
// pass by const reference (a copy of a large value allocates). A zero denominator or divisor is a broken promise of
// the caller and throws std::domain_error. No operation rounds except to_double.
#pragma once

#include <bit>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>

namespace couplet {

namespace detail {
struct BigRatio;

// Greatest common divisor of two words by the binary method (Knuth, The Art of Computer Programming, vol. 2, 4.5.2,
// algorithm B); gcd(0, b) = b.
constexpr std::uint64_t gcd_words(std::uint64_t a, std::uint64_t b) noexcept {
    if (a == 0) return b;
    if (b == 0) return a;
    const int shared_twos = std::countr_zero(a | b);
    a >>= std::countr_zero(a);
    do {
        b >>= std::countr_zero(b);
        const std::uint64_t smaller = a < b ? a : b;
        b = a < b ? b - a : a - b;
        a = smaller;
    } while (b != 0);
    return a << shared_twos;
}

constexpr std::uint64_t word_magnitude(std::int64_t value) noexcept {
    return value < 0 ? 0U - static_cast<std::uint64_t>(value) : static_cast<std::uint64_t>(value);
}
}  // namespace detail

class Ratio {
  public:
    constexpr Ratio() noexcept : numerator_(0), denominator_(1) {}

    // NOLINTNEXTLINE(google-explicit-constructor): a whole number is a ratio.
    Ratio(std::int64_t whole) : numerator_(whole), denominator_(1) {
        if (whole == INT64_MIN) *this = beyond_words(whole, 1);
    }

    // Throws std::domain_error where denominator is 0.
    Ratio(std::int64_t numerator, std::int64_t denominator);

    // A whole number written in base 10, of any length, with an optional leading '-'. Throws std::invalid_argument
    // where the text is anything else.
    static Ratio whole_from_digits(const std::string& digits);

    Ratio(const Ratio& other) : numerator_(other.numerator_), denominator_(other.denominator_) {
        if (!other.is_small()) copy_big(other);
    }
    Ratio(Ratio&& other) noexcept
        : numerator_(std::exchange(other.numerator_, 0)), denominator_(std::exchange(other.denominator_, 1)) {}
    Ratio& operator=(const Ratio& other) {
        if (is_small() && other.is_small()) {
            numerator_ = other.numerator_;
            denominator_ = other.denominator_;
        } else if (this != &other) {
            *this = Ratio(other);
        }
        return *this;
    }
    Ratio& operator=(Ratio&& other) noexcept {
        std::swap(numerator_, other.numerator_);
        std::swap(denominator_, other.denominator_);
        return *this;
    }
    ~Ratio() {
        if (!is_small()) drop_big();
    }

    // True where both parts fit a machine word and nothing is on the heap.
    [[nodiscard]] bool is_small() const noexcept { return denominator_ != 0; }
    [[nodiscard]] bool is_zero() const noexcept { return is_small() && numerator_ == 0; }
    [[nodiscard]] bool is_whole() const noexcept;
    // -1, 0 or 1.
    [[nodiscard]] int sign() const noexcept;

    // The parts as words; only where is_small().
    [[nodiscard]] std::int64_t small_numerator() const noexcept { return numerator_; }
    [[nodiscard]] std::int64_t small_denominator() const noexcept { return denominator_; }

    // The parts as whole Ratios, any size.
    [[nodiscard]] Ratio numerator() const;
    [[nodiscard]] Ratio denominator() const;

    // Bits of numerator and denominator together: the size that a printed or stored value grows with.
    [[nodiscard]] std::size_t bits() const noexcept;

    // The greatest whole number not above the value.
    [[nodiscard]] Ratio floor() const;
    // value - floor(value), in [0, 1): a phase in turns.
    [[nodiscard]] Ratio fraction() const;
    [[nodiscard]] Ratio magnitude() const { return sign() < 0 ? -*this : *this; }
    // Throws std::domain_error for zero.
    [[nodiscard]] Ratio inverse() const;

    // Nearest double within one unit in the last place; infinite or zero where out of range.
    [[nodiscard]] double to_double() const noexcept;
    // "-5/12", or "4" where whole.
    [[nodiscard]] std::string to_string() const;

    Ratio operator-() const;
    friend Ratio operator+(const Ratio& a, const Ratio& b) { return a.sum(b, false); }
    friend Ratio operator-(const Ratio& a, const Ratio& b) { return a.sum(b, true); }
    friend Ratio operator*(const Ratio& a, const Ratio& b);
    friend Ratio operator/(const Ratio& a, const Ratio& b);
    Ratio& operator+=(const Ratio& other) { return *this = *this + other; }
    Ratio& operator-=(const Ratio& other) { return *this = *this - other; }
    Ratio& operator*=(const Ratio& other) { return *this = *this * other; }
    Ratio& operator/=(const Ratio& other) { return *this = *this / other; }

    friend bool operator==(const Ratio& a, const Ratio& b) noexcept;
    friend std::strong_ordering operator<=>(const Ratio& a, const Ratio& b) noexcept;

    // Greatest common divisor of two whole numbers, never negative; gcd(0, 0) = 0.
    friend Ratio whole_gcd(const Ratio& a, const Ratio& b);

  private:
    enum class Reduced {};
    // Parts already in lowest terms, denominator positive, neither the lowest word.
    Ratio(std::int64_t numerator, std::int64_t denominator, Reduced) noexcept
        : numerator_(numerator), denominator_(denominator) {}

    static Ratio beyond_words(std::int64_t numerator, std::int64_t denominator);
    [[nodiscard]] Ratio sum(const Ratio& other, bool negate_other) const;
    void copy_big(const Ratio& other);
    void drop_big() noexcept;

    friend struct detail::BigRatio;

    // Small: the numerator. Large: the address of the heap value.
    std::int64_t numerator_;
    // Small: the positive denominator. Large: 0.
    std::int64_t denominator_;
};

// a + b, where no prime above 251 divides both denominators: faster than + for large ratios (smooth.hpp).
[[nodiscard]] Ratio smooth_sum(const Ratio& a, const Ratio& b);

// Divides each by the same positive whole number: as / does, but with one long gcd for all of them.
void divide_each(std::span<Ratio* const> values, const Ratio& divisor);

}  // namespace couplet
