// glTF: a train as an animated model, in one binary file (.glb).
//
// Nodes follow the riding: the frame is the root, each copy of a member a child of what it rides on, standing where its
// axis does and turned by its joint's phase; the parts of a copy are its children. Shapes that several parts share are
// one mesh. The animation is one loop of the setting (loop_animation.hpp), at the drivers' own speeds. Lengths in
// metres and +Y up, as glTF has them: the root turns Z up into Y up, and all below it stands as in the train's own
// frame. Exact ratios are in `extras`, as the JSON of the coupling sheet writes them: of a copy its `turns` against the
// frame and its joint's `per_driver_turn`; of the scene the setting, and how the loop ends.
//
// Source: glTF 2.0 Specification, Khronos Group; units and axes 3.4, binary files 4.4, interpolation appendix C (from
// memory; files are checked by the Khronos validator).
#pragma once

#include <string>

#include "export/loop_animation.hpp"

namespace couplet {

struct GltfOptions {
    double tolerance_mm = 0.05;  // how far a chord may leave its curve; above 0
    LoopWish loop = LoopWish::usual;
};

// A setting that does not move gives a model that stands. ExportRefused where it would be larger than the 4 GiB that
// the file's counters can say, and as loop_animation_of says.
[[nodiscard]] std::string glb_of(const ExportModel& model, const GltfOptions& options);

}  // namespace couplet
