#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "app/clip_wish.hpp"
#include "app/kept_folder.hpp"
#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "app/state_dump.hpp"

namespace couplet {
namespace {

// A recorder that shows five of nine frames and then waits for its end.
class RecordPanelRecords : public KeptFolder {
  protected:
    RecordPanelRecords() {
        write(folder() / "recorder", "#!/bin/sh\necho frame 5 of 9\nexec sleep 100\n");
        std::filesystem::permissions(folder() / "recorder", std::filesystem::perms::owner_all);
        window.session.program = folder() / "recorder";
        window.session.keepsakes = folder() / "kept";
        window.type("file", (folder() / "clip.mp4").string());
    }
    void look_until_frames_are_told() {
        while (window.session.job->progress().frames == 0) {
            (void)look_after_job(window.session, window.session.now_s);
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        window.frame(2);
    }
    void look_until_over() {
        while (window.session.job) {
            (void)look_after_job(window.session, window.session.now_s);
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        window.frame(2);
    }

    NullWindow window{"", draw_record_panel};
};

TEST(RecordPanel, ChoosesKindAndFile) {
    NullWindow window("", draw_record_panel);
    EXPECT_EQ(window.said("kind: mp4").value, "on");
    EXPECT_EQ(window.said("file").value, "harbour_capstan.mp4");
    window.click("kind: gif");
    EXPECT_EQ(window.said("file").value, "harbour_capstan.gif");
    EXPECT_EQ(window.session.view.clip.kind, ClipKind::gif);
    window.type("file", "turning.webm");
    EXPECT_EQ(window.said("kind: webm").value, "on");
    window.click("kind: pictures");
    EXPECT_EQ(window.said("file").value, "turning/");
}

TEST(RecordPanel, ChoosesEverythingElse) {
    NullWindow window("", draw_record_panel);
    for (const char* name : {"loop: alike", "path: rocking", "as close as the stage shows it", "size: 1080p",
                             "grain: finer", "blur: 4 drawings", "title", "turns", "settings: all, in turn"})
        window.click(name);
    window.type("fps", "25");
    window.type("seconds", "2.5");
    const ClipChoice& clip = window.session.view.clip;
    EXPECT_EQ(clip.loop, LoopKind::alike);
    EXPECT_EQ(clip.path, PathKind::rocking);
    EXPECT_EQ(clip.closeness, ClipChoice::Closeness::as_shown);
    EXPECT_EQ(clip.size_px, glm::ivec2(1920, 1080));
    EXPECT_EQ(clip.supersample, 2);
    EXPECT_EQ(clip.blur, 4);
    EXPECT_EQ(clip.captions, (CaptionChoice{true, false, true}));
    EXPECT_EQ(clip.settings, ClipChoice::Settings::all);
    EXPECT_EQ(clip.fps, Ratio(25));
    EXPECT_EQ(clip.seconds, Ratio(5, 2));
    window.type("seconds", "");
    EXPECT_EQ(window.session.view.clip.seconds, std::nullopt);
    window.type("fps", "many");
    EXPECT_EQ(window.session.view.clip.fps, Ratio(25));
    EXPECT_TRUE(window.shows("a number above 0"));
}

// 2 s at 10 frames a second.
TEST(RecordPanel, EstimatesTheClipAndSaysWhatItsLoopIs) {
    NullWindow window("", draw_record_panel);
    window.type("seconds", "2");
    window.type("fps", "10");
    EXPECT_EQ(window.said("estimate").value, "2 s, 20 frames");
    // 20 frames of 1280 x 720 at 0.035 bytes a pixel (record/clip_kind.cpp): 645120 bytes.
    EXPECT_TRUE(window.shows("1280 x 720, about 645 kB"));
    const ClipPlan& plan = clip_plan_of(window.session, window.session.view.clip).part.value();
    for (const std::string& line : plan_words(window.session.train(), plan, PlanReader::window))
        EXPECT_TRUE(window.shows(line)) << line;
}

TEST(RecordPanel, ShowsWhatCannotBeBesideIt) {
    NullWindow window("", draw_record_panel);
    EXPECT_TRUE(window.said("Record").enabled);
    window.type("width", "1281");
    EXPECT_TRUE(window.said("fault of size").value.find("1282x720 would do") != std::string::npos);
    EXPECT_FALSE(window.said("Record").enabled);
    window.type("width", "1282");
    EXPECT_FALSE(window.says("fault of size"));
    window.click("transparent");
    EXPECT_TRUE(window.says("fault of background"));
    EXPECT_FALSE(window.said("Record").enabled);
    window.click("kind: webm");
    EXPECT_FALSE(window.says("fault of background"));
    EXPECT_TRUE(window.said("Record").enabled);
    window.type("seconds", "86400");
    window.type("fps", "1000");
    EXPECT_EQ(window.said("plan").value, "fails: a clip has 1 to 1000000 frames");
    EXPECT_FALSE(window.said("Record").enabled);
}

TEST(RecordPanel, OffersShotsWhereTheSceneHasThem) {
    NullWindow window("", draw_record_panel);
    EXPECT_FALSE(window.says("path: shots"));
    Draft draft = window.session.draft();
    draft.train.shots.resize(2);
    draft.train.shots[1].at = Ratio(1, 2);
    draft.train.shots[1].azimuth_deg = 90;
    Edits edits{window.session.view, {}};
    edits.change("shots", draft);
    apply(window.session, edits, 0);
    window.frame(2);
    window.click("path: shots");
    EXPECT_EQ(window.session.view.clip.path, PathKind::shots);
}

TEST_F(RecordPanelRecords, ShowsHowFarItIsAndCancels) {
    window.click("Record");
    ASSERT_TRUE(window.session.job);
    EXPECT_FALSE(window.says("Record"));
    EXPECT_TRUE(window.shows("recording clip.mp4"));
    look_until_frames_are_told();
    EXPECT_EQ(window.said("progress").value, "5 of 9");
    EXPECT_TRUE(window.shows("frame 5 of 9"));
    WindowFacts facts;
    const Json dump = Json::parse(state_dump(window.session, window.screen, facts));
    EXPECT_EQ(dump["recording"]["state"], "recording");
    EXPECT_EQ(dump["recording"]["frames_done"], 5);
    EXPECT_EQ(dump["recording"]["frames"], 9);
    EXPECT_EQ(dump["recording"]["target"], (folder() / "clip.mp4").string());
    window.click("Cancel");
    look_until_over();
    EXPECT_TRUE(window.says("Record"));
    EXPECT_TRUE(Json::parse(state_dump(window.session, window.screen, facts))["recording"].is_null());
    EXPECT_EQ(window.session.notices.back().text, "clip.mp4 is cancelled: it is not recorded");
}

TEST_F(RecordPanelRecords, ByKeyboard) {
    ASSERT_NE(window.said("Record").id, 0U);
    ImGuiID reached = 0;
    while (reached != window.said("Record").id) {
        move_focus(window.screen, Going::on);
        reached = window.screen.focus_wish;
        window.frame(2);
    }
    window.press(ImGuiKey_Space);
    EXPECT_TRUE(window.session.job);
}

}  // namespace
}  // namespace couplet
