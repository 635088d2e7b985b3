// ToothContour: a gear's outline with as few points as a tolerance allows, and how its points make teeth.
//
// The first tooth is centred on +X. Tooth k's points are k pitch_points + i: i from 0, at the root, up its lower flank,
// over the tip and down the upper one to tooth_points - 1, then along the root up to the next tooth. Points i and
// tooth_points - 1 - i mirror each other in the tooth's middle. Where fillets meet in the middle of a space the last
// point is the next tooth's first. Lengths in mm.
#pragma once

#include "solid/contour.hpp"

namespace couplet {

struct ToothContour {
    Contour contour;
    std::size_t teeth;
    std::size_t pitch_points;
    std::size_t tooth_points;
    std::size_t flank_points;  // from the root to the tip, both ends counted

    [[nodiscard]] std::size_t index(std::size_t tooth, std::size_t point) const {
        return (tooth * pitch_points + point) % contour.points.size();
    }
};

// At least three teeth. At any tolerance the flanks' ends are there and a point between them.
[[nodiscard]] ToothContour tooth_contour(const ToothProfile& profile, double tolerance_mm);

}  // namespace couplet
