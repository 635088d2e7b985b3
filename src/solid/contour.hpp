// Contour: a closed line in a part's plane with the normals of its curve, from which walls are drawn along Z.
//
// Contours run counter-clockwise; normals point out of the metal, which lies outside a hole and inside everything else.
// A point where two curves meet at a corner of more than 30 degrees keeps both normals, any other has one. Lengths in
// mm, angles in radians.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "solid/shape.hpp"

namespace couplet {

struct ContourPoint {
    PlanePoint at;
    PlanePoint before;  // normal of the line that ends here
    PlanePoint after;   // and of the one that starts here

    [[nodiscard]] bool is_sharp() const { return before.x_mm != after.x_mm || before.y_mm != after.y_mm; }
};

struct Contour {
    std::vector<ContourPoint> points;
    bool hole = false;
};

// A contour's places at one height, as vertices have them. Whatever shares an edge shares the loop, to the last bit.
using Position = std::array<float, 3>;
using Loop = std::vector<Position>;

[[nodiscard]] PlanePoint direction_at(double angle_rad);
[[nodiscard]] PlanePoint turned_by(const PlanePoint& p, double angle_rad);
[[nodiscard]] double cross(const PlanePoint& a, const PlanePoint& b);
[[nodiscard]] double dot(const PlanePoint& a, const PlanePoint& b);
[[nodiscard]] double distance_to_segment(const PlanePoint& p, const PlanePoint& a, const PlanePoint& b);

// The point with both normals, or with their mean where they hardly differ.
[[nodiscard]] ContourPoint corner_of(const PlanePoint& at, const PlanePoint& before, const PlanePoint& after);

// The largest angle whose chord stays within the tolerance; never more than 30 degrees.
[[nodiscard]] double chord_angle(double radius_mm, double tolerance_mm);
// Sides of a circle's polygon, a multiple of the number given.
[[nodiscard]] int circle_sides(double radius_mm, double tolerance_mm, int multiple = 1);

// First point on +X of the centre.
[[nodiscard]] Contour circle_contour(const PlanePoint& centre, double radius_mm, int sides, bool hole);
// A bore with a keyway on +X, its bottom half the width beyond the bore.
[[nodiscard]] Contour keyed_bore(double radius_mm, double key_width_mm, double tolerance_mm);
// The convex hull of discs, one or more.
[[nodiscard]] Contour hull_contour(std::span<const Hole> discs, double tolerance_mm);

// Moved into the metal by a distance, with as many points.
[[nodiscard]] Contour inset(const Contour& contour, double distance_mm);
// The largest inset up to the one wished for in whose course no line turns round; 0 where none does.
[[nodiscard]] double inset_with_room(const Contour& contour, double wished_mm);

[[nodiscard]] Loop placed(const Contour& contour, double z_mm, double turned_rad);

[[nodiscard]] PlanePoint in_plane(const Position& p);
// How near to the point the closed loop's edges come, and how far its corners go.
[[nodiscard]] double nearest_reach(const Loop& loop, const PlanePoint& from);
[[nodiscard]] double farthest_reach(const Loop& loop, const PlanePoint& from);

}  // namespace couplet
