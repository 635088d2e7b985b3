// Holes: round holes through a band between two loops, from one face to another.
//
// Only those are made for which both faces have a sector (flat_face.hpp). Lengths in mm.
#pragma once

#include "solid/flat_face.hpp"
#include "solid/wall.hpp"

namespace couplet {

// In the same order: the openings of the lower and of the upper face.
struct HoleOpenings {
    std::vector<Opening> bottom;
    std::vector<Opening> top;
};

// Adds the walls of the holes that have room. Both bands have the same middle.
HoleOpenings add_holes(Solid& solid, std::span<const Hole> holes, FaceBand bottom, FaceBand top, double tolerance_mm);

// Holes equally spaced round the axis, the first in a direction; none where a number is no sound one.
[[nodiscard]] std::vector<Hole> hole_circle(int count, double diameter_mm, double circle_mm, double first_rad);

// A multiple of which a circle's corners should be, so that there are some halfway between its holes.
[[nodiscard]] int corners_for_holes(int count);

}  // namespace couplet
