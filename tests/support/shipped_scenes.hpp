// Shipped scenes: the demo trains by their names.
#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "scene/scene.hpp"

namespace couplet {

[[nodiscard]] inline Train shipped_train(const std::string& name) {
    const std::filesystem::path file = std::filesystem::path(COUPLET_ROOT) / "scenes" / (name + ".toml");
    return read_scene(load_scene_text(file), file.string());
}

// In alphabetical order, without the files' ending.
[[nodiscard]] inline std::vector<std::string> shipped_names() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(COUPLET_ROOT) / "scenes"))
        if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
    std::ranges::sort(names);
    return names;
}

}  // namespace couplet
