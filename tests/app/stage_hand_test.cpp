// The mouse on the stage, by numbers: the default scene from above, its middle in the middle of the window.
#include "app/stage_hand.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "motion/pose.hpp"

namespace couplet {
namespace {

constexpr double kAspect = 16.0 / 9;

class Hand : public testing::Test {
  protected:
    Hand() : session_(open_session({}, testing::TempDir() + "couplet_hand")), picker_(*session_.stage) {
        session_.view.camera = camera_for(*session_.stage, session_.view.look, NamedView::top, kAspect);
    }

    // One mouse event: obeyed at once.
    void mouse(glm::dvec2 at, bool left, bool other = false, double wheel = 0) {
        MouseOnStage mouse;
        mouse.cursor = at;
        mouse.cursor_px = {(at.x + 1) * 640, (1 - at.y) * 360};
        mouse.is_over_stage = true;
        mouse.left_down = left;
        mouse.shift_down = other;
        mouse.wheel = wheel;
        mouse.width_over_height = kAspect;
        mouse.shown = session_.view.camera;
        Edits edits{session_.view, {}};
        edits.view.pointed.reset();
        hand_.move(mouse, session_, standing_now(session_), picker_, edits);
        apply(session_, edits, 0);
    }
    [[nodiscard]] glm::dvec2 shown(glm::dvec3 point_mm) const {
        return *shown_at(session_.view.camera, point_mm, kAspect);
    }
    [[nodiscard]] MemberIndex member(const std::string& name) const { return *find_member(session_.train(), name); }
    [[nodiscard]] double turned(const std::string& name) const {
        const double phase =
            frame_phases_turns(session_.train(), session_.crank.joint_phases())[member(name).position()].to_double();
        return phase > 0.5 ? phase - 1 : phase;
    }

    Session session_;
    Picker picker_;
    StageHand hand_;
};

TEST_F(Hand, TurnsAGearByTheAngleThatTheCursorGoesRound) {
    // The crank's pitch radius is 3 * 21 / 2 = 31.5 mm; a point a third of the way out stands on its web or hub.
    const auto at = [&](double turns) {
        const double angle = 2 * std::numbers::pi * turns;
        return shown({28 * std::cos(angle), 28 * std::sin(angle), 20});
    };
    mouse(at(0.0), false);
    ASSERT_EQ(session_.view.pointed, member("crank"));
    mouse(at(0.0), true);
    for (double turns = 0; turns <= 0.12; turns += 0.005) mouse(at(turns), true);
    for (int settle = 0; settle < 3; ++settle) mouse(at(0.12), true);
    mouse(at(0.12), false);
    EXPECT_NEAR(turned("crank"), 0.12, 0.004);
    // The drum follows by 21 / 90 (the design's example).
    EXPECT_NEAR(turned("drum"), 0.12 * 7 / 30, 0.001);
}

TEST_F(Hand, CarriesAPlanetRoundItsCarrier) {
    // A point of the first planet's web 50 mm out. The planet rolls in the ring, whose pitch radius is 103.5 mm
    // (module 3, 69 teeth), with its axis 67.5 mm out: the point goes 53.5 / 36 times as fast as the axis does.
    const glm::dvec3 web(50, 0, 29.5);
    mouse(shown(web), false);
    ASSERT_EQ(session_.view.pointed, member("planet"));
    mouse(shown(web), true);
    constexpr double kPulled_mm = 4;
    for (int i = 1; i <= 20; ++i) mouse(shown(web + glm::dvec3(0, kPulled_mm * i / 20, 0)), true);
    mouse(shown(web + glm::dvec3(0, kPulled_mm, 0)), false);
    EXPECT_NEAR(turned("drum"), kPulled_mm / (67.5 * 53.5 / 36) / (2 * std::numbers::pi), 0.0004);
}

TEST_F(Hand, SaysThatAHeldRingIsHeld) {
    mouse(shown({108, 4, 10}), false);
    ASSERT_EQ(session_.view.pointed, member("ring"));
    mouse(shown({108, 4, 10}), true);
    mouse(shown({100, 40, 10}), true);
    mouse(shown({100, 40, 10}), false);
    EXPECT_EQ(session_.crank.joint_phases(), std::vector<Ratio>(4));
    ASSERT_FALSE(session_.notices.empty());
    EXPECT_NE(session_.notices.back().text.find("ring is held"), std::string::npos);
}

TEST_F(Hand, GoesRoundTheTrainOnTheBench) {
    const Camera before = session_.view.camera;
    mouse({-0.95, 0.9}, false);
    EXPECT_FALSE(session_.view.pointed);
    mouse({-0.95, 0.9}, true);
    mouse({-0.75, 0.9}, true);
    mouse({-0.75, 0.9}, false);
    EXPECT_NE(session_.view.camera.azimuth_rad, before.azimuth_rad);
    EXPECT_EQ(session_.view.camera.distance_mm, before.distance_mm);
    EXPECT_EQ(session_.crank.joint_phases(), std::vector<Ratio>(4));
}

TEST_F(Hand, ShiftsTheViewWithTheOtherButton) {
    const glm::dvec2 before = shown({0, 0, 0});
    mouse({0.1, 0.1}, false);
    mouse({0.1, 0.1}, false, true);
    mouse({0.3, 0.2}, false, true);
    mouse({0.3, 0.2}, false);
    const glm::dvec2 after = shown({0, 0, 0});
    EXPECT_NEAR(after.x - before.x, 0.2, 0.02);
    EXPECT_NEAR(after.y - before.y, 0.1, 0.02);
}

TEST_F(Hand, ComesCloserByTheWheel) {
    const double before = height_at_target_mm(session_.view.camera);
    mouse({0, 0}, false, false, 1);
    EXPECT_LT(height_at_target_mm(session_.view.camera), before);
}

TEST_F(Hand, AClickNamesTheMembersOfAJoint) {
    session_.view.joint_pick = JointPick{};
    const auto click = [&](glm::dvec2 at) {
        mouse(at, false);
        mouse(at, true);
        mouse(at, false);
    };
    click(shown({50, 0, 29.5}));
    ASSERT_TRUE(session_.view.joint_pick);
    EXPECT_EQ(session_.view.joint_pick->turns, member("planet"));
    click(shown({28, 0, 20}));
    EXPECT_FALSE(session_.view.joint_pick);
    ASSERT_EQ(session_.train().joints.size(), 1U);
    EXPECT_EQ(session_.train().joints[0].turns, member("planet"));
    EXPECT_EQ(session_.train().joints[0].against, member("crank"));
}

}  // namespace
}  // namespace couplet
