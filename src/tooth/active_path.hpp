// Active path: the part of the line of action on which the flanks that two gears really have touch.
//
// The path between the tip circles (gear_pair.hpp), cut where a partner's involute ends: at the form diameter above its
// fillet or undercut, or at the end of a ring's flank. Lengths in mm along the line of action from the pitch point, as
// in gear_pair.hpp. Sources: ISO 21771:2007 (active and form diameters, from memory); any text for sliding.
#pragma once

#include <optional>

#include "tooth/gear_pair.hpp"
#include "tooth/profile.hpp"

namespace couplet {

struct ActivePath {
    double start_mm;
    double end_mm;         // below start_mm: the flanks never touch
    double contact_ratio;  // 0 where they never touch
    // Largest specific sliding of each gear, (v_own - v_other) / v_own, at the end of contact nearest to its root.
    // Nothing where the flanks never touch, or where the own flank has no curvature radius there.
    std::optional<double> first_sliding;
    std::optional<double> second_sliding;
};

// The profiles in the pair's order.
[[nodiscard]] ActivePath active_path(const ToothProfile& first, const ToothProfile& second, const PairSizes& pair);

}  // namespace couplet
