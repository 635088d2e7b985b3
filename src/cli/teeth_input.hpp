// Teeth input: errors of a train's teeth, told as errors of its scene.
#pragma once

#include <utility>

#include "cli/scene_input.hpp"
#include "scene/scene.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

[[nodiscard]] SceneError scene_error(const SceneInput& scene, const TeethError& error);

// What `work` returns; a TeethError out of it becomes a SceneError of the scene.
template <class Work>
[[nodiscard]] auto of_teeth(const SceneInput& scene, Work work) {
    try {
        return work();
    } catch (const TeethError& error) {
        throw scene_error(scene, error);
    }
}

}  // namespace couplet
