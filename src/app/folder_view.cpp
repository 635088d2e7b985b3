#include "app/folder_view.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <system_error>
#include <tuple>

namespace couplet {

namespace fs = std::filesystem;

namespace {

std::optional<FolderView::Entry> entry_of(const fs::directory_entry& found) {
    std::error_code error;
    FolderView::Entry entry{found.path().filename().string(), found.is_directory(error)};
    if (error || entry.name.starts_with('.')) return std::nullopt;
    if (!entry.is_folder && found.path().extension() != ".toml") return std::nullopt;
    return entry;
}

}  // namespace

FolderView choosing_file(FileTask task, const fs::path& file, const std::string& name) {
    std::error_code ignored;
    FolderView view;
    view.task = task;
    view.folder = file.empty() ? fs::current_path(ignored) : file.parent_path();
    view.name = name;
    return view;
}

void look_again(FolderView& view, double now_s) {
    if (view.read_at_s && now_s - *view.read_at_s < FolderView::kStale_s) return;
    view.read_at_s = now_s;
    std::vector<FolderView::Entry> entries;
    std::error_code error;
    fs::directory_iterator found(view.folder, error);
    for (; !error && found != fs::directory_iterator() && entries.size() < FolderView::kMostEntries;
         found.increment(error))
        if (std::optional<FolderView::Entry> entry = entry_of(*found)) entries.push_back(std::move(*entry));
    std::ranges::sort(entries, {}, [](const auto& entry) { return std::tuple(!entry.is_folder, entry.name); });
    view.entries = std::make_shared<const std::vector<FolderView::Entry>>(std::move(entries));
    view.why_not = error ? error.message() : "";
}

void go_into(FolderView& view, const fs::path& folder) {
    view.folder = folder.lexically_normal();
    // "a/b/.." leaves "a/", whose own parent would be "a".
    if (!view.folder.has_filename() && view.folder.has_relative_path()) view.folder = view.folder.parent_path();
    view.read_at_s.reset();
}

fs::path typed_path(const FolderView& view, const std::string& text) {
    const char* home = std::getenv("HOME");  // NOLINT(concurrency-mt-unsafe): nothing here sets it
    if (text.starts_with("~/") && home != nullptr) return (fs::path(home) / text.substr(2)).lexically_normal();
    return (view.folder / text).lexically_normal();
}

fs::path typed_scene_path(const FolderView& view, const std::string& text) {
    fs::path path = typed_path(view, text);
    if (path.has_filename() && !path.has_extension()) path += ".toml";
    return path;
}

std::string file_name_for(const std::string& title) {
    std::string name;
    for (const char letter : title) {
        const auto byte = static_cast<unsigned char>(letter);
        // Letters beyond ASCII stay as they are.
        if (std::isalnum(byte) != 0 || byte >= 0x80)
            name += static_cast<char>(byte < 0x80 ? std::tolower(byte) : byte);
        else if (!name.empty() && name.back() != '_')
            name += '_';
    }
    while (name.ends_with('_')) name.pop_back();
    return (name.empty() ? "scene" : name) + ".toml";
}

}  // namespace couplet
