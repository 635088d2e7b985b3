// Shape: what a part of the machine looks like, as a few numbers; solid_of makes the mesh.
//
// Each shape stands in its own frame: axis on +Z, from z = 0 up to its thickness, lengths in mm, angles in radians.
// Sharp outer edges are broken by a chamfer of 45 degrees, unless it is less than two tolerances wide. A chord of the
// mesh leaves its curve by no more than the tolerance asked for: the view asks coarsely where a part is small on the
// screen, an export finely.
#pragma once

#include <array>
#include <variant>
#include <vector>

#include "solid/solid.hpp"
#include "tooth/profile.hpp"

namespace couplet {

// A round hole along Z.
struct Hole {
    PlanePoint centre;
    double diameter_mm;

    friend bool operator==(const Hole& a, const Hole& b) {
        return a.centre.x_mm == b.centre.x_mm && a.centre.y_mm == b.centre.y_mm && a.diameter_mm == b.diameter_mm;
    }
};

// An external gear, a tooth centred on +X at z = 0. Helical teeth twist about the axis with their hand; the tooth is on
// +X at half of the face width then, where place/ counts.
struct GearShape {
    ToothProfile profile;
    double face_width_mm = 0.0;
    double chamfer_mm = 0.0;    // of the tips' and the bore's edges
    double bore_mm = 0.0;       // 0: none
    double key_width_mm = 0.0;  // a keyway on +X of the bore, half as deep as wide; 0: none
    // A web thinner than the face, recessed alike from both faces between two circles; web_mm = face width: none.
    double web_mm = 0.0;
    double hub_mm = 0.0;  // diameter of the hub that is left round the bore
    double rim_mm = 0.0;  // diameter inside the rim that is left under the teeth
    int holes = 0;        // through the web, equally spaced, the first on +X
    double hole_mm = 0.0;
    double hole_circle_mm = 0.0;
    bool marked = true;  // the tooth on +X carries an inlaid mark on both faces
};

// An internal gear as a rim with bolt holes; metal of a tooth is centred on +X, as for GearShape.
struct RingShape {
    ToothProfile profile;
    double face_width_mm = 0.0;
    double chamfer_mm = 0.0;
    double outside_mm = 0.0;  // diameter of the rim
    int bolts = 0;            // through the rim, equally spaced, the first half a spacing from +X
    double bolt_mm = 0.0;
    double bolt_circle_mm = 0.0;
    bool marked = true;
};

// A flat plate round the axis: the convex hull of discs, with holes. Each hole but one in the middle lies within the
// sector of one disc (the holes are centred on lobes).
struct PlateShape {
    std::vector<Hole> lobes;  // discs; the hull's outline follows them
    std::vector<Hole> holes;
    double thickness_mm = 0.0;
    double chamfer_mm = 0.0;
};

// A body of revolution: shafts, pins, posts, bosses, discs. The outline's corners go from the lower end outwards and up
// to the upper end: counter-clockwise with the radius to the right and z up. It begins and ends on the axis (radius 0)
// or, where there is a bore, at the bore's radius, and the bore closes it. Every corner is sharp.
struct TurnedShape {
    struct Corner {
        double radius_mm;
        double z_mm;

        friend bool operator==(const Corner&, const Corner&) = default;
    };
    std::vector<Corner> outline;
    double bore_mm = 0.0;
};

// A rectangular bar on the axis' +X side: keys, crank arms. From (x0, y0, z0) to (x1, y1, z1).
struct BarShape {
    std::array<double, 3> from_mm;
    std::array<double, 3> to_mm;
    double chamfer_mm = 0.0;
};

using Shape = std::variant<GearShape, RingShape, PlateShape, TurnedShape, BarShape>;

// Tolerance above 0; one finer than a millionth of the part, which floats cannot follow, is taken as that. Where the
// numbers contradict each other (a hole wider than its web, a hub wider than its rim) the feature is left out: a
// picture is better plain than broken.
[[nodiscard]] Solid solid_of(const Shape& shape, double tolerance_mm);

// The smallest sphere round the axis' point (0, 0, middle) that holds it, and its extent along Z.
struct Extent {
    double radius_mm;  // from the axis
    double bottom_mm;
    double top_mm;
};
[[nodiscard]] Extent extent_of(const Shape& shape);

}  // namespace couplet
