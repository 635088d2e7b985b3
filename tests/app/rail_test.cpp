#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "app/frame_parts.hpp"
#include "app/null_window.hpp"

namespace couplet {

namespace {

// The rail as it stands in a window of that size, in pixels.
NullWindow::Draw rail_of(ImVec2 window_px) {
    return [window_px](Screen& screen, const Session& session, Edits& edits) {
        draw_rail(screen, session, edits, places_px(screen, session.view, window_px));
    };
}

const ImVec2 kWindow_px(1280, 720);

bool overlap(const Said& a, const Said& b) {
    return a.box_px[0] < b.box_px[2] && b.box_px[0] < a.box_px[2] && a.box_px[1] < b.box_px[3] &&
           b.box_px[1] < a.box_px[3];
}

TEST(Rail, ListsTheStepsOfTheJobInOrder) {
    const NullWindow window("", rail_of(kWindow_px));
    std::vector<Said> steps;
    for (const Said& one : window.screen.said)
        if (one.role == "step") steps.push_back(one);
    std::ranges::sort(steps, {}, [](const Said& one) { return one.box_px[1]; });
    std::vector<std::string> names;
    for (const Said& one : steps) names.push_back(one.name);
    // Design section 8: the order of the job, between the scene and the card of keys.
    EXPECT_EQ(names, (std::vector<std::string>{"rail/scene", "rail/find", "rail/size", "rail/place", "rail/couple",
                                               "rail/watch", "rail/record", "rail/keys"}));
}

TEST(Rail, OpensAStepAndClosesTheOpenOne) {
    NullWindow window("", rail_of(kWindow_px));
    EXPECT_EQ(window.said("couple").value, "open");  // what a window begins with (view_state.hpp)
    EXPECT_EQ(window.said("size").value, "closed");
    window.click("size");
    EXPECT_EQ(window.session.view.open, Step::size);
    EXPECT_EQ(window.said("size").value, "open");
    EXPECT_EQ(window.said("couple").value, "closed");
    window.click("size");
    EXPECT_EQ(window.session.view.open, std::nullopt);
    EXPECT_EQ(window.said("size").value, "closed");
}

TEST(Rail, UndoesAndDoesAgain) {
    NullWindow window("", rail_of(kWindow_px));
    EXPECT_FALSE(window.said("undo").enabled);
    EXPECT_FALSE(window.said("redo").enabled);
    window.click("undo");
    EXPECT_TRUE(window.last_commands.empty());
    Draft draft = window.session.draft();
    draft.train.title = "Another title";
    Edits edits{window.session.view, {}};
    edits.change("title", draft);
    apply(window.session, edits, 0);
    window.frame();
    EXPECT_TRUE(window.said("undo").enabled);
    EXPECT_EQ(window.said("undo").value, "title");
    window.click("undo");
    EXPECT_NE(window.session.train().title, "Another title");
    EXPECT_EQ(window.said("redo").value, "title");
    window.click("redo");
    EXPECT_EQ(window.session.train().title, "Another title");
}

TEST(Rail, SwitchesTheDaylight) {
    NullWindow window("", rail_of(kWindow_px));
    EXPECT_EQ(window.said("daylight").value, "light");
    window.click("daylight");
    EXPECT_EQ(window.session.preferences.daylight, Daylight::dark);
    EXPECT_EQ(window.said("daylight").value, "dark");
    window.click("daylight");
    EXPECT_EQ(window.session.preferences.daylight, Daylight::light);
}

TEST(Rail, FitsIntoTheSmallestWindowAndTheLargest) {
    struct Case {
        ImVec2 window_px;
        float scale;
    };
    // The smallest and the largest window that it has to work in, and the smallest at twice the scale.
    for (const Case& one : {Case{{1024, 640}, 1}, Case{{3840, 2160}, 2}, Case{{2048, 1280}, 2}}) {
        const NullWindow window("", rail_of(one.window_px), Daylight::light, one.scale);
        const std::vector<Said>& said = window.screen.said;
        ASSERT_EQ(said.size(), 11U);  // eight steps, the daylight, undo and redo
        for (std::size_t i = 0; i < said.size(); ++i) {
            EXPECT_GE(said[i].box_px[0], 0) << said[i].name;
            EXPECT_LE(said[i].box_px[2], 76 * one.scale) << said[i].name;  // the rail's width
            EXPECT_LE(said[i].box_px[3], one.window_px.y) << said[i].name;
            for (std::size_t k = 0; k < i; ++k)
                EXPECT_FALSE(overlap(said[i], said[k])) << said[i].name << " and " << said[k].name;
        }
    }
}

TEST(Places, LeaveTheStageBetweenRailPanelAndDials) {
    Screen screen;
    ViewState view;
    view.open = Step::couple;
    const Places_px open = places_px(screen, view, {1024, 640});
    EXPECT_EQ(open.rail_width, 76);
    EXPECT_EQ(open.panel_width, 380);  // the narrowest that panels are made for
    EXPECT_EQ(open.dial_row_height, 132);
    EXPECT_EQ(open.stage_from.x, 76 + 380);
    EXPECT_EQ(open.stage_to.x, 1024);
    EXPECT_EQ(open.stage_to.y, 640 - 132);
    view.open.reset();
    const Places_px closed = places_px(screen, view, {1024, 640});
    EXPECT_EQ(closed.panel_width, 0);
    EXPECT_EQ(closed.stage_from.x, 76);
}

TEST(Places, GrowWithTheScale) {
    Screen screen;
    screen.scale = 2;
    const Places_px places = places_px(screen, ViewState{}, {3840, 2160});
    EXPECT_EQ(places.rail_width, 152);
    EXPECT_EQ(places.panel_width, 840);  // 420 units, the widest
    EXPECT_EQ(places.dial_row_height, 264);
}

TEST(Places, NeverGiveTheStageLessThanNothing) {
    Screen screen;
    screen.scale = 2;
    const Places_px places = places_px(screen, ViewState{}, {300, 200});
    EXPECT_LE(places.stage_from.x, places.stage_to.x);
    EXPECT_LE(places.stage_from.y, places.stage_to.y);
    EXPECT_LE(places.rail_width + places.panel_width, 300);
}

}  // namespace
}  // namespace couplet
