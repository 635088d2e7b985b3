// Scene file: the file behind a draft, what was last read from or written to it, and what has become of it since.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "scene/scene.hpp"
#include "train/train.hpp"

namespace couplet {

// A file as it was when we last looked: nothing where there is none.
struct FileStamp {
    std::filesystem::file_time_type changed;
    std::uintmax_t bytes = 0;

    friend bool operator==(const FileStamp&, const FileStamp&) = default;
};
[[nodiscard]] std::optional<FileStamp> stamp_of(const std::filesystem::path& path);

struct SceneFile {
    std::filesystem::path path;  // absolute; empty: never saved (the built-in scene, a new train)
    std::string name;            // as it is called in messages and in the window's title
    std::string text;            // as read or written; comments and order are kept from it
    Train saved;                 // what the text says
    std::optional<FileStamp> stamp;
};

// SceneError where it cannot be read or is no scene.
[[nodiscard]] SceneFile open_scene_file(const std::filesystem::path& path);
// A scene that has no file yet. `text` must read as a scene.
[[nodiscard]] SceneFile unsaved_scene(const std::string& name, const std::string& text);

// Has the file on disk changed since `file` was read or written: gone, or of another stamp and another text?
enum class OnDisk { same, changed, gone };
[[nodiscard]] OnDisk look_on_disk(const SceneFile& file);

// Writes the train into the file, keeping the comments of the text it had, and gives the file as it now is. The path
// may be another one than the file's. SceneError where it cannot be written; nothing has changed then.
[[nodiscard]] SceneFile saved_as(const SceneFile& file, const std::filesystem::path& path, const Train& train);

}  // namespace couplet
