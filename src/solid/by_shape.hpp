// The solid of each kind of shape, one function a file; solid_of (shape.hpp) chooses among them.
//
// Lengths in mm; the tolerance is above 0. A shape without metal (no width, no teeth, no outline) has an empty solid.
#pragma once

#include "solid/shape.hpp"

namespace couplet {

[[nodiscard]] Solid gear_solid(const GearShape& gear, double tolerance_mm);
[[nodiscard]] Solid ring_solid(const RingShape& ring, double tolerance_mm);
[[nodiscard]] Solid plate_solid(const PlateShape& plate, double tolerance_mm);
[[nodiscard]] Solid turned_solid(const TurnedShape& turned, double tolerance_mm);
[[nodiscard]] Solid bar_solid(const BarShape& bar, double tolerance_mm);

// A chamfer of up to twice the tolerance, whose edge moves by hardly more than that, is left out; none takes more than
// its share of a thickness.
[[nodiscard]] double chamfer_for(double wished_mm, double thickness_mm, double tolerance_mm);

// The rim's outer diameter: a usual one where the shape's has no room for the teeth.
[[nodiscard]] double outside_of(const RingShape& ring);

}  // namespace couplet
