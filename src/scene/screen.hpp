// Screen: refuses, in one quick pass, text that no parser should be given.
//
// The TOML library nests a table for each part of a dotted key and takes tables apart by recursion, keeps a hundred
// bytes or more for each value, takes time quadratic in the number of headers, and reports invalid UTF-8 near, not at,
// its place.
#pragma once

#include <string>
#include <string_view>

namespace couplet {

// More parts than any key of a scene has, and more values, and headers and dotted keys, than a scene of 100,000
// members.
inline constexpr std::size_t kMostKeyParts = 16;
inline constexpr std::size_t kMostSceneValues = 4000000;
inline constexpr std::size_t kMostSceneTables = 500000;

// Throws SceneError where the text is empty, too large, not UTF-8, or holds too many values or too long a key.
void screen(std::string_view text, const std::string& file_name);

}  // namespace couplet
