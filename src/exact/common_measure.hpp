// Common measure: what two ratios are both whole multiples of (Euclid, Elements, X, 4).
#pragma once

#include "exact/ratio.hpp"

namespace couplet {

// The largest ratio that goes into both a whole number of times, never negative: gcd of the numerators over lcm of the
// denominators. 0 is a multiple of all: the measure of 0 and b is |b|.
[[nodiscard]] Ratio common_measure(const Ratio& a, const Ratio& b);

}  // namespace couplet
