// Profile: the outline of one tooth as four closed-form curves, and polygons sampled from them.
//
// Frame: transverse plane, origin on the gear's axis, the middle of a tooth (of metal, for an internal gear too) on +X.
// The curves are those of the flank above +X; the one below is their mirror image. Lengths in mm, angles in radians.
//
//     flank    P(t) = r_b e(c - t) + r_b t e'(c - t)   r_b base radius, t roll angle, e radial, e' tangential: the
//              involute, c its origin; for an internal gear its mirror image in the middle of the space
//     fillet   external: the envelope that the rack's rounded corner leaves, a trochoid (of an ellipse where helical),
//              by the corner's own angle phi; undercut where it meets the involute above its origin
//              internal: an arc of the rack's radius, or less where the space is too narrow, tangent to flank and root
//     root     arc of the root circle to the middle of the space
//     tip      arc of the tip circle to the middle of the tooth
//
// Sources: the envelope by the law of gearing (the common normal passes through the pitch point; any text); an involute
// moved along its normals is the same involute turned (ISO 21771:2007, clause 4, from memory).
#pragma once

#include <optional>
#include <vector>

#include "tooth/gear.hpp"

namespace couplet {

struct PlanePoint {
    double x_mm;
    double y_mm;
};

// The involute part of a flank above +X.
struct FlankCurve {
    double base_radius_mm;
    double origin_rad;  // c, seen from the middle of the convex side: the tooth, or the space of an internal gear
    double inner_roll;  // t where the involute begins, nearest to the axis
    double outer_roll;  // t where it ends
};

struct ToothProfile {
    GearSizes sizes;
    FlankCurve flank;
    // External: the corner's angle from which on the trochoid is left, 0 being the root; internal: of the arc.
    double fillet_end_rad;
    double root_fillet_radius_mm;  // of the corner that made it; less than the rack's where there was no room
    bool undercut;
    double
        undercut_roll;  // how far below the involute's origin the rack would have cut, as a roll angle; 0: not at all

    // Where the involute begins and ends, as diameters (form diameters).
    [[nodiscard]] double inner_form_diameter_mm() const;
    [[nodiscard]] double outer_form_diameter_mm() const;
};

// What stops a tooth from having a profile at all.
enum class ProfileFault {
    pointed_before_tip,  // the flanks meet below the tip circle
    no_room_at_root,     // the space closes above the root circle, or its fillet has no room
    tip_below_fillet,    // the fillet reaches the tip circle: no involute is left
    root_inside_axis,    // the root circle has no radius (for an internal gear, the tip circle)
    tip_inside_base,     // an internal gear's tip circle lies so far inside its base circle that no flank reaches it
    negative_fillet,     // the rack's corner has a radius below 0
    cut_off              // the undercuts of both sides meet inside the tooth
};

struct ProfileResult {
    std::optional<ToothProfile> profile;
    ProfileFault fault{};  // where there is no profile
};

[[nodiscard]] ProfileResult profile_of(const GearSizes& sizes);

// A point of the flank above +X by its roll angle, within the flank's range or beyond.
[[nodiscard]] PlanePoint flank_point(const ToothProfile& profile, double roll);
// A point of the fillet above +X, for 0 <= corner <= fillet_end_rad.
[[nodiscard]] PlanePoint fillet_point(const ToothProfile& profile, double corner_rad);

// One pitch of the outline, counter-clockwise from the middle of a space to the middle of the next, the last point left
// out; no chord leaves its curve by more than the tolerance. 0.001 module is the usual one.
[[nodiscard]] std::vector<PlanePoint> tooth_polygon(const ToothProfile& profile, double tolerance_mm);

// All teeth: the tooth's polygon turned, so a closed ring of teeth x points.
[[nodiscard]] std::vector<PlanePoint> gear_polygon(const ToothProfile& profile, double tolerance_mm);

}  // namespace couplet
