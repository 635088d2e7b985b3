// The whole screen over the stage: every panel, by day and night, at every scale, of every shipped scene.
#include "app/main_screen.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>

#include "app/keyboard.hpp"
#include "app/null_window.hpp"
#include "app/state_dump.hpp"

namespace couplet {
namespace {

constexpr Step kSteps[] = {Step::scene,  Step::find,  Step::size,   Step::place,
                           Step::couple, Step::watch, Step::record, Step::keys};

void draw_all(Screen& screen, const Session& session, Edits& edits) {
    const ImVec2 window(1280 * screen.scale, 720 * screen.scale);
    draw_main_screen(screen, session, edits, places_px(screen, session.view, window), std::nullopt, Fineness::full);
}

std::string text_of(const std::filesystem::path& path) {
    return load_scene_text(path);
}

TEST(MainScreen, DrawsEveryPanelOfEveryScene) {
    std::size_t scenes = 0;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(COUPLET_ROOT) + "/scenes")) {
        if (entry.path().extension() != ".toml") continue;
        ++scenes;
        SCOPED_TRACE(entry.path().string());
        NullWindow window(text_of(entry.path()), draw_all, scenes % 2 == 0 ? Daylight::dark : Daylight::light,
                          scenes % 3 == 0 ? 2.0F : 1.0F);
        for (const Step step : kSteps) {
            window.session.view.open = step;
            window.frame(3);
            EXPECT_GT(window.screen.said.size(), 20U);
        }
        EXPECT_TRUE(window.last_commands.empty()) << "nothing changes by being looked at";
    }
    EXPECT_EQ(scenes, 15U);
}

TEST(MainScreen, KeysDoWhatTheyDo) {
    NullWindow window("", draw_all);
    const auto deed = [&](KeyDeed what) {
        Edits edits{window.session.view, {}};
        const AfterKeys after = obey(what, window.screen, window.session, edits);
        apply(window.session, edits, 1);
        window.frame(2);
        return after;
    };
    EXPECT_EQ(deed(KeyDeed::open_size), AfterKeys::go_on);
    EXPECT_EQ(window.session.view.open, Step::size);
    (void)deed(KeyDeed::close_panel);
    EXPECT_FALSE(window.session.view.open);
    (void)deed(KeyDeed::run_or_stop);
    EXPECT_TRUE(window.session.view.running);
    (void)deed(KeyDeed::step_on);
    // One of the crank's 21 teeth.
    EXPECT_EQ(window.session.crank.joint_phases()[0], Ratio(1, 21));
    (void)deed(KeyDeed::step_back);
    (void)deed(KeyDeed::step_back);
    EXPECT_EQ(window.session.crank.joint_phases()[0], Ratio(20, 21));
    (void)deed(KeyDeed::to_start);
    EXPECT_EQ(window.session.crank.joint_phases()[0], Ratio(0));
    (void)deed(KeyDeed::next_setting);
    EXPECT_EQ(window.session.draft().chosen, SettingIndex{1});
    (void)deed(KeyDeed::faster);
    EXPECT_GT(window.session.view.speed, 1);
    (void)deed(KeyDeed::next_observer);
    EXPECT_EQ(window.session.view.look.observer, MemberIndex{0});
    (void)deed(KeyDeed::daylight);
    EXPECT_EQ(window.session.preferences.daylight, Daylight::dark);
    (void)deed(KeyDeed::larger_text);
    EXPECT_EQ(window.session.preferences.scale, 1.25);
    (void)deed(KeyDeed::copy_first_pair);
    ASSERT_TRUE(window.session.clipboard);
    EXPECT_NE(window.session.clipboard->find(" : "), std::string::npos);
    (void)deed(KeyDeed::save_as);
    EXPECT_EQ(window.session.view.open, Step::scene);
    EXPECT_EQ(window.session.view.files.task, FileTask::save_as);
    EXPECT_EQ(deed(KeyDeed::quit), AfterKeys::quit);
}

TEST(MainScreen, EveryKeyOfTheTableHasADeedThatDoesSomething) {
    NullWindow window("", draw_all);
    for (const KeyEntry& entry : key_table()) {
        Edits edits{window.session.view, {}};
        window.screen.focus_wish = 0;
        const AfterKeys after = obey(entry.deed, window.screen, window.session, edits);
        const ViewState& before = window.session.view;
        const ViewState& view = edits.view;
        const bool changed = after == AfterKeys::quit || !edits.commands.empty() || window.screen.focus_wish != 0 ||
                             view.open != before.open || view.running != before.running ||
                             view.backwards != before.backwards || view.speed != before.speed || view.fit_camera ||
                             view.go_to || view.look.look != before.look.look ||
                             view.look.cutaway != before.look.cutaway || view.look.marks != before.look.marks ||
                             view.look.names != before.look.names || view.look.contacts != before.look.contacts ||
                             view.look.pitch_circles != before.look.pitch_circles;
        EXPECT_TRUE(changed) << stroke_text(entry.stroke);
    }
}

TEST(StateDump, TellsWhatTheScreenShows) {
    NullWindow window("", draw_all);
    WindowFacts facts;
    facts.width_px = 1280;
    facts.height_px = 720;
    facts.picture = "full";
    const auto dump = nlohmann::json::parse(state_dump(window.session, window.screen, facts));
    EXPECT_EQ(dump["scene"], "Harbour capstan");
    EXPECT_EQ(dump["setting"], "hauling");
    EXPECT_EQ(dump["dials"].size(), 4U);
    EXPECT_EQ(dump["dials"][1]["turns"]["exact"], "7/30");
    // The design's example, section 5.
    EXPECT_EQ(dump["couplings"][1]["degrees"], (nlohmann::json{"360", "-241.5"}));
    EXPECT_EQ(dump["said"].size(), window.screen.said.size());
}

TEST(StateDump, NamesTheOpenPanelAsItsWidgetsDo) {
    NullWindow window("", draw_all);
    for (const Step step : kSteps) {
        window.session.view.open = step;
        window.frame();
        const std::string panel =
            nlohmann::json::parse(state_dump(window.session, window.screen, WindowFacts{}))["panel"];
        EXPECT_TRUE(window.says("close panel"));
        const auto in_panel = [&](const Said& one) { return one.name.starts_with(panel + "/"); };
        EXPECT_GT(std::ranges::count_if(window.screen.said, in_panel), 2) << panel;
    }
}

// Names are how scripts find things: no two the same among what can be pressed or typed into.
TEST(MainScreen, NamesAreUnique) {
    for (const Step step : kSteps) {
        NullWindow window("", draw_all);
        window.session.view.open = step;
        window.frame(2);
        std::map<std::string, int> count;
        for (const Said& one : window.screen.said)
            if (one.role != "text" && one.role != "heading") ++count[one.name];
        for (const auto& [name, times] : count) EXPECT_EQ(times, 1) << name;
    }
}

}  // namespace
}  // namespace couplet
