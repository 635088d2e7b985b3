// Folder view: the folder that the scene panel lists while a file is chosen, as it was when it was last looked at.
//
// Nothing throws: a folder that cannot be read says why.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace couplet {

enum class FileTask { none, open, save_as };

struct FolderView {
    FileTask task = FileTask::none;
    std::filesystem::path folder;  // absolute
    std::string name;              // of the file that is being named, as typed
    struct Entry {
        std::string name;
        bool is_folder = false;
    };
    // Folders, then scenes (.toml), each by name; what begins with a dot is left out, and so is all beyond
    // kMostEntries. Shared, because views are copied for every frame.
    std::shared_ptr<const std::vector<Entry>> entries;
    std::string why_not;              // it cannot be read
    std::optional<double> read_at_s;  // of the window's clock; nothing: not yet

    static constexpr std::size_t kMostEntries = 2000;
    static constexpr double kStale_s = 1.0;
};

// Begins in the folder of `file`, or, where that is empty, in the current one; `name` is what a file to save is called.
[[nodiscard]] FolderView choosing_file(FileTask task, const std::filesystem::path& file, const std::string& name);

// Reads the folder where that was never done or is longer ago than kStale_s.
void look_again(FolderView& view, double now_s);
// Lists another folder.
void go_into(FolderView& view, const std::filesystem::path& folder);

// What a text means that was typed as a path: as it stands, from the home folder behind "~/", or in the folder.
[[nodiscard]] std::filesystem::path typed_path(const FolderView& view, const std::string& text);
// The same for a file to save: a name without an extension gets ".toml".
[[nodiscard]] std::filesystem::path typed_scene_path(const FolderView& view, const std::string& text);

// A file name made from a title: "Harbour capstan" gives "harbour_capstan.toml".
[[nodiscard]] std::string file_name_for(const std::string& title);

}  // namespace couplet
