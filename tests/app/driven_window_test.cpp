// The real window, driven as a person would. Needs a display: CTest brings one (Xvfb).
#include "app/driven_window.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <fstream>
#include <thread>

#include "support/simple_set.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class Window : public testing::Test {
  protected:
    Window() {
        folder_ = fs::path(testing::TempDir()) /
                  (std::string("couplet_window_") + testing::UnitTest::GetInstance()->current_test_info()->name());
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    ~Window() override { fs::remove_all(folder_); }
    fs::path folder_;
};

std::string second_angle(const Json& state, const std::string& second) {
    for (const Json& coupling : state["couplings"])
        if (coupling["second"] == second) return coupling["degrees"].is_null() ? "none" : coupling["degrees"][1];
    return "no such coupling";
}

Json dial(const Json& state, const std::string& member) {
    for (const Json& one : state["dials"])
        if (one["member"] == member) return one;
    ADD_FAILURE() << "no dial of " << member;
    return {};
}

TEST_F(Window, FollowsPinsDialsSettingsUndoAndSize) {
    DrivenWindow window(folder_, {"--size", "1280x720"});
    Json state = window.state();
    EXPECT_EQ(state["scene"], "Harbour capstan");
    EXPECT_EQ(state["outcome"], "moves");
    // The design's example, section 5.
    EXPECT_EQ(second_angle(state, "planet on drum"), "-241.5");

    // Another member held: the carrier. The crank's planets then turn by tooth counts alone, -21/24.
    window.click("dials/pin ring");
    EXPECT_EQ(window.state()["outcome"], "free");
    window.click("dials/pin drum");
    state = window.state();
    EXPECT_EQ(state["outcome"], "moves");
    EXPECT_TRUE(dial(state, "drum")["held"]);
    EXPECT_EQ(second_angle(state, "planet on drum"), "-315");
    EXPECT_TRUE(state["trial"]);

    // Taken back.
    window.key("ctrl+z");
    window.key("ctrl+z");
    state = window.state();
    EXPECT_EQ(second_angle(state, "planet on drum"), "-241.5");
    EXPECT_FALSE(state["trial"]);

    // A dial is dragged: the train turns by hand, by the same turn that the dial made.
    const auto [x, y] = window.middle_of("dials/crank");
    window.drag({x + 22, y}, {x, y - 22});
    state = window.state();
    const std::string phase = dial(state, "crank")["phase_turns"];
    EXPECT_NE(phase, "0");
    EXPECT_EQ(state["driver_turns"], phase);

    // Another setting: the parts stay where they are.
    window.key("s");
    state = window.state();
    EXPECT_NE(state["setting"], "hauling");
    EXPECT_EQ(dial(state, "crank")["phase_turns"], phase);

    // Running by the space key, and stopped again.
    window.key("space");
    EXPECT_TRUE(window.state()["running"]);
    window.key("space");
    EXPECT_FALSE(window.state()["running"]);

    window.resize(1600, 900);
    EXPECT_EQ(window.state()["window_px"], (Json{1600, 900}));

    state = window.close();
    EXPECT_EQ(window.status(), 0);
    EXPECT_EQ(state["gl_errors"], Json::array());
}

TEST_F(Window, ShowsABrokenFileAndWhereItIsBroken) {
    std::ofstream(folder_ / "broken.toml") << "couplet = 1\n[[member]]\nname = \"a\"\ntheeth = 4\n";
    DrivenWindow window(folder_, {(folder_ / "broken.toml").string(), "--size", "1280x720"});
    const Json state = window.state();
    ASSERT_EQ(state["notices"].size(), 1U);
    EXPECT_EQ(state["notices"][0]["kind"], "error");
    EXPECT_NE(state["notices"][0]["text"].get<std::string>().find("line 4"), std::string::npos);
    EXPECT_EQ(state["scene"], "Harbour capstan");
    (void)window.close();
    EXPECT_EQ(window.status(), 0);
}

TEST_F(Window, OpensAFileThatIsDroppedOnIt) {
    const std::string first = simple_set_text() + "[teeth]\nmodule = 2\n";
    std::string second = first;
    second.replace(second.find("Test set"), 8, "Second");
    std::ofstream(folder_ / "first one.toml") << first;
    std::ofstream(folder_ / "second.toml") << second;
    std::ofstream(folder_ / "broken.toml") << "couplet = 1\n[[member]]\nname = \"a\"\ntheeth = 4\n";
    DrivenWindow window(folder_, {"--size", "1280x720"});
    ASSERT_EQ(window.state()["scene"], "Harbour capstan");

    window.drop({folder_ / "first one.toml"});
    Json state = window.state();
    EXPECT_EQ(state["scene"], "Test set");
    EXPECT_EQ(state["file"], (folder_ / "first one.toml").string());
    EXPECT_EQ(state["notices"], Json::array());

    // What was there stays on the stage, and the notice says where the file is wrong.
    window.drop({folder_ / "broken.toml"});
    state = window.state();
    EXPECT_EQ(state["scene"], "Test set");
    ASSERT_EQ(state["notices"].size(), 1U);
    EXPECT_EQ(state["notices"][0]["kind"], "error");
    EXPECT_NE(state["notices"][0]["text"].get<std::string>().find("broken.toml, line 4"), std::string::npos);

    // A window shows one scene, and says so.
    window.drop({folder_ / "second.toml", folder_ / "first one.toml"});
    state = window.state();
    EXPECT_EQ(state["scene"], "Second");
    ASSERT_EQ(state["notices"].size(), 1U);
    EXPECT_EQ(state["notices"][0]["text"], "2 files were dropped: the first one is opened");

    state = window.close();
    EXPECT_EQ(window.status(), 0);
    EXPECT_EQ(state["gl_errors"], Json::array());
}

// 5 frames; the file begins with the logical screen's version (GIF89a, 17).
TEST_F(Window, RecordsAClipAndPreviewsIt) {
    DrivenWindow window(folder_, {"--panel", "record", "--size", "1280x1200"});
    const auto fill = [&](const char* field, const std::string& text) {
        window.click(field);
        window.type(text);
        window.key("Return");
    };
    fill("record/file", (folder_ / "turn.gif").string());
    fill("record/width", "64");
    fill("record/height", "36");
    fill("record/seconds", "0.2");
    const auto drawn = window.state()["stage_frames"].get<std::int64_t>();
    window.click("record/Preview the path");
    while (window.state()["stage_frames"].get<std::int64_t>() < drawn + 3)
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    window.click("record/Stop the preview");
    window.click("record/Record");
    Json state = window.state();
    for (; !state["recording"].is_null(); state = window.state())
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    ASSERT_EQ(state["notices"].size(), 1U);
    EXPECT_EQ(state["notices"][0]["text"], "turn.gif is recorded, in " + folder_.string());
    std::ifstream clip(folder_ / "turn.gif", std::ios::binary);
    std::string version(6, ' ');
    clip.read(version.data(), 6);
    EXPECT_EQ(version, "GIF89a");
    state = window.close();
    EXPECT_EQ(window.status(), 0);
    EXPECT_EQ(state["gl_errors"], Json::array());
}

TEST_F(Window, RestsWhenNothingMoves) {
    DrivenWindow window(folder_, {"--size", "1024x640"});
    (void)window.state();
    // The full picture follows within moments; then there is nothing to draw.
    const auto frames_within_3_s = [&] {
        const auto before = window.state()["frames"].get<std::int64_t>();
        std::this_thread::sleep_for(std::chrono::seconds(3));
        return window.state()["frames"].get<std::int64_t>() - before;
    };
    (void)frames_within_3_s();
    EXPECT_EQ(frames_within_3_s(), 0);
    (void)window.close();
}

TEST_F(Window, DragsAGearOnTheStage) {
    DrivenWindow window(folder_, {"--size", "1280x720"});
    window.key("Escape");  // no panel: the stage is free
    window.key("v");       // the view from above
    std::this_thread::sleep_for(std::chrono::seconds(1));
    // The crank's gear is in the middle of the stage; the bench is not.
    const Json before = window.state();
    const Json& stage = before["stage_px"];
    const int x = (stage[0].get<int>() + stage[2].get<int>()) / 2;
    const int y = (stage[1].get<int>() + stage[3].get<int>()) / 2;
    window.drag({x + 25, y}, {x + 25, y - 40});
    const Json after = window.state();
    EXPECT_NE(after["driver_turns"], before["driver_turns"]);
    (void)window.close();
}

}  // namespace
}  // namespace couplet
