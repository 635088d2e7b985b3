// Arc outline: a gear's exact profile as a closed chain of arcs and lines, for programs that know no involutes.
//
// Frame, units and curves are those of tooth/profile.hpp. Arcs of the tip and root circles stay what they are; flanks
// and fillets become pairs of arcs that are tangent to each other and to the curve at either end (biarcs), so that the
// chain has corners only where the profile has.
//
// Source: biarcs by their control polygon with arms of equal length (K. Bolton, Biarc curves, Computer-Aided Design 7,
// 1975, from memory; derived anew in the code: both arms and the joint between them follow from end points and
// tangents).
#pragma once

#include <vector>

#include "tooth/profile.hpp"

namespace couplet {

// A corner of the chain, and how it goes on to the next one: the bulge is the tangent of a quarter of the arc's angle,
// positive where it turns counter-clockwise; 0 is a line.
struct ArcCorner {
    PlanePoint at;
    double bulge;
};

// Closed: the last corner goes on to the first.
using ArcLoop = std::vector<ArcCorner>;

// Counter-clockwise, a tooth in the middle on +X. Chain and profile are nowhere farther apart than the tolerance (above
// 0) as far as 30 points of each pair of arcs show.
[[nodiscard]] ArcLoop gear_arcs(const ToothProfile& profile, double tolerance_mm);

// Turned about the origin, then moved.
[[nodiscard]] ArcLoop turned_and_moved(const ArcLoop& loop, double turned_rad, const PlanePoint& to);

// How far a point lies from the arc, or line, between two points.
[[nodiscard]] double distance_to_arc_mm(const PlanePoint& point, const ArcCorner& from, const PlanePoint& to);

}  // namespace couplet
