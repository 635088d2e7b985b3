// Gear shapes: what a gear of given sizes and bore looks like: web, hub, holes, keyway; a ring's rim and bolts.
//
// Lengths in mm. A gear without a profile is a plain disc of its tip diameter, or a plain rim.
#pragma once

#include "solid/shape.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

// `face_mm` may be more than the gear's own, where it is in mesh in several layers.
struct HubWishes {
    double bore_mm = 0.0;
    double face_mm = 0.0;
    bool keyed = false;
};

[[nodiscard]] Shape external_gear_shape(const GearSizes& sizes, const ProfileResult& profile, const HubWishes& hub);
[[nodiscard]] Shape ring_shape(const GearSizes& sizes, const ProfileResult& profile, double face_mm, bool bolted);

// 0 where a key would leave too little metal.
[[nodiscard]] double key_width_mm(const GearSizes& sizes, double bore_mm);

// Outlines of turned parts, from z = 0 up; edges broken. With a bore, its edge is broken too where the wall allows it.
[[nodiscard]] TurnedShape turned_bar(double radius_mm, double length_mm, double chamfer_mm, double bore_mm = 0.0);

}  // namespace couplet
