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

// What a path is made from. A shot changes what it says of this, and the next shot begins with that.
struct PathWish {
    PathKind kind = PathKind::turntable;
    Camera turned;                 // direction and projection; it holds nothing yet
    double zoom = 1.0;             // 1 shows everything
    MemberIndex look_at = kFrame;  // kFrame: the middle
};

// Of the start pose. Paths that go round are fitted from all sides alike: a turntable must not breathe.
[[nodiscard]] CameraPath path_of(const PathWish& wish, const Stage& stage, const StageLook& look,
                                 double width_over_height);

// The camera moved so that the machine fills the picture from every side alike, with its target on the upright through
// the middle.
[[nodiscard]] Camera fitted_all_round(const Camera& camera, const Stage& stage, const StageLook& look,
                                      double width_over_height);

}  // namespace couplet
