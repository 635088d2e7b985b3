#include "tooth/involute.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace couplet {

double involute(double pressure_angle_rad) {
    if (pressure_angle_rad > 0.1) return std::tan(pressure_angle_rad) - pressure_angle_rad;
    // The difference would lose its digits; the series of the tangent keeps them.
    const double a2 = pressure_angle_rad * pressure_angle_rad;
    constexpr std::array kSeries = {929569.0 / 638512875, 21844.0 / 6081075, 1382.0 / 155925, 62.0 / 2835,
                                    17.0 / 315,           2.0 / 15,          1.0 / 3};
    double sum = 0.0;
    for (const double term : kSeries) sum = sum * a2 + term;
    return sum * a2 * pressure_angle_rad;
}

double inverse_involute(double value) {
    if (!(value >= 0.0)) return std::numeric_limits<double>::quiet_NaN();
    if (value == 0.0) return 0.0;
    // Near 0 the involute is alpha^3 / 3; far out the angle nears a quarter turn. Newton converges from either guess,
    // the function being convex: d inv / d alpha = tan(alpha)^2.
    double angle = value < 1.0 ? std::cbrt(3.0 * value) : std::numbers::pi / 2 - 1.0 / (value + std::numbers::pi / 2);
    for (int i = 0; i < 60; ++i) {
        const double slope = std::tan(angle) * std::tan(angle);
        const double next =
            std::clamp(angle - (involute(angle) - value) / slope, 0.5 * angle, 0.5 * (angle + std::numbers::pi / 2));
        const bool settled = std::abs(next - angle) <= 2e-16 * angle;
        angle = next;
        if (settled) break;
    }
    return angle;
}

}  // namespace couplet
