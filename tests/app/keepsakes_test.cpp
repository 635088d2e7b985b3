#include "app/keepsakes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include <sys/wait.h>
#include <unistd.h>

#include "app/kept_folder.hpp"
#include "scene/scene.hpp"
#include "train/arrangement.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class Keepsakes : public KeptFolder {
  protected:
    // Not there before something is kept.
    [[nodiscard]] fs::path state() const { return folder() / "state" / "couplet"; }
    fs::path scene(const std::string& name) const {
        fs::path path = folder() / name;
        write(path, "couplet = 1\n");
        return path;
    }
    [[nodiscard]] std::vector<fs::path> copies() const {
        std::vector<fs::path> found;
        std::error_code none;
        for (const auto& entry : fs::directory_iterator(state() / "unsaved", none)) found.push_back(entry.path());
        return found;
    }
};

using RecentScenes = Keepsakes;
using UnsavedCopies = Keepsakes;
using KeptPreferences = Keepsakes;

Train pair_train(int driven) {
    Train train = train_of(Arrangement::pairs, {20, driven});
    train.title = "Pair " + std::to_string(driven);
    return train;
}

// A time in figures, without which one it is.
std::string with_zeros(std::string when) {
    for (char& c : when)
        if (c >= '0' && c <= '9') c = '0';
    return when;
}

// Does it in a process of its own that then ends, as a window does that crashes.
template <class Does>
void in_a_process_that_ends(Does does) {
    const pid_t child = fork();
    if (child == 0) {
        does();
        _exit(0);
    }
    ASSERT_GT(child, 0);
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_EQ(status, 0);
}

// A variable of the environment for the time of a test.
class Variable {
  public:
    Variable(const char* name, const char* value) : name_(name) {
        if (const char* before = std::getenv(name)) before_ = before;
        set(value);
    }
    ~Variable() { set(before_ ? before_->c_str() : nullptr); }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;

    void set(const char* value) const {
        if (value == nullptr)
            unsetenv(name_);
        else
            setenv(name_, value, 1);
    }

  private:
    const char* name_;
    std::optional<std::string> before_;
};

TEST(KeepsakeFolder, IsTheStateFolderOfTheSpecification) {
    const Variable home("HOME", "/home/keeper");
    const Variable state("XDG_STATE_HOME", "/var/keeper");
    EXPECT_EQ(keepsake_folder(), "/var/keeper/couplet");
    for (const char* no_answer : {static_cast<const char*>(nullptr), "", "relative/state"}) {
        state.set(no_answer);
        EXPECT_EQ(keepsake_folder(), "/home/keeper/.local/state/couplet");
    }
    home.set(nullptr);
    EXPECT_TRUE(keepsake_folder().empty());
}

TEST(KeepsakeFolder, KeepsNothingWhereThereIsNone) {
    remember_scene("", "/tmp/a.toml");
    keep_unsaved("", "", pair_train(40));
    keep_preferences("", {Daylight::dark, 2.0});
    forget_unsaved(fs::path());
    EXPECT_TRUE(recent_scenes("").empty());
    EXPECT_TRUE(unsaved_work("").empty());
    EXPECT_EQ(preferences(""), Preferences{});
    EXPECT_FALSE(fs::exists("recent"));
    EXPECT_FALSE(fs::exists("preferences"));
    EXPECT_FALSE(fs::exists("unsaved"));
}

TEST_F(Keepsakes, LieInAFolderOfTheUserAlone) {
    keep_preferences(state(), {});
    // 0700: XDG Base Directory Specification 0.8, "Referencing this specification", from memory.
    EXPECT_EQ(fs::status(state()).permissions(), fs::perms::owner_all);
}

TEST_F(Keepsakes, StandInNobodysWayWhereTheyCannotBeWritten) {
    write(folder() / "state", "a file where the folder should be");
    remember_scene(state(), scene("a.toml"));
    keep_unsaved(state(), "", pair_train(40));
    keep_preferences(state(), {Daylight::dark, 2.0});
    EXPECT_TRUE(recent_scenes(state()).empty());
    EXPECT_TRUE(unsaved_work(state()).empty());
    EXPECT_EQ(preferences(state()), Preferences{});
}

TEST_F(RecentScenes, ComeTheLatestFirstEachOnce) {
    EXPECT_TRUE(recent_scenes(state()).empty());
    const fs::path a = scene("a.toml");
    const fs::path b = scene("b.toml");
    for (const fs::path& path : {a, b, a}) remember_scene(state(), path);
    EXPECT_EQ(recent_scenes(state()), (std::vector{a, b}));
    remember_scene(state(), folder() / "." / "b.toml");
    EXPECT_EQ(recent_scenes(state()), (std::vector{folder() / "." / "b.toml", a}));
}

TEST_F(RecentScenes, AreAsManyAsAreRemembered) {
    std::vector<fs::path> expected;
    for (std::size_t i = 0; i < kMostRecent + 3; ++i) {
        expected.insert(expected.begin(), scene(std::to_string(i) + ".toml"));
        remember_scene(state(), expected.front());
    }
    expected.resize(kMostRecent);
    EXPECT_EQ(recent_scenes(state()), expected);
}

TEST_F(RecentScenes, LeaveOutThoseThatAreGoneUntilTheyAreBack) {
    const fs::path a = scene("a.toml");
    const fs::path b = scene("b.toml");
    remember_scene(state(), a);
    remember_scene(state(), b);
    fs::remove(a);
    EXPECT_EQ(recent_scenes(state()), std::vector{b});
    remember_scene(state(), b);
    (void)scene("a.toml");
    EXPECT_EQ(recent_scenes(state()), (std::vector{b, a}));
}

TEST_F(RecentScenes, HaveAnyName) {
    std::vector<fs::path> expected;
    for (const char* name : {"two\nlines.toml", "100%.toml", "%0A", " edges ", "tab\tand\rreturn", "fen\u00EAtre.toml",
                             "no utf-8 \xFF\xFE", "#comment", "a = \"b\""}) {
        expected.insert(expected.begin(), scene(name));
        remember_scene(state(), expected.front());
    }
    EXPECT_EQ(recent_scenes(state()), expected);
}

TEST_F(RecentScenes, MakeNothingOfALineThatNoPathHas) {
    const fs::path a = scene("a.toml");
    remember_scene(state(), a);
    const std::string kept = read(state() / "recent");
    write(state() / "recent", "\n%\n%4\n%zz\n%00\n.\n\xFF\n/nowhere\n" + kept + kept);
    EXPECT_EQ(recent_scenes(state()), std::vector{a});
    write(state() / "recent", "");
    EXPECT_TRUE(recent_scenes(state()).empty());
}

TEST_F(UnsavedCopies, AreNotLeftBehindWhileTheirWindowRuns) {
    keep_unsaved(state(), folder() / "a.toml", pair_train(40));
    EXPECT_EQ(copies().size(), 1U);
    EXPECT_TRUE(unsaved_work(state()).empty());
    // In the place of what it kept before.
    keep_unsaved(state(), folder() / "a.toml", pair_train(41));
    ASSERT_EQ(copies().size(), 1U);
    EXPECT_EQ(read_scene(read(copies().front()), "the copy"), pair_train(41));
    forget_unsaved(state());
    EXPECT_TRUE(copies().empty());
    forget_unsaved(state());
}

TEST_F(UnsavedCopies, AreLeftBehindByAWindowThatHasEnded) {
    const fs::path belongs_to = folder() / "two\nlines \xFF.toml";
    in_a_process_that_ends([&] { keep_unsaved(state(), belongs_to, pair_train(40)); });
    const std::vector<UnsavedWork> left = unsaved_work(state());
    ASSERT_EQ(left.size(), 1U);
    EXPECT_EQ(left[0].scene, belongs_to);
    EXPECT_EQ(left[0].title, "Pair 40");
    EXPECT_EQ(left[0].text, write_scene(pair_train(40)));
    EXPECT_EQ(with_zeros(left[0].when), "0000-00-00 00:00");
    EXPECT_EQ(std::vector{left[0].copy}, copies());
    EXPECT_TRUE(read(left[0].copy).starts_with("# kept by couplet"));
    // The copy is a scene like any other.
    EXPECT_EQ(read_scene(load_scene_text(left[0].copy), "the copy"), pair_train(40));
}

TEST_F(UnsavedCopies, OfSeveralWindowsDoNotClash) {
    for (const int driven : {40, 41, 42})
        in_a_process_that_ends([&] { keep_unsaved(state(), "", pair_train(driven)); });
    keep_unsaved(state(), "", pair_train(50));
    std::vector<UnsavedWork> left = unsaved_work(state());
    ASSERT_EQ(left.size(), 3U);
    std::vector<std::string> titles;
    for (const UnsavedWork& work : left) titles.push_back(work.title);
    std::ranges::sort(titles);
    EXPECT_EQ(titles, (std::vector<std::string>{"Pair 40", "Pair 41", "Pair 42"}));
    EXPECT_TRUE(left[0].scene.empty());
    const fs::path dropped = left[1].copy;
    forget_unsaved(left[1]);
    forget_unsaved(left[1]);
    left = unsaved_work(state());
    EXPECT_EQ(left.size(), 2U);
    EXPECT_FALSE(fs::exists(dropped));
    // This process forgets its own copy alone.
    forget_unsaved(state());
    EXPECT_EQ(copies().size(), 2U);
}

TEST_F(UnsavedCopies, ComeTheLatestFirst) {
    for (const int driven : {40, 41}) in_a_process_that_ends([&] { keep_unsaved(state(), "", pair_train(driven)); });
    for (const fs::path& copy : copies()) {
        std::string text = read(copy);
        const bool is_first = text.find("Pair 40") != std::string::npos;
        const std::size_t when = text.find("# when = ") + 9;
        text.replace(when, 16, is_first ? "2026-11-03 10:32" : "2026-11-03 10:31");
        write(copy, text);
    }
    const std::vector<UnsavedWork> left = unsaved_work(state());
    ASSERT_EQ(left.size(), 2U);
    EXPECT_EQ(left[0].title, "Pair 40");
    EXPECT_EQ(left[0].when, "2026-11-03 10:32");
}

TEST_F(UnsavedCopies, AreLeftOutWhereTheyAreNoScene) {
    in_a_process_that_ends([&] { keep_unsaved(state(), "", pair_train(40)); });
    ASSERT_EQ(copies().size(), 1U);
    const fs::path copy = copies().front();
    const std::string text = read(copy);
    for (const std::string& broken : {text.substr(0, text.size() / 2), text + "[[mesh]]\n", std::string(),
                                      text.substr(text.find('\n') + 1), std::string("# kept by couplet")}) {
        write(copy, broken);
        EXPECT_TRUE(unsaved_work(state()).empty()) << broken;
    }
    write(copy, text);
    EXPECT_EQ(unsaved_work(state()).size(), 1U);
}

TEST_F(UnsavedCopies, AreWrittenOnlyWhereTheyChanged) {
    keep_unsaved(state(), folder() / "a.toml", pair_train(40));
    const auto long_ago = fs::file_time_type::clock::now() - std::chrono::hours(50);
    fs::last_write_time(copies().at(0), long_ago);
    const auto stood = fs::last_write_time(copies().at(0));
    keep_unsaved(state(), folder() / "a.toml", pair_train(40));
    EXPECT_EQ(fs::last_write_time(copies().at(0)), stood);
    keep_unsaved(state(), folder() / "b.toml", pair_train(40));
    EXPECT_NE(fs::last_write_time(copies().at(0)), stood);
}

TEST_F(UnsavedCopies, AreNotMadeOfATrainThatNoSceneCanHold) {
    Train train = pair_train(40);
    train.teeth.module_mm = Ratio(1, 3);
    keep_unsaved(state(), "", train);
    EXPECT_TRUE(copies().empty());
}

TEST_F(KeptPreferences, AreThoseThatWereKept) {
    EXPECT_EQ(preferences(state()), Preferences{});
    for (const Preferences& kept : {Preferences{Daylight::dark, std::nullopt}, Preferences{Daylight::light, 1.25},
                                    Preferences{Daylight::dark, 2.0}, Preferences{Daylight::light, 1.0 / 3}}) {
        keep_preferences(state(), kept);
        EXPECT_EQ(preferences(state()), kept);
    }
}

TEST_F(KeptPreferences, AreReadWithWhateverElseStandsThere) {
    keep_preferences(state(), {});
    write(state() / "preferences", "# mine\n\n  daylight=\"dark\"  \r\nother = 5\nno value\nscale =1.5\n= 3");
    EXPECT_EQ(preferences(state()), (Preferences{Daylight::dark, 1.5}));
}

TEST_F(KeptPreferences, AreTheUsualOnesWhereAValueIsNone) {
    keep_preferences(state(), {});
    for (const char* scale : {"", "0", "-1", "1e9", "nan", "inf", "2x", "two"}) {
        write(state() / "preferences", std::string("daylight = dusk\nscale = ") + scale + "\n");
        EXPECT_EQ(preferences(state()), Preferences{}) << scale;
    }
}

}  // namespace
}  // namespace couplet
