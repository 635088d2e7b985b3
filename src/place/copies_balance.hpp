// Copies' balance: how evenly identical copies round a central gear share its load.
//
// The forces of the copies on the central gear are alike, each turned with its copy. Their sum is what its bearing has
// to carry: nothing where copies stand at equal angles. Copies whose teeth come into mesh at the same instant add up
// what a mesh lets through of its own unevenness; copies that come one after the other even it out. (Texts on planetary
// gears, on load sharing and phasing of planets; from memory.)
#pragma once

#include <span>

#include "exact/ratio.hpp"

namespace couplet {

struct CopiesBalance {
    double residual = 0.0;  // of the sum of the copies' forces, as a part of all of them; 0: they cancel, 1: one copy
    int in_step = 1;        // the most copies that come into mesh at the same instant

    friend bool operator==(const CopiesBalance&, const CopiesBalance&) = default;
};

// Of copies at these places (turns round the axis, at least one) on a central gear of so many teeth.
[[nodiscard]] CopiesBalance balance_of(std::span<const Ratio> places_turns, int central_teeth);

}  // namespace couplet
