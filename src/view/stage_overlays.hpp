// Stage overlays: pitch circles, centre lines, arrows of speed, contact points and names, added to a picture.
//
// All stand at the top face of the gears they belong to, in the observer's frame. A part of stage.hpp.
#pragma once

#include <functional>

#include "view/stage.hpp"

namespace couplet {

void add_overlays(Picture& picture, const Stage& stage, const Standing& standing, const StageLook& look,
                  const glm::dmat4& observer_from_frame, const std::function<double(const Part&)>& z_mm_of);

// How far round an arrow of speed runs, in radians, signed like the rate: the fastest member of the picture the
// farthest, all others in proportion to the square root of their rate, so that slow ones are still seen.
[[nodiscard]] double arrow_sweep_rad(double rate, double fastest_rate);

}  // namespace couplet
