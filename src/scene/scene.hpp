// Scene: a train as a TOML 1.0 file, and back.
//
// Reading is strict: an unknown key, a wrong type, a name that no member has or a number outside its limits is an
// error that names the file, the line, the key, what was found and the nearest valid name. Every decimal is exact: it
// is read from the text, never by way of a float. Writing keeps the comments and the order of the text that was read
// wherever the change allows it, and replaces a file atomically.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

#include "train/train.hpp"

namespace couplet {

// what() is "file:line: what is wrong; what would be right", for the terminal.
struct SceneError : std::runtime_error {
    SceneError(std::string file_name, int at_line, std::string what_is_wrong, std::string what_is_right);

    std::string file;
    int line;  // from 1; 0: the file as a whole
    std::string wrong;
    std::string right;
};

// Throws SceneError for the first error, by line, in the text: of what is no TOML, else of keys, values and names, else
// of what makes no sense as a train. The train returned has no faults (train/faults.hpp). The order of the keys of
// `drive` is kept. `file_name` is only used in messages.
[[nodiscard]] Train read_scene(std::string_view text, const std::string& file_name);

// The text of a scene file; SceneError where it cannot be read or is larger than kMostSceneBytes.
inline constexpr std::size_t kMostSceneBytes = std::size_t{64} << 20;
[[nodiscard]] std::string load_scene_text(const std::filesystem::path& path);

// The canonical text of a train: keys in the order of the format's description, defaults left out. It reads as the same
// train. The train must have no faults and names as a scene gives them; std::invalid_argument where one of its numbers
// is no decimal.
[[nodiscard]] std::string write_scene(const Train& train);

// `text`, which reads as some train, changed as little as possible so that it reads as `changed`. Comments, order and
// layout of everything untouched stay; README.md says where they cannot. SceneError where `text` is no scene;
// std::invalid_argument as write_scene.
[[nodiscard]] std::string rewrite_scene(std::string_view text, const Train& changed);

// Writes beside the target and renames, so that a reader finds the old text or the new one and never a half.
// SceneError where that fails; the old file is then untouched and nothing is left beside it.
void save_scene_text(const std::filesystem::path& path, std::string_view text);

}  // namespace couplet
