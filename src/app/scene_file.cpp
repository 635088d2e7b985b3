#include "app/scene_file.hpp"

#include <stdexcept>
#include <system_error>
#include <utility>

namespace couplet {

namespace {

namespace fs = std::filesystem;

// As it is where the working folder is gone or the path is empty: reading or writing it then says what is wrong.
fs::path absolute_path(const fs::path& path) {
    std::error_code error;
    fs::path absolute = fs::absolute(path, error);
    return error ? path : absolute;
}

// The text that says `train`, proved by reading it: what would not open again takes no file's place.
std::string text_of(const SceneFile& file, const fs::path& path, const Train& train) {
    const auto refuse = [&](const std::string& why) {
        throw SceneError(path.string(), 0, "the train cannot be written as a scene: " + why,
                         "undo the last change and save again; the old file is untouched");
    };
    std::string text;
    try {
        text = rewrite_scene(file.text, train);
    } catch (const std::invalid_argument& no_decimal) {
        refuse(no_decimal.what());
    }
    if (read_scene(text, path.string()) != train) refuse("it would read as another train");
    return text;
}

}  // namespace

std::optional<FileStamp> stamp_of(const fs::path& path) {
    std::error_code error;
    const std::uintmax_t bytes = fs::file_size(path, error);
    if (error) return std::nullopt;
    const fs::file_time_type changed = fs::last_write_time(path, error);
    if (error) return std::nullopt;
    return FileStamp{changed, bytes};
}

SceneFile open_scene_file(const fs::path& path) {
    SceneFile file;
    file.path = absolute_path(path);
    file.name = path.filename().string();
    // Before the text: a change between the two is then seen later, not lost.
    file.stamp = stamp_of(file.path);
    file.text = load_scene_text(file.path);
    file.saved = read_scene(file.text, file.path.string());
    return file;
}

SceneFile unsaved_scene(const std::string& name, const std::string& text) {
    return {{}, name, text, read_scene(text, name), std::nullopt};
}

OnDisk look_on_disk(const SceneFile& file) {
    if (file.path.empty()) return OnDisk::same;
    const std::optional<FileStamp> stamp = stamp_of(file.path);
    if (!stamp) return OnDisk::gone;
    if (stamp == file.stamp) return OnDisk::same;
    try {
        return load_scene_text(file.path) == file.text ? OnDisk::same : OnDisk::changed;
    } catch (const SceneError&) {
        // Gone since the stamp was taken, or there and not to be read any more.
        return stamp_of(file.path) ? OnDisk::changed : OnDisk::gone;
    }
}

SceneFile saved_as(const SceneFile& file, const fs::path& path, const Train& train) {
    SceneFile saved;
    saved.path = absolute_path(path);
    saved.name = path.filename().string();
    saved.text = text_of(file, saved.path, train);
    saved.saved = train;
    save_scene_text(saved.path, saved.text);
    saved.stamp = stamp_of(saved.path);
    return saved;
}

}  // namespace couplet
