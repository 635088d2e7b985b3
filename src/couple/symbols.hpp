// Symbols: products and sums of tooth counts, each tooth count known by its gear.
//
// Just the algebra that a train of gears needs on paper: whole multiples of products of tooth counts, sums of those,
// and quotients of factors, in which equal factors cancel. Two gears with the same count are different symbols, so that
// what cancels is what the mechanism makes cancel. Values, not pointers; sums grow by multiplication, and whatever
// would grow beyond kMostSumTerms throws TooManyTerms for the caller to fall back on a number.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "train/train.hpp"

namespace couplet {

struct TooManyTerms : std::runtime_error {
    using std::runtime_error::runtime_error;
};
inline constexpr std::size_t kMostSumTerms = 48;

// The gears of a product of tooth counts, rising; a gear stands twice in a square. Empty: 1.
using GearProduct = std::vector<GearIndex>;

// A sum of whole multiples of products; no multiple is 0. Empty: 0.
using ToothSum = std::map<GearProduct, Ratio>;

// constant x product of `top` / product of `bottom`. No sum stands both above and below; each has a positive first
// multiple and no factor common to its terms, unless it is a single gear.
struct Quotient {
    Ratio constant;
    std::vector<ToothSum> top;
    std::vector<ToothSum> bottom;
};

[[nodiscard]] ToothSum sum_of(const Ratio& number);
[[nodiscard]] ToothSum sum_of(GearIndex gear);
[[nodiscard]] ToothSum operator+(const ToothSum& a, const ToothSum& b);
[[nodiscard]] ToothSum operator*(const ToothSum& a, const ToothSum& b);
[[nodiscard]] ToothSum operator*(const ToothSum& a, const Ratio& factor);

// The factor common to all terms of all sums: its gears and its whole number; 1 where there is none.
struct Content {
    GearProduct gears;
    Ratio number;
};
[[nodiscard]] Content content_of(const std::vector<const ToothSum*>& sums);
[[nodiscard]] ToothSum divided(const ToothSum& sum, const Content& content);

[[nodiscard]] Quotient quotient_of(const ToothSum& top, const ToothSum& bottom);
[[nodiscard]] Quotient operator*(const Quotient& a, const Quotient& b);
[[nodiscard]] Quotient operator+(const Quotient& a, const Quotient& b);
[[nodiscard]] Quotient inverse(const Quotient& quotient);

[[nodiscard]] Ratio value_of(const Train& train, const ToothSum& sum);

// "-360 * 21/24 * 69/(21+69)" for 360 times the quotient; "0" where it is 0.
[[nodiscard]] std::string text_of(const Train& train, const Quotient& quotient, const Ratio& times);

}  // namespace couplet
