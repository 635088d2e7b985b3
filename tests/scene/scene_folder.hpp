// Scene folder: the scenes that come with the program.
#pragma once

#include <algorithm>
#include <filesystem>
#include <vector>

namespace couplet {

inline std::vector<std::filesystem::path> shipped_scenes() {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(COUPLET_ROOT) / "scenes"))
        if (entry.path().extension() == ".toml") paths.push_back(entry.path());
    std::ranges::sort(paths);
    return paths;
}

}  // namespace couplet
