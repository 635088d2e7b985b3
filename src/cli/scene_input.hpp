// Scene input: the scene that a verb works on, and the setting in it.
#pragma once

#include <optional>
#include <string>

#include "train/train.hpp"

namespace couplet {

struct SceneInput {
    std::string file;  // as it is called in messages
    Train train;       // its title is never empty: without one, the file's name stands for it
};

// Throws SceneError (scene/scene.hpp). An empty path means the default scene.
[[nodiscard]] SceneInput load_scene(const std::string& path);

// The setting of that name; nothing asked: the first. UsageError where there is none.
[[nodiscard]] const Setting& chosen_setting(const SceneInput& scene, const std::optional<std::string>& name);

}  // namespace couplet
