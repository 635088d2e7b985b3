// What a solid says about itself: whether it is closed, how much it holds, which way it faces.
//
// Written from its triangles alone. Lengths in mm.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "solid/solid.hpp"
#include "tooth/profile.hpp"

namespace couplet {

using Point3 = std::array<double, 3>;
using Triangle3 = std::array<Point3, 3>;

[[nodiscard]] Point3 position_of(const SolidVertex& vertex);
[[nodiscard]] Point3 normal_of(const SolidVertex& vertex);
[[nodiscard]] Triangle3 corners_of(const Solid& solid, std::size_t triangle);
// Twice the area, along the normal that the winding gives.
[[nodiscard]] Point3 winding_of(const Triangle3& triangle);
[[nodiscard]] double dot3(const Point3& a, const Point3& b);

// Every directed edge, by its positions' bits, once, and its reverse once.
[[nodiscard]] bool is_closed(const Solid& solid);
// By the divergence theorem.
[[nodiscard]] double volume_mm3(const Solid& solid);
// The cosine between winding and normal where they differ most. Triangles so thin (a millionth of the part) that the
// rounding to floats may have turned them over are left out.
[[nodiscard]] double worst_facing(const Solid& solid);
[[nodiscard]] double area_mm2(const Solid& solid, const std::function<bool(const SolidVertex&)>& wanted);
// Mean place of a mark on the face that looks up or down.
[[nodiscard]] PlanePoint mark_middle(const Solid& solid, bool up);
// The farthest from the axis, and the least and greatest height.
[[nodiscard]] std::array<double, 3> reach_of(const Solid& solid);

}  // namespace couplet
