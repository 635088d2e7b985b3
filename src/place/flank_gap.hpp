// Flank gap: the distance between the flanks of two gears, by the involute's own mathematics.
//
// The common normal of two involutes is the tangent of both base circles; along it their distance stays the same while
// the gears turn. Lengths in mm, in the normal section. (Any text on gears; the sizes are those of gear_pair.hpp.)
#pragma once

#include <optional>

#include "tooth/gear_pair.hpp"

namespace couplet {

struct FlankGap {
    double ahead_mm;   // on the counter-clockwise side of the first gear's teeth
    double behind_mm;  // on the other side
    PairSizes pair;    // at the distance given
    bool contact;      // false: no part of the line of action belongs to both flanks
};

// First the external gear. `miss_pitches` is how far the teeth are from standing in the middle of their gaps, the first
// gear turned backwards (clockwise) being positive, within half of 0. Nothing where the base circles do not allow the
// distance.
[[nodiscard]] std::optional<FlankGap> flank_gap(const GearSizes& first, const GearSizes& second,
                                                double centre_distance_mm, double miss_pitches);

}  // namespace couplet
