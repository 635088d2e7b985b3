#include "tooth/involute.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace couplet {

double involute(double pressure_angle_rad) { return std::tan(pressure_angle_rad) - pressure_angle_rad; }

double inverse_involute(double value) {
    if (!(value >= 0.0)) return std::numeric_limits<double>::quiet_NaN();
    if (value == 0.0) return 0.0;
    // Near 0 the involute is alpha^3 / 3; far out the angle nears a quarter turn. Newton converges from either guess,
    // the function being convex: d inv / d alpha = tan(alpha)^2.
    double angle = value < 1.0 ? std::cbrt(3.0 * value) : std::numbers::pi / 2 - 1.0 / (value + std::numbers::pi / 2);
    for (int i = 0; i < 60; ++i) {
        const double slope = std::tan(angle) * std::tan(angle);
        const double next = std::clamp(angle - (involute(angle) - value) / slope, 0.5 * angle, 0.5 * (angle + std::numbers::pi / 2));
        if (next == angle) break;
        angle = next;
    }
    return angle;
}

}  // namespace couplet
