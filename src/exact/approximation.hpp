// Approximation: the best fraction with a bounded denominator, from the continued fraction of a value.
#pragma once

#include <vector>

#include "exact/ratio.hpp"

namespace couplet {

// Partial quotients of the value's continued fraction, [a0; a1, a2, ...]; the last one is above 1 unless it is a0.
[[nodiscard]] std::vector<Ratio> continued_fraction(const Ratio& value);

// Its convergents, in order; the last one is the value.
[[nodiscard]] std::vector<Ratio> convergents(const Ratio& value);

// The fraction nearest to the value among those with a denominator of at most `most_denominator` (a whole number of
// at least 1) and a numerator of magnitude at most `most_numerator` (likewise); of two equally near the one with the
// smaller denominator. A best approximation is a convergent or an intermediate fraction (Khinchin, Continued
// Fractions, theorem 15).
[[nodiscard]] Ratio best_approximation(const Ratio& value, const Ratio& most_numerator, const Ratio& most_denominator);

}  // namespace couplet
