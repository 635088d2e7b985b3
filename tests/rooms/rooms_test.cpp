// The layout: each room of src/ uses only rooms above it, and each header says first what it is.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>
#include <vector>

namespace couplet {
namespace {

namespace fs = std::filesystem;

const fs::path kRoot = COUPLET_ROOT;

// In the order of the design: a room may include from itself and from rooms to its left.
const std::vector<std::string> kRooms = {"exact", "train", "scene",  "motion", "couple", "tooth", "place", "solid",
                                         "find",  "sheet", "export", "view",   "record", "app",   "cli"};

std::vector<fs::path> sources(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder))
        if (entry.path().extension() == ".hpp" || entry.path().extension() == ".cpp") files.push_back(entry.path());
    std::ranges::sort(files);
    return files;
}

std::vector<std::string> lines_of(const fs::path& file) {
    std::ifstream stream(file);
    std::vector<std::string> lines;
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

std::ptrdiff_t rank_of(const std::string& room) {
    const auto found = std::ranges::find(kRooms, room);
    return found == kRooms.end() ? -1 : found - kRooms.begin();
}

// Every include in quotes of a file, as (room, header).
std::vector<std::pair<std::string, std::string>> project_includes(const fs::path& file) {
    static const std::regex include(R"re(^\s*#\s*include\s*"(?:([^/"]+)/)?([^"]+)")re");
    std::vector<std::pair<std::string, std::string>> includes;
    std::smatch match;
    for (const std::string& line : lines_of(file))
        if (std::regex_search(line, match, include)) includes.emplace_back(match[1], match[2]);
    return includes;
}

TEST(Rooms, AreThoseOfTheDesign) {
    for (const fs::directory_entry& entry : fs::directory_iterator(kRoot / "src"))
        if (entry.is_directory()) {
            EXPECT_GE(rank_of(entry.path().filename()), 0) << entry.path() << " is no room of the design";
        }
}

TEST(Rooms, UseOnlyRoomsAboveThem) {
    std::size_t seen = 0;
    for (const fs::path& file : sources(kRoot / "src")) {
        const std::string room = *fs::relative(file, kRoot / "src").begin();
        for (const auto& [used, header] : project_includes(file)) {
            ++seen;
            EXPECT_GE(rank_of(used), 0) << file << " includes \"" << header << "\" of no room";
            EXPECT_LE(rank_of(used), rank_of(room)) << file << " includes " << used << "/" << header << " from below";
        }
    }
    EXPECT_GT(seen, 20U);
}

TEST(Rooms, OnlyTheViewMayUseOpenGl) {
    const std::regex gl(R"re(#\s*include\s*[<"](glad|GL|GLES|EGL|GLFW)/)re");
    for (const fs::path& file : sources(kRoot / "src")) {
        const std::string room = *fs::relative(file, kRoot / "src").begin();
        if (room == "view" || room == "app") continue;
        for (const std::string& line : lines_of(file))
            EXPECT_FALSE(std::regex_search(line, gl)) << file << ": " << line;
    }
}

TEST(Headers, SayFirstWhatTheyAre) {
    for (const char* folder : {"src", "tests"}) {
        for (const fs::path& file : sources(kRoot / folder)) {
            if (file.extension() != ".hpp") continue;
            const std::vector<std::string> lines = lines_of(file);
            ASSERT_FALSE(lines.empty()) << file;
            EXPECT_TRUE(lines.front().starts_with("// ")) << file << " opens with no comment";
            EXPECT_NE(std::ranges::find(lines, "#pragma once"), lines.end()) << file;
        }
    }
}

// Two types of one name in one namespace are one to the linker, which then keeps one's destructor for both.
TEST(Headers, NameEachTypeOnce) {
    const std::regex type(R"re(^(struct|class|enum class) ([A-Z]\w*)( final)?( :[^:].*)? ?\{.*)re");
    std::map<std::string, fs::path> named;
    for (const fs::path& file : sources(kRoot / "src")) {
        if (file.extension() != ".hpp") continue;
        for (const std::string& line : lines_of(file)) {
            std::smatch found;
            if (!std::regex_match(line, found, type)) continue;
            const auto [earlier, is_new] = named.emplace(found[2], file);
            EXPECT_TRUE(is_new) << found[2] << " is a type of " << earlier->second << " and of " << file;
        }
    }
    EXPECT_GT(named.size(), 100U);
}

TEST(Headers, HaveATestOfTheSameNameWhereTheyAreARoomsFace) {
    // Rooms whose headers are all public: one test file each.
    for (const char* room : {"exact", "couple"}) {
        for (const fs::path& file : sources(kRoot / "src" / room)) {
            if (file.extension() != ".hpp") continue;
            const fs::path test = kRoot / "tests" / room / (file.stem().string() + "_test.cpp");
            EXPECT_TRUE(fs::exists(test)) << test << " is missing";
        }
    }
}

}  // namespace
}  // namespace couplet
