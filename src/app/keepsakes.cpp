#include "app/keepsakes.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdlib>
#include <ctime>
#include <stdexcept>
#include <string_view>
#include <system_error>

#include <fmt/format.h>

#include "app/process.hpp"
#include "scene/scene.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;
using namespace std::string_view_literals;

// Nothing where there is no such file or it cannot be read.
std::optional<std::string> text_in(const fs::path& path) {
    std::error_code error;
    if (!fs::is_regular_file(path, error)) return std::nullopt;
    try {
        return load_scene_text(path);
    } catch (const SceneError&) {
        return std::nullopt;
    }
}

void keep_text(const fs::path& path, std::string_view text) {
    const fs::path folder = path.parent_path();
    std::error_code error;
    // Of the user alone (XDG Base Directory Specification 0.8, Referencing this specification).
    if (fs::create_directories(folder, error)) fs::permissions(folder, fs::perms::owner_all, error);
    try {
        save_scene_text(path, text);
    } catch (const SceneError&) {
        // It is not remembered then.
    }
}

std::vector<std::string_view> lines_in(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

std::string_view trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(" \t\r");
    if (begin == std::string_view::npos) return {};
    return text.substr(begin, text.find_last_not_of(" \t\r") + 1 - begin);
}

template <class Number>
std::optional<Number> number_in(std::string_view text) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

// One line of printable ASCII, whatever bytes the path has: the others, and the edges of the text, as % and two digits
// of base 16.
std::string path_text(const fs::path& path) {
    const std::string bytes = path.string();
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const auto byte = static_cast<unsigned char>(bytes[i]);
        const bool at_edge = i == 0 || i + 1 == bytes.size();
        const bool stays = byte > 0x20 && byte < 0x7F && byte != '%';
        if (stays || (byte == ' ' && !at_edge))
            text += bytes[i];
        else
            text += fmt::format("%{:02X}", byte);
    }
    return text;
}

std::optional<unsigned char> byte_in(std::string_view digits) {
    unsigned char byte = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), byte, 16);
    if (digits.size() != 2 || error != std::errc{} || end != digits.data() + 2 || byte == 0) return std::nullopt;
    return byte;
}

// Nothing where no path has that text.
std::optional<fs::path> path_in(std::string_view text) {
    std::string bytes;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            bytes += text[i];
            continue;
        }
        const std::optional<unsigned char> byte = byte_in(text.substr(i + 1, 2));
        if (!byte) return std::nullopt;
        bytes += static_cast<char>(*byte);
        i += 2;
    }
    if (bytes.find('\0') != std::string::npos) return std::nullopt;
    return fs::path(bytes);
}

fs::path absolute_path(const fs::path& path) {
    std::error_code error;
    fs::path absolute = fs::absolute(path, error);
    return error ? path : absolute;
}

constexpr std::string_view kFirstLine = "# kept by couplet: work that was not saved";

fs::path copies_folder(const fs::path& folder) {
    return folder / "unsaved";
}

fs::path own_copy(const fs::path& folder) {
    const Process process = this_process();
    return copies_folder(folder) / fmt::format("{}-{}.toml", process.pid, process.began);
}

std::string local_time() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    std::array<char, 32> text{};
    const std::size_t size = std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M", &local);
    return {text.data(), size};
}

std::string heading(const fs::path& scene) {
    const Process process = this_process();
    return fmt::format("{}\n# process = {}\n# began = {}\n# scene = {}\n# when = {}\n", kFirstLine, process.pid,
                       process.began, path_text(scene), local_time());
}
constexpr std::size_t kHeadingLines = 5;

// What a line of the heading says behind "# key ="; nothing where it is another line.
std::optional<std::string_view> said_in(std::string_view line, std::string_view key) {
    const std::string begin = fmt::format("# {} =", key);
    if (!line.starts_with(begin)) return std::nullopt;
    return trimmed(line.substr(begin.size()));
}

struct KeptCopy {
    Process process;
    UnsavedWork work;
};

std::optional<KeptCopy> copy_in(const fs::path& path, const std::string& text) {
    const std::vector<std::string_view> lines = lines_in(text);
    if (lines.size() <= kHeadingLines || lines[0] != kFirstLine) return std::nullopt;
    const auto pid = said_in(lines[1], "process");
    const auto began = said_in(lines[2], "began");
    const auto scene = said_in(lines[3], "scene");
    const auto when = said_in(lines[4], "when");
    if (!pid || !began || !scene || !when) return std::nullopt;
    const auto number = number_in<int>(*pid);
    const auto scene_path = path_in(*scene);
    if (!number || *number <= 0 || !scene_path) return std::nullopt;

    KeptCopy kept{{*number, number_in<std::uint64_t>(*began).value_or(0)}, {path, *scene_path, "", "", ""}};
    kept.work.when = *when;
    kept.work.text = text.substr(static_cast<std::size_t>(lines[kHeadingLines].data() - text.data()));
    try {
        kept.work.title = read_scene(kept.work.text, path.string()).title;
    } catch (const SceneError&) {
        return std::nullopt;
    }
    return kept;
}

std::vector<fs::path> copies_in(const fs::path& folder) {
    std::vector<fs::path> copies;
    std::error_code error;
    for (fs::directory_iterator entry(copies_folder(folder), error), end; !error && entry != end;
         entry.increment(error))
        if (entry->path().extension() == ".toml") copies.push_back(entry->path());
    return copies;
}

bool holds_the_same(const fs::path& copy, const fs::path& scene, const std::string& text) {
    const std::optional<std::string> before = text_in(copy);
    const std::optional<KeptCopy> kept = before ? copy_in(copy, *before) : std::nullopt;
    return kept && kept->work.scene == scene && kept->work.text == text;
}

fs::path recent_file(const fs::path& folder) {
    return folder / "recent";
}

// Also those that are gone: a disk may be plugged in again.
std::vector<fs::path> all_recent(const fs::path& folder) {
    std::vector<fs::path> scenes;
    const std::string text = text_in(recent_file(folder)).value_or("");
    for (const std::string_view line : lines_in(text)) {
        const std::optional<fs::path> scene = path_in(trimmed(line));
        if (!scene || !scene->is_absolute() || std::ranges::find(scenes, *scene) != scenes.end()) continue;
        if (scenes.size() < kMostRecent) scenes.push_back(*scene);
    }
    return scenes;
}

bool is_same_file(const fs::path& a, const fs::path& b) {
    std::error_code error;
    return a == b || fs::equivalent(a, b, error);
}

fs::path preferences_file(const fs::path& folder) {
    return folder / "preferences";
}

constexpr double kLeastScale = 0.25;
constexpr double kMostScale = 8.0;

std::optional<double> scale_in(std::string_view text) {
    const std::optional<double> scale = number_in<double>(text);
    return scale && *scale >= kLeastScale && *scale <= kMostScale ? scale : std::nullopt;
}

}  // namespace

fs::path keepsake_folder() {
    // A relative path is no answer (the same specification).
    const auto absolute_in = [](const char* variable) {
        const char* value = std::getenv(variable);
        fs::path path(value == nullptr ? "" : value);
        return path.is_absolute() ? path : fs::path();
    };
    if (const fs::path state = absolute_in("XDG_STATE_HOME"); !state.empty()) return state / "couplet";
    if (const fs::path home = absolute_in("HOME"); !home.empty()) return home / ".local" / "state" / "couplet";
    return {};
}

std::vector<fs::path> recent_scenes(const fs::path& folder) {
    std::vector<fs::path> scenes = folder.empty() ? std::vector<fs::path>{} : all_recent(folder);
    std::erase_if(scenes, [](const fs::path& scene) {
        std::error_code error;
        return !fs::exists(scene, error);
    });
    return scenes;
}

void remember_scene(const fs::path& folder, const fs::path& scene) {
    if (folder.empty() || scene.empty()) return;
    const fs::path latest = absolute_path(scene);
    std::vector<fs::path> scenes = all_recent(folder);
    std::erase_if(scenes, [&](const fs::path& other) { return is_same_file(other, latest); });
    scenes.insert(scenes.begin(), latest);
    if (scenes.size() > kMostRecent) scenes.resize(kMostRecent);
    std::string text;
    for (const fs::path& path : scenes) text += path_text(path) + '\n';
    keep_text(recent_file(folder), text);
}

std::vector<UnsavedWork> unsaved_work(const fs::path& folder) {
    std::vector<UnsavedWork> left;
    if (folder.empty()) return left;
    for (const fs::path& path : copies_in(folder)) {
        const std::optional<std::string> text = text_in(path);
        std::optional<KeptCopy> kept = text ? copy_in(path, *text) : std::nullopt;
        if (kept && !is_running(kept->process)) left.push_back(std::move(kept->work));
    }
    std::ranges::sort(left, [](const UnsavedWork& a, const UnsavedWork& b) {
        return a.when != b.when ? a.when > b.when : a.copy < b.copy;
    });
    return left;
}

void keep_unsaved(const fs::path& folder, const fs::path& scene, const Train& train) {
    if (folder.empty()) return;
    std::string text;
    try {
        text = write_scene(train);
    } catch (const std::invalid_argument&) {
        return;
    }
    const fs::path copy = own_copy(folder);
    // Called often, and writing waits for the disk.
    if (!holds_the_same(copy, scene, text)) keep_text(copy, heading(scene) + text);
}

void forget_unsaved(const fs::path& folder) {
    if (folder.empty()) return;
    std::error_code ignored;
    fs::remove(own_copy(folder), ignored);
}

void forget_unsaved(const UnsavedWork& work) {
    std::error_code ignored;
    fs::remove(work.copy, ignored);
}

Preferences preferences(const fs::path& folder) {
    Preferences kept;
    const std::string text = folder.empty() ? "" : text_in(preferences_file(folder)).value_or("");
    for (const std::string_view line : lines_in(text)) {
        const std::size_t equals = line.find('=');
        if (equals == std::string_view::npos) continue;
        const std::string_view key = trimmed(line.substr(0, equals));
        const std::string_view value = trimmed(line.substr(equals + 1));
        if (key == "daylight") kept.daylight = value == "\"dark\"" ? Daylight::dark : Daylight::light;
        if (key == "scale") kept.scale = scale_in(value);
    }
    return kept;
}

void keep_preferences(const fs::path& folder, const Preferences& preferences) {
    if (folder.empty()) return;
    std::string text = "# kept by couplet\n";
    text += fmt::format("daylight = \"{}\"\n", preferences.daylight == Daylight::dark ? "dark" : "light");
    if (preferences.scale) text += fmt::format("scale = {}\n", *preferences.scale);
    keep_text(preferences_file(folder), text);
}

}  // namespace couplet
