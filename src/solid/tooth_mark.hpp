// ToothMark: the inlaid mark in the face of a tooth, a slot with round ends along the tooth's middle.
//
// In the frame of tooth/profile.hpp, the tooth on +X; lengths in mm.
#pragma once

#include <optional>
#include <vector>

#include "solid/contour.hpp"

namespace couplet {

// From the middle of one round end to that of the other, as distances from the axis.
struct ToothMark {
    double tip_mm;
    double root_mm;
    double half_width_mm;

    // +1 for a gear, -1 for a ring.
    [[nodiscard]] double to_tip() const { return tip_mm > root_mm ? 1.0 : -1.0; }
};

// About half of the tooth's thickness wide, from a little below the tip to the foot; shorter or narrower where the
// tooth has no room for that, and nothing where it has none. `tooth` is the boundary of its metal, from the foot of one
// flank over the tip to the foot of the other.
[[nodiscard]] std::optional<ToothMark> mark_in_tooth(const GearSizes& sizes, const std::vector<PlanePoint>& tooth);

// From the end at the root up the side below +X to the end at the tip, the middle of the loop, and back above.
[[nodiscard]] Loop mark_loop(const ToothMark& mark, double turned_rad, float z_mm, double tolerance_mm);

}  // namespace couplet
