#include <gtest/gtest.h>

#include <algorithm>

#include "app/frame_parts.hpp"
#include "app/null_window.hpp"

namespace couplet {

namespace {

class NoticesOnWindow {
  public:
    explicit NoticesOnWindow(float scale = 1)
        : window_(
              "",
              [](Screen& screen, const Session& session, Edits& edits) {
                  draw_notices(screen, session, edits, places_px(screen, session.view, ImGui::GetIO().DisplaySize));
              },
              Daylight::light, scale) {
        window_.session.notices.clear();
        window_.frame(2);
    }

    NullWindow& operator*() { return window_; }
    NullWindow* operator->() { return &window_; }

    void tell(Notice notice) {
        window_.session.notices.push_back(std::move(notice));
        window_.frame(3);  // a card shows in the second frame, once its height is known
    }

  private:
    NullWindow window_;
};

Notice note(std::string text) {
    Notice notice;
    notice.text = std::move(text);
    return notice;
}

Notice question() {
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.text = "The capstan has changes that are not saved.";
    notice.about = "leave";
    notice.actions = {{"undo, then leave", {Undo{}}}, {"stay", {}}};
    return notice;
}

std::vector<std::string> shown_texts(const NullWindow& window) {
    std::vector<std::string> texts;
    for (const Said& one : window.screen.said)
        if (one.role == "notice") texts.push_back(one.value);
    return texts;
}

TEST(Notices, SayTheirKindAndText) {
    NoticesOnWindow window;
    window.tell(question());
    const Said said = window->said("leave/question");
    EXPECT_EQ(said.role, "notice");
    EXPECT_EQ(said.value, "The capstan has changes that are not saved.");
}

TEST(Notices, StandBelowEachOtherAndTheNewestThreeAreShown) {
    NoticesOnWindow window;
    for (const char* text : {"first", "second", "third", "fourth", "fifth"}) window.tell(note(text));
    EXPECT_EQ(shown_texts(*window), (std::vector<std::string>{"third", "fourth", "fifth"}));
    EXPECT_EQ(window->said("rest").value, "and 2 more");
    float below = 0;
    for (const Said& one : window->screen.said) {
        if (one.role != "notice") continue;
        EXPECT_GT(one.box_px[1], below);
        below = one.box_px[3];
    }
}

TEST(Notices, AnActionIsDoneAndTheNoticeGoes) {
    NoticesOnWindow window;
    window.tell(note("another"));
    window.tell(question());
    window->click("stay");
    ASSERT_EQ(window->last_commands.size(), 1U);
    const auto* answer = std::get_if<Answer>(&window->last_commands.front());
    ASSERT_NE(answer, nullptr);
    EXPECT_EQ(answer->notice, 1U);  // the second notice
    EXPECT_EQ(answer->action, 1U);  // its second action
    ASSERT_EQ(window->session.notices.size(), 1U);
    EXPECT_EQ(window->session.notices.front().text, "another");
}

TEST(Notices, TheCrossAnswersWithNoAction) {
    NoticesOnWindow window;
    window.tell(question());
    window->click("dismiss");
    ASSERT_EQ(window->last_commands.size(), 1U);
    const auto* answer = std::get_if<Answer>(&window->last_commands.front());
    ASSERT_NE(answer, nullptr);
    EXPECT_EQ(answer->action, 2U);  // as many as it has actions: none of them
    EXPECT_TRUE(window->session.notices.empty());
}

TEST(Notices, AnErrorShowsTheLinesAndMarksTheFaultyOne) {
    NoticesOnWindow window;
    Notice error = note("scene.toml:11: tooths is no key; teeth would be right");
    error.kind = Notice::Kind::error;
    error.about = "open";
    error.excerpt = Notice::Excerpt{10, {"[[member.gear]]", "tooths = 21", "shift = 0.0"}, 11};
    window.tell(error);
    EXPECT_EQ(window->said("line 10").role, "line");
    EXPECT_EQ(window->said("line 11").role, "faulty line");
    EXPECT_EQ(window->said("line 11").value, "tooths = 21");
    EXPECT_EQ(window->said("line 12").role, "line");
    EXPECT_LT(window->said("line 11").box_px[1], window->said("line 12").box_px[1]);
}

TEST(Notices, FadeInTheirLastHalfSecondAndAskForFramesThen) {
    NoticesOnWindow window;
    Notice fading = note("21 copied");
    fading.fades_at_s = window->session.now_s + 2.0;
    window.tell(fading);
    window->screen.wants_frame = false;
    window->frame();
    EXPECT_FALSE(window->screen.wants_frame);  // nearly two seconds to go
    window->session.notices.front().fades_at_s = window->session.now_s + 0.3;
    window->frame();
    EXPECT_TRUE(window->screen.wants_frame);
    EXPECT_EQ(shown_texts(*window), std::vector<std::string>{"21 copied"});
    // 30 frames of a 60th of a second are past the 0.3 s.
    window->frame(30);
    EXPECT_TRUE(shown_texts(*window).empty());
}

TEST(Notices, ANoteThatStaysAsksForNoFrames) {
    NoticesOnWindow window;
    window.tell(question());
    window->screen.wants_frame = false;
    window->frame(3);
    EXPECT_FALSE(window->screen.wants_frame);
}

TEST(Notices, StayWithinTheStage) {
    for (const float scale : {1.0F, 2.0F}) {
        NoticesOnWindow window(scale);
        Notice wordy = question();
        for (int i = 0; i < 40; ++i) wordy.text += " and a word";
        window.tell(wordy);
        const Places_px places = places_px(window->screen, window->session.view, ImGui::GetIO().DisplaySize);
        for (const Said& one : window->screen.said) {
            EXPECT_GE(one.box_px[0], places.stage_from.x) << one.name;
            EXPECT_LE(one.box_px[2], places.stage_to.x) << one.name;
        }
        // Below the text, not over it.
        EXPECT_GE(window->said("stay").box_px[1], window->said("leave/question").box_px[3]);
    }
}

}  // namespace
}  // namespace couplet
