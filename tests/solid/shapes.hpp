// Shapes that several tests build. Lengths in mm, helix in degrees.
#pragma once

#include "solid/shape.hpp"
#include "tooth/outline.hpp"

namespace couplet {

[[nodiscard]] inline GearShape plain_gear(const GearSpec& spec, double width_mm) {
    GearShape gear;
    gear.profile = profile_for(spec);
    gear.face_width_mm = width_mm;
    gear.marked = false;
    return gear;
}

// With everything: chamfers, keyed bore, web with holes, mark.
[[nodiscard]] inline GearShape full_gear(double helix_deg = 0.0) {
    GearShape gear = plain_gear(gear_a(3.0, 60, 0.0, helix_deg), 20.0);
    gear.chamfer_mm = 0.36;
    gear.bore_mm = 20.0;
    gear.key_width_mm = 5.0;
    gear.web_mm = 9.0;
    gear.hub_mm = 34.0;
    gear.rim_mm = 150.0;
    gear.holes = 6;
    gear.hole_mm = 25.0;
    gear.hole_circle_mm = 92.0;
    gear.marked = true;
    return gear;
}

[[nodiscard]] inline RingShape full_ring(int teeth, double helix_deg = 0.0) {
    RingShape ring;
    ring.profile = profile_for(ring_a(3.0, teeth, 0.0, helix_deg));
    ring.face_width_mm = 12.0;
    ring.chamfer_mm = 0.36;
    ring.outside_mm = ring.profile.sizes.root_diameter_mm + 14.0;
    ring.bolts = 8;
    ring.bolt_mm = 2.4;
    ring.bolt_circle_mm = ring.profile.sizes.root_diameter_mm + 7.0;
    return ring;
}

// Lobes on a circle, a hole in each and one in the middle.
[[nodiscard]] inline PlateShape lobed_plate(int lobes) {
    PlateShape plate;
    plate.thickness_mm = 6.0;
    plate.chamfer_mm = 0.4;
    for (int k = 0; k < lobes; ++k) {
        const PlanePoint centre = turned({67.0, 0.0}, 2.0 * std::numbers::pi * k / lobes);
        plate.lobes.push_back({centre, 30.0});
        plate.holes.push_back({centre, 10.0});
    }
    plate.holes.push_back({{0.0, 0.0}, 20.0});
    return plate;
}

}  // namespace couplet
