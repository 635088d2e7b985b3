#include <algorithm>
#include <cmath>
#include <numbers>

#include "solid/by_shape.hpp"
#include "solid/toothed_part.hpp"

namespace couplet {

namespace {

constexpr PlanePoint kAxis{0.0, 0.0};

// Corners stand where the bolts are cut from each other, and no chord comes near the teeth.
Contour outside_contour(const RingShape& ring, double foot_mm, double tolerance_mm) {
    const double radius = outside_of(ring) / 2.0;
    const double fine_mm = std::min(tolerance_mm, std::max(1e-4 * radius, (radius - foot_mm) / 8.0));
    return circle_contour(kAxis, radius, circle_sides(radius, fine_mm, corners_for_holes(ring.bolts)), false);
}

}  // namespace

double outside_of(const RingShape& ring) {
    const GearSizes& sizes = ring.profile.sizes;
    constexpr double kLeastRim = 0.5;   // x module, beyond the root and the chamfers
    constexpr double kUsualRim = 2.25;  // x module
    const double root = std::max(sizes.root_diameter_mm, sizes.tip_diameter_mm);
    const double module = sizes.spec.module_mm;
    return ring.outside_mm >= root + 2.0 * kLeastRim * module ? ring.outside_mm : root + 2.0 * kUsualRim * module;
}

Solid ring_solid(const RingShape& ring, double tolerance_mm) {
    Solid solid;
    const double width = ring.face_width_mm;
    if (ring.profile.sizes.spec.teeth < 3 || width <= 0.0) return solid;
    // Both chamfers together leave half of the thinnest rim.
    const double chamfer = std::min(ring.chamfer_mm, 0.12 * ring.profile.sizes.spec.module_mm);
    const ToothedPart part = toothed_part(ring.profile, width, chamfer, ring.marked, tolerance_mm);
    const ToothedEnds ends = add_teeth(solid, part);
    const Contour outside = outside_contour(ring, farthest_reach(ends.top.foot, kAxis), tolerance_mm);
    const double broken = inset_with_room(outside, chamfer_for(chamfer, width, tolerance_mm));
    const WallEnds round = add_wall(solid, outside, {0.0, width, broken, broken});
    const double first_bolt = ring.bolts > 0 ? std::numbers::pi / ring.bolts : 0.0;
    HoleOpenings bolts = add_holes(solid, hole_circle(ring.bolts, ring.bolt_mm, ring.bolt_circle_mm, first_bolt),
                                   FaceBand(round.bottom, ends.bottom.foot, kAxis),
                                   FaceBand(round.top, ends.top.foot, kAxis), tolerance_mm);
    add_toothed_face(solid, part, ends.bottom, false, round.bottom, std::move(bolts.bottom));
    add_toothed_face(solid, part, ends.top, true, round.top, std::move(bolts.top));
    return solid;
}

}  // namespace couplet
