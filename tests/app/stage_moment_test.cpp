#include "app/stage_moment.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "app/keyboard.hpp"
#include "app/null_window.hpp"
#include "app/panels.hpp"

namespace couplet {
namespace {

const ImVec2 kWindow_px(1280, 720);

TEST(StageMoment, IsTheTrainAndTheCameraAsTheyStand) {
    const NullWindow window("", draw_record_panel);
    const Places_px places = places_px(window.screen, window.session.view, kWindow_px);
    const StageMoment moment = moment_on_stage(window.session, places, 5);
    EXPECT_FALSE(moment.clip_frame);
    EXPECT_EQ(moment.look, window.session.view.look);
    EXPECT_EQ(moment.standing.frame_from_place, standing_now(window.session).frame_from_place);
}

TEST(StageMoment, IsTheClipWhileItIsPreviewed) {
    NullWindow window("", draw_record_panel);
    window.type("seconds", "4");
    window.type("fps", "10");
    window.click("Preview the path");
    Session& session = window.session;
    ASSERT_TRUE(session.view.preview_since_s);
    const double begin_s = *session.view.preview_since_s;
    const Camera held = session.view.camera;
    const Places_px places = places_px(window.screen, session.view, kWindow_px);
    const StageMoment start = moment_on_stage(session, places, begin_s);
    const StageMoment quarter = moment_on_stage(session, places, begin_s + 1.05);
    EXPECT_EQ(start.clip_frame, 0);
    EXPECT_EQ(quarter.clip_frame, 10);
    // A turntable: a quarter of a turn after a quarter of the clip.
    EXPECT_NEAR(quarter.shown.azimuth_rad - start.shown.azimuth_rad, 0.5 * std::numbers::pi, 1e-9);
    EXPECT_NE(quarter.standing.frame_from_place, start.standing.frame_from_place);
    // Over and over: 4 s later it is the same again.
    const StageMoment again = moment_on_stage(session, places, begin_s + 5.05);
    EXPECT_EQ(again.clip_frame, 10);
    EXPECT_EQ(again.standing.frame_from_place, quarter.standing.frame_from_place);
    EXPECT_EQ(session.view.camera, held) << "the stage's own camera waits for its end";
    window.click("Stop the preview");
    EXPECT_FALSE(session.view.preview_since_s);
    // Escape ends it too, before it closes the panel.
    session.view.open = Step::record;
    window.click("Preview the path");
    Edits edits{session.view, {}};
    (void)obey(KeyDeed::close_panel, window.screen, session, edits);
    EXPECT_FALSE(edits.view.preview_since_s);
    EXPECT_EQ(edits.view.open, Step::record);
}

// 824 x 588 pixels are free beside rail (76), panel (380) and dials (132): as wide as they, 16 to 9.
TEST(ClipEdges, AreAsLargeAsFitsBetweenThePanels) {
    const NullWindow window("", draw_record_panel);
    const Places_px places = places_px(window.screen, window.session.view, kWindow_px);
    const float left = places.stage_from.x;
    const ClipEdges wide = clip_edges(places, {1280, 720});
    EXPECT_FLOAT_EQ(wide.from.x, left);
    EXPECT_FLOAT_EQ(wide.to.x, 1280);
    EXPECT_NEAR(wide.to.y - wide.from.y, (1280 - left) * 9 / 16, 0.01);
    EXPECT_NEAR(wide.to.y + wide.from.y, 588, 0.01);  // in the middle
    const ClipEdges square = clip_edges(places, {500, 500});
    EXPECT_FLOAT_EQ(square.to.y - square.from.y, 588);
    EXPECT_FLOAT_EQ(square.to.x - square.from.x, 588);
}

TEST(StageZoom, SaysHowMuchCloserTheUserHasCome) {
    NullWindow window("", draw_record_panel);
    Session& session = window.session;
    const Places_px places = places_px(window.screen, session.view, kWindow_px);
    const double far = stage_zoom(session, places);
    session.view.camera.distance_mm /= 2;
    EXPECT_NEAR(stage_zoom(session, places) / far, 2, 1e-9);
}

}  // namespace
}  // namespace couplet
