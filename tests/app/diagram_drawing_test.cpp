#include "app/diagram_drawing.hpp"

#include <gtest/gtest.h>

#include "app/null_window.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

TEST(Apart, LeavesAloneWhatStandsFarEnough) {
    EXPECT_EQ(apart({10, 40, 70}, 20, 0, 100), (std::vector<float>{10, 40, 70}));
}

TEST(Apart, KeepsTheGapAndTheRange) {
    // Two at one place, the lower one at the very end: it stays in the range and pushes the other up.
    EXPECT_EQ(apart({95, 95}, 20, 0, 100), (std::vector<float>{80, 100}));
    EXPECT_EQ(apart({0, 5, 10}, 20, 0, 100), (std::vector<float>{0, 20, 40}));
}

void draw_first_lever(Screen& screen, const Session& session, Edits& edits) {
    draw_lever(screen, session, edits, levers_of(session.train(), session.study->motion()).at(0), "lever");
}

// The harbour capstan is in the window: the drum makes 7/30 turns a turn of the crank, the held ring none.
TEST(DiagramDrawing, SaysEachMembersSpeed) {
    const NullWindow window("", draw_first_lever);
    EXPECT_EQ(window.said("lever: crank").value, "1");
    EXPECT_EQ(window.said("lever: drum").value, "7/30");
    EXPECT_EQ(window.said("lever: ring").value, "0");
}

TEST(DiagramDrawing, PointsAtTheMemberUnderTheCursor) {
    for (const float scale : {1.0F, 2.0F}) {
        NullWindow window("", draw_first_lever, Daylight::dark, scale);
        window.hover("lever: drum");
        EXPECT_EQ(window.session.view.pointed, member_named(window.session.train(), "drum"));
        window.hover("lever: crank");
        EXPECT_EQ(window.session.view.pointed, member_named(window.session.train(), "crank"));
    }
}

// The first member named at the top is the one whose point is highest on the lever, whatever the train calls it.
TEST(DiagramDrawing, NamesMembersInTheOrderOfTheirHeights) {
    const NullWindow window("", draw_first_lever);
    EXPECT_LT(window.said("lever: crank").box_px[1], window.said("lever: drum").box_px[1]);
    EXPECT_LT(window.said("lever: drum").box_px[1], window.said("lever: ring").box_px[1]);
}

void draw_plan(Screen& screen, const Session& session, Edits& edits) {
    const std::vector<PlanSection> plan =
        speed_plan_of(session.train(), session.stage->placement, session.study->motion());
    draw_plan_section(screen, session, edits, plan.at(0), "plan");
}

// Module 3, 21 teeth: a radius of 31.5 mm; the drum goes 7/30 of 67.5 mm a radian at the planets' axes.
TEST(DiagramDrawing, SaysVelocitiesAtBothEndsOfEachMember) {
    NullWindow window("", draw_plan);
    EXPECT_EQ(window.said("plan: crank").value, "0 at 0 mm, 31.5 at 31.5 mm");
    EXPECT_EQ(window.said("plan: drum").value, "0 at 0 mm, 15.75 at 67.5 mm");
    window.hover("plan: planet");
    EXPECT_EQ(window.session.view.pointed, member_named(window.session.train(), "planet"));
}

}  // namespace
}  // namespace couplet
