// Drawing: every gear with its diameters, and the assembled train, to scale on sheets of A4.
//
// SVG 1.1 in millimetres of paper: sheets of 210 x 297 one below the other, the first with the train in its start pose,
// the others with two gears each. Scales are those of paper.hpp. No letter is smaller than
// 3 mm. Gears show the profile that profile.hpp makes; where a gear has none, or its teeth are too fine for the paper,
// its circles stand for it.
#pragma once

#include <string>

#include "tooth/train_teeth.hpp"

namespace couplet {

[[nodiscard]] std::string size_drawing(const Train& train, const TrainTeeth& teeth);

}  // namespace couplet
