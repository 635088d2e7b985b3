#include <gtest/gtest.h>

#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "support/ratio_printer.hpp"
#include "support/simple_set.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// A differential: the carrier follows the sun and the ring.
const std::string kDifferential = simple_set_text() + R"([teeth]
module = 2
[[setting]]
name = "both"
drive = { sun = 30.0, ring = 10.0 }
)";

MemberIndex member_of(const NullWindow& window, const std::string& name) {
    return member_named(window.session.train(), name);
}

TEST(WatchPanel, RunsStopsAndTurnsBackwards) {
    NullWindow window("", draw_watch_panel);
    EXPECT_EQ(window.said("run or stop").value, "");
    window.click("run or stop");
    EXPECT_TRUE(window.session.view.running);
    EXPECT_EQ(window.said("run or stop").value, "on");
    window.click("run or stop");
    EXPECT_FALSE(window.session.view.running);
    window.click("backwards");
    EXPECT_TRUE(window.session.view.backwards);
    // The capstan's crank is driven at 30 rpm.
    EXPECT_TRUE(window.shows("crank turns at -30 rpm"));
}

// A tooth of the crank is 1/21 of a turn.
TEST(WatchPanel, StepsByOneToothAndBackToTheStart) {
    NullWindow window("", draw_watch_panel);
    const auto turns = [&] { return window.session.crank.driver_turns(window.session.study->motion()); };
    window.click("on by one tooth");
    window.click("on by one tooth");
    EXPECT_EQ(turns(), Ratio(2, 21));
    window.click("back by one tooth");
    EXPECT_EQ(turns(), Ratio(1, 21));
    window.click("to start");
    EXPECT_EQ(turns(), Ratio(0));
}

// The slider is logarithmic: 1 x lies in its middle, a hundredth and a hundred times at its ends.
TEST(WatchPanel, SlidesTheSpeedFromACrawlToFast) {
    NullWindow window("", draw_watch_panel);
    const auto box = window.said("speed").box_px;
    const float y = 0.5F * (box[1] + box[3]);
    const ImVec2 middle(0.5F * (box[0] + box[2]), y);
    window.drag(middle, {box[0] - 50, y});
    EXPECT_DOUBLE_EQ(window.session.view.speed, 0.01);
    EXPECT_TRUE(window.shows("crank turns at 0.3 rpm"));
    window.drag(middle, {box[2] + 50, y});
    EXPECT_DOUBLE_EQ(window.session.view.speed, 100);
    EXPECT_TRUE(window.shows("crank turns at 3000 rpm"));
    window.drag({box[2] - 20, y}, {middle.x + 1, y});
    EXPECT_EQ(window.session.view.speed, 1.0);
}

TEST(WatchPanel, GivesTheDriverAnotherSpeed) {
    NullWindow window("", draw_watch_panel);
    window.type("rpm of crank", "12.5");
    EXPECT_EQ(window.session.study->setting().drive.at(0).rpm, Ratio(25, 2));
    window.type("rpm of crank", "fast");
    EXPECT_EQ(window.session.study->setting().drive.at(0).rpm, Ratio(25, 2));
    EXPECT_TRUE(window.shows("a number from"));  // what would be right, beside the field
}

TEST(WatchPanel, HasAFieldForEachDriverOfADifferential) {
    NullWindow window(kDifferential, draw_watch_panel);
    window.type("rpm of ring", "-5");
    EXPECT_EQ(window.session.study->setting().drive.at(0).rpm, Ratio(30));
    EXPECT_EQ(window.session.study->setting().drive.at(1).rpm, Ratio(-5));
    window.click("let go of ring");
    EXPECT_EQ(window.session.study->setting().drive.size(), 1U);
    EXPECT_EQ(window.session.study->motion().outcome, Outcome::free);
    EXPECT_TRUE(window.says("outcome"));
}

TEST(WatchPanel, SwitchesSettingsWhileRunning) {
    NullWindow window("", draw_watch_panel);
    window.click("run or stop");
    window.click("setting: lowering");
    EXPECT_EQ(window.session.study->setting().name, "lowering");
    EXPECT_TRUE(window.session.view.running);
}

// What is tried is listed beside the settings, and choosing its setting again drops it.
TEST(WatchPanel, ListsWhatIsTriedAndGoesBack) {
    NullWindow window("", draw_watch_panel);
    window.type("rpm of crank", "7");
    ASSERT_TRUE(window.session.draft().trial);
    EXPECT_EQ(window.said("setting: tried: hauling").value, "on");
    window.click("setting: hauling");
    EXPECT_FALSE(window.session.draft().trial);
    EXPECT_EQ(window.session.study->setting().drive.at(0).rpm, Ratio(30));
}

TEST(WatchPanel, RidesOnAMember) {
    NullWindow window("", draw_watch_panel);
    window.click("observer");
    window.click("observer: drum");
    EXPECT_EQ(window.session.view.look.observer, member_of(window, "drum"));
    EXPECT_EQ(window.said("observer").value, "drum");
}

TEST(WatchPanel, ChoosesViewLookAndWhatIsShown) {
    NullWindow window("", draw_watch_panel);
    window.click("view: top");
    EXPECT_EQ(window.session.view.go_to, NamedView::top);
    window.click("look: line");
    EXPECT_EQ(window.session.view.look.look, Look::line);
    const StageLook before = window.session.view.look;
    for (const char* name : {"pitch circles", "centres", "speeds", "contacts", "names", "tooth marks", "cutaway"})
        window.click(name);
    const StageLook& after = window.session.view.look;
    EXPECT_NE(after.pitch_circles, before.pitch_circles);
    EXPECT_NE(after.centre_lines, before.centre_lines);
    EXPECT_NE(after.arrows, before.arrows);
    EXPECT_NE(after.contacts, before.contacts);
    EXPECT_NE(after.names, before.names);
    EXPECT_NE(after.marks, before.marks);
    EXPECT_NE(after.cutaway, before.cutaway);
    window.session.view.fit_camera = false;
    window.click("Fit");
    EXPECT_TRUE(window.session.view.fit_camera);
}

TEST(WatchPanel, PullsThePartsApart) {
    NullWindow window("", draw_watch_panel);
    const auto box = window.said("spread").box_px;
    const float y = 0.5F * (box[1] + box[3]);
    window.drag({box[0] + 10, y}, {box[2] + 50, y});
    EXPECT_DOUBLE_EQ(window.session.view.look.spread, 1);
}

// Hauling: 7/30 turns of the drum for one of the crank (README); with the drum lashed the lever lies the other way.
TEST(WatchPanel, DrawsLeverAndPlanOfTheRunningSetting) {
    NullWindow window("", draw_watch_panel);
    EXPECT_EQ(window.said("lever 1 of drum: drum").value, "7/30");
    EXPECT_EQ(window.said("plan 1: crank").value, "0 at 0 mm, 31.5 at 31.5 mm");
    window.click("setting: ring loose");
    EXPECT_EQ(window.said("lever 1 of drum: drum").value, "0");
    EXPECT_EQ(window.said("lever 1 of drum: ring").value, "-7/23");  // 21/69
    EXPECT_TRUE(window.says("Lever diagram"));
    EXPECT_TRUE(window.says("Speed plan"));
}

TEST(WatchPanel, HasNoLeverWithoutACarrier) {
    const NullWindow window(R"(couplet = 1
teeth = { module = 2 }
[[member]]
name = "a"
gear = [{ teeth = 20 }]
[[member]]
name = "b"
gear = [{ teeth = 40 }]
[[mesh]]
gears = ["a", "b"]
[[setting]]
name = "on"
drive = { a = 10.0 }
)",
                            draw_watch_panel);
    EXPECT_FALSE(window.says("Lever diagram"));
    EXPECT_EQ(window.said("plan 1: b").role, "point");
}

}  // namespace
}  // namespace couplet
