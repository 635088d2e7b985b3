// Outline: plane geometry on polygons, for tests that ask the geometry itself.
//
// Written without the room under test: segments, areas, crossings, distances. Lengths in mm, angles in radians.
#pragma once

#include <cmath>
#include <numbers>
#include <optional>
#include <vector>

#include "tooth/gear_pair.hpp"
#include "tooth/profile.hpp"

namespace couplet {

using Outline = std::vector<PlanePoint>;

inline constexpr double kDegree = std::numbers::pi / 180.0;

// A gear of ISO 53 profile A.
[[nodiscard]] GearSpec gear_a(double module_mm, int teeth, double shift, double helix_deg = 0.0);
[[nodiscard]] GearSpec ring_a(double module_mm, int teeth, double shift, double helix_deg = 0.0);
// std::logic_error where the gear has none.
[[nodiscard]] ToothProfile profile_for(const GearSpec& spec);

[[nodiscard]] PlanePoint turned(const PlanePoint& p, double angle_rad);
[[nodiscard]] Outline turned(const Outline& outline, double angle_rad);
[[nodiscard]] Outline moved(const Outline& outline, double x_mm, double y_mm);

// One pitch of the outline with both its ends.
[[nodiscard]] Outline open_tooth(const ToothProfile& profile, double tolerance_mm);

// Counter-clockwise positive.
[[nodiscard]] double area(const Outline& closed);
[[nodiscard]] double perimeter(const Outline& closed);
[[nodiscard]] bool is_inside(const PlanePoint& p, const Outline& closed);
// To the open chain of segments.
[[nodiscard]] double distance_to(const PlanePoint& p, const Outline& chain);
// Whether two segments that do not follow each other cross, the outline being closed.
[[nodiscard]] bool crosses_itself(const Outline& closed);
// Where the chain crosses the line through `from` in the direction of the angle: signed distances from `from`.
[[nodiscard]] std::vector<double> crossings(const Outline& chain, const PlanePoint& from, double direction_rad);
// The largest angle from +X at which the chain crosses a circle round the origin; nothing where it does not.
[[nodiscard]] std::optional<double> upper_angle_at(const Outline& chain, double radius_mm);

}  // namespace couplet
