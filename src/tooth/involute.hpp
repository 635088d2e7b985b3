// Involute: the involute function and its inverse.
//
// inv(alpha) = tan(alpha) - alpha, alpha the pressure angle in radians (ISO 21771-1:2007, 3.5.2 names it; any text on
// gears). Domain 0 <= alpha < pi/2, where it rises from 0 without bound.
#pragma once

namespace couplet {

[[nodiscard]] double involute(double pressure_angle_rad);

// The pressure angle whose involute is the value, to the last bits of a double. NaN for a negative value: such a circle
// lies inside the base circle.
[[nodiscard]] double inverse_involute(double value);

}  // namespace couplet
