// Camera path: where a clip is seen from, at every part of it.
//
// A closed path: part 1 is part 0 again, to the last bit.
#pragma once

#include <vector>

#include "exact/ratio.hpp"
#include "view/stage.hpp"

namespace couplet {

// turntable: once round the upright. rocking: to and fro by kRock_deg. shots: from keyed view to keyed view and back to
// the first.
enum class PathKind { turntable, fixed, rocking, shots };
inline constexpr double kRock_deg = 25.0;

struct KeyedView {
    double at = 0.0;  // part of the clip, rising
    Camera camera;
};

struct CameraPath {
    PathKind kind = PathKind::turntable;
    Camera camera;                 // at part 0; of shots: where there are none
    std::vector<KeyedView> views;  // of shots
};

[[nodiscard]] Camera camera_at(const CameraPath& path, const Ratio& part);

// The camera moved so that the machine fills the picture from every side alike: a turntable must not breathe.
[[nodiscard]] Camera fitted_all_round(const Camera& camera, const Stage& stage, const StageLook& look,
                                      double width_over_height);

}  // namespace couplet
