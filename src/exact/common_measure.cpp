#include "exact/common_measure.hpp"

namespace couplet {

Ratio common_measure(const Ratio& a, const Ratio& b) {
    if (a.is_zero()) return b.magnitude();
    if (b.is_zero()) return a.magnitude();
    const Ratio below_a = a.denominator();
    const Ratio below_b = b.denominator();
    const Ratio below_both = below_a / whole_gcd(below_a, below_b) * below_b;
    return whole_gcd(a.numerator(), b.numerator()) / below_both;
}

}  // namespace couplet
