// Involute: the involute function and its inverse.
//
// inv(alpha) = tan(alpha) - alpha, alpha the pressure angle in radians (ISO 21771:2007; any text on gears). Domain
// 0 <= alpha < pi/2, where it rises from 0 without bound. Relative error of both below 1e-14.
#pragma once

namespace couplet {

[[nodiscard]] double involute(double pressure_angle_rad);

// The pressure angle whose involute is the value. NaN for a negative value: no circle has it.
[[nodiscard]] double inverse_involute(double value);

}  // namespace couplet
