// Keepsakes: what the window remembers between one start and the next: recent scenes, unsaved work, preferences.
//
// Kept in a folder of their own: $XDG_STATE_HOME/couplet, else ~/.local/state/couplet (XDG Base Directory
// Specification 0.8); tests give another one. Whatever cannot be read there is as if it were not there, and what cannot
// be written is not remembered: no error of these files stands in the user's way. Every file is replaced atomically.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "train/train.hpp"

namespace couplet {

[[nodiscard]] std::filesystem::path keepsake_folder();

// The latest first, each once, at most kMostRecent; files that are gone are left out of what is given.
inline constexpr std::size_t kMostRecent = 12;
[[nodiscard]] std::vector<std::filesystem::path> recent_scenes(const std::filesystem::path& folder);
void remember_scene(const std::filesystem::path& folder, const std::filesystem::path& scene);

// Work that was not saved when its window ended without a goodbye.
struct UnsavedWork {
    std::filesystem::path copy;   // where it is kept
    std::filesystem::path scene;  // the file that it belongs to; empty: none
    std::string title;            // of the train
    std::string when;             // "2026-11-03 10:32", local time
    std::string text;             // the scene as it was then
};
// Copies whose window no longer runs. A copy that is no scene is left out.
[[nodiscard]] std::vector<UnsavedWork> unsaved_work(const std::filesystem::path& folder);
// Keeps the unsaved work of this process, in the place of what it kept before.
void keep_unsaved(const std::filesystem::path& folder, const std::filesystem::path& scene, const Train& train);
// This process has nothing unsaved any more.
void forget_unsaved(const std::filesystem::path& folder);
void forget_unsaved(const UnsavedWork& work);

enum class Daylight { light, dark };
struct Preferences {
    Daylight daylight = Daylight::light;
    std::optional<double> scale;  // of the window's text; none: what the screen says

    friend bool operator==(const Preferences&, const Preferences&) = default;
};
[[nodiscard]] Preferences preferences(const std::filesystem::path& folder);
void keep_preferences(const std::filesystem::path& folder, const Preferences& preferences);

}  // namespace couplet
