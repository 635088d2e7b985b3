// What follows from the Record panel's choice, of the default scene: the harbour capstan, never saved.
#include "app/clip_wish.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "app/kept_folder.hpp"
#include "scene/scene.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class ClipsOfTheCapstan : public KeptFolder {
  protected:
    Session session = open_session({}, folder() / "kept");

    [[nodiscard]] std::vector<std::string> arguments(const ClipChoice& choice, double zoom = 1.0) const {
        return clip_arguments(session, choice, zoom, "/scene.toml");
    }
    void change(Draft draft) {
        Edits edits{session.view, {}};
        edits.change("test", std::move(draft));
        apply(session, edits, 0);
    }
};

bool has(const std::vector<std::string>& words, const std::string& word) {
    return std::ranges::find(words, word) != words.end();
}

// The value of an option that is given at most once; "-" where it is not.
std::string value_of(const std::vector<std::string>& words, const std::string& option) {
    const std::string begin = "--" + option + "=";
    for (const std::string& word : words)
        if (word.starts_with(begin)) return word.substr(begin.size());
    return "-";
}

using ClipTarget = ClipsOfTheCapstan;
using ClipFaults = ClipsOfTheCapstan;
using ClipPlanned = ClipsOfTheCapstan;
using ClipArguments = ClipsOfTheCapstan;

TEST_F(ClipTarget, IsNamedAfterTheSceneAndStandsBesideIt) {
    // Without a file: after the title, in the current folder.
    EXPECT_EQ(clip_target(session, {}), fs::current_path() / "harbour_capstan.mp4");
    write(folder() / "winch.v2.toml", write_scene(session.train()));
    session = open_session(folder() / "winch.v2.toml", folder() / "kept");
    EXPECT_EQ(clip_name(session, {}), "winch.v2.mp4");
    EXPECT_EQ(clip_target(session, {}), folder() / "winch.v2.mp4");
    EXPECT_EQ(clip_name(session, with_kind({}, ClipKind::picture_folder)), "winch.v2/");
}

TEST_F(ClipTarget, FollowsTheKindAndTheKindFollowsIt) {
    ClipChoice choice = with_target(session, {}, "clips/turn.gif");
    EXPECT_EQ(choice.kind, ClipKind::gif);
    choice = with_kind(choice, ClipKind::webm);
    EXPECT_EQ(choice.target, "clips/turn.webm");
    choice = with_kind(choice, ClipKind::picture_folder);
    EXPECT_EQ(choice.target, "clips/turn/");
    EXPECT_EQ(last_name(clip_target(session, choice)), "turn/");
    choice = with_kind(choice, ClipKind::mp4);
    EXPECT_EQ(choice.target, "clips/turn.mp4");
    EXPECT_EQ(last_name(clip_target(session, choice)), "turn.mp4");
    // What names no kind keeps the present one; a folder that is there is one of pictures.
    EXPECT_EQ(with_target(session, choice, "a.b").target, "a.b.mp4");
    EXPECT_EQ(with_target(session, choice, folder().string()).kind, ClipKind::picture_folder);
    EXPECT_EQ(with_target(session, choice, " ").target, "");
}

// Another scene is another clip, and may have no shots to go through.
TEST_F(ClipTarget, IsForgottenWithItsScene) {
    session.view.clip = with_target(session, {}, "turn.gif");
    session.view.clip.path = PathKind::shots;
    apply(session, {session.view, {NewScene{Arrangement::simple}}}, 0);
    EXPECT_EQ(session.view.clip.target, "");
    EXPECT_EQ(session.view.clip.kind, ClipKind::gif);
    EXPECT_EQ(session.view.clip.path, PathKind::turntable);
}

TEST_F(ClipFaults, AreThoseOfTheCommandLine) {
    ClipChoice choice;
    choice.size_px = {1281, 720};
    EXPECT_EQ(size_fault(choice), "1281x720 has an odd side, which this kind of clip cannot have; 1282x720 would do");
    choice.transparent = true;
    EXPECT_EQ(background_fault(choice).find("transparent needs a kind that keeps it: .webm, .gif"), 0U);
    // GIF has neither limit (record/clip_kind.hpp).
    choice = with_kind(choice, ClipKind::gif);
    EXPECT_EQ(size_fault(choice) + background_fault(choice), "");
}

// 2 s at 10 frames a second; 0.035 bytes for each pixel of an MP4 (record/clip_kind.cpp, measured).
TEST_F(ClipPlanned, TellsFramesLengthAndSize) {
    ClipChoice choice;
    choice.seconds = 2;
    choice.fps = 10;
    choice.size_px = {1000, 500};
    const OrWhyNot<ClipPlan>& plan = clip_plan_of(session, choice);
    ASSERT_TRUE(plan.part) << plan.why_not;
    const ClipEstimate estimate = clip_estimate(choice, *plan.part);
    EXPECT_EQ(estimate.frames, 20);
    EXPECT_DOUBLE_EQ(estimate.seconds, 2);
    EXPECT_NEAR(estimate.megabytes, 0.035 * 500'000 * 20 / 1e6, 1e-9);
}

TEST_F(ClipPlanned, IsThatOfTheCommandLineWithoutItsOptions) {
    ClipChoice choice;
    choice.seconds = 1;
    choice.loop = LoopKind::strict;
    const ClipPlan& plan = clip_plan_of(session, choice).part.value();
    const std::vector<std::string> full = plan_words(session.train(), plan, PlanReader::command_line);
    const std::vector<std::string> lines = plan_words(session.train(), plan, PlanReader::window);
    // Every tooth of the capstan comes back after many turns of the crank: no second is enough, and the words say so.
    ASSERT_TRUE(
        std::ranges::any_of(full, [](const std::string& line) { return line.find("--") != std::string::npos; }));
    ASSERT_EQ(lines.size(), full.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        EXPECT_EQ(lines[i].find("--"), std::string::npos);
        EXPECT_EQ(full[i].substr(0, lines[i].size() - 1), lines[i].substr(0, lines[i].size() - 1));
        EXPECT_TRUE(lines[i].ends_with('.'));
    }
}

TEST_F(ClipPlanned, SaysWhyThereIsNone) {
    ClipChoice choice;
    choice.seconds = 86400;
    choice.fps = 1000;
    EXPECT_FALSE(clip_plan_of(session, choice).part);
    EXPECT_EQ(clip_plan_of(session, choice).why_not, "a clip has 1 to 1000000 frames");
}

TEST_F(ClipPlanned, IsWorkedOutOnce) {
    ClipChoice choice;
    const ClipPlan* first = &clip_plan_of(session, choice).part.value();
    EXPECT_EQ(&clip_plan_of(session, choice).part.value(), first);
    // Colours change nothing of a plan, the length does.
    choice.transparent = true;
    EXPECT_EQ(&clip_plan_of(session, choice).part.value(), first);
    choice.seconds = 3;
    EXPECT_EQ(clip_plan_of(session, choice).part.value().schedule.frames, 90);
}

TEST_F(ClipArguments, TellTheChoice) {
    ClipChoice choice = with_target(session, {}, "/clips/a b.webm");
    choice.size_px = {640, 360};
    choice.fps = Ratio(30000, 1001);
    choice.seconds = Ratio(5, 2);
    choice.loop = LoopKind::alike;
    choice.path = PathKind::rocking;
    choice.captions = {true, false, true};
    choice.transparent = true;
    choice.supersample = 2;
    choice.blur = 8;
    const std::vector<std::string> words = arguments(choice);
    ASSERT_GE(words.size(), 2U);
    EXPECT_EQ(words[0], "record");
    EXPECT_EQ(words[1], "/scene.toml");
    for (const char* word : {"--quiet", "--progress=lines", "--output=/clips/a b.webm", "--size=640x360",
                             "--fps=30000/1001", "--seconds=5/2", "--loop=alike", "--path=rocking", "--captions=title",
                             "--captions=turns", "--transparent", "--supersample=2", "--blur=8", "--setting=hauling"})
        EXPECT_TRUE(has(words, word)) << word;
    EXPECT_FALSE(has(words, "--captions=ratio"));
}

TEST_F(ClipArguments, LeaveOpenWhatWasNotChosen) {
    const std::vector<std::string> words = arguments({});
    for (const char* option : {"fps", "seconds", "loop", "zoom", "captions", "show", "spread"})
        EXPECT_EQ(value_of(words, option), "-") << option;
    EXPECT_FALSE(has(words, "--transparent"));
    EXPECT_FALSE(has(words, "--cutaway"));
}

TEST_F(ClipArguments, TellFromWhereTheStageIsSeenAndHowItLooks) {
    StageLook& look = session.view.look;
    look.look = Look::clay;
    look.observer = find_member(session.train(), "drum").value();
    look.marks = false;
    look.spread = 0.25;
    look.cutaway = look.arrows = look.names = true;
    Camera& camera = session.view.camera;
    camera.azimuth_rad = 2.25 * 2 * std::numbers::pi;  // a quarter turn after two whole ones
    camera.elevation_rad = -std::numbers::pi / 6;
    ClipChoice choice;
    choice.closeness = ClipChoice::Closeness::as_shown;
    const std::vector<std::string> words = arguments(choice, 1.5);
    for (const char* word :
         {"--look=clay", "--observer=drum", "--marks=off", "--spread=0.2500", "--cutaway", "--show=speeds",
          "--show=names", "--view=iso", "--azimuth=90.0000", "--elevation=-30.0000", "--zoom=1.5000"})
        EXPECT_TRUE(has(words, word)) << word;
    EXPECT_FALSE(has(words, "--show=contacts"));
    camera = turned_to(camera, NamedView::front);
    EXPECT_EQ(value_of(arguments(choice), "view"), "top");  // one without perspective
    EXPECT_EQ(value_of(arguments(choice), "elevation"), "0.0000");
}

TEST_F(ClipArguments, NameWhatIsTried) {
    change(driven_at(session.draft(), find_member(session.train(), "crank").value(), 7));
    ASSERT_TRUE(session.draft().trial);
    const Train shown = clip_draft(session.draft()).train;
    const std::string name = value_of(arguments({}), "setting");
    EXPECT_NE(name, "hauling");
    // The scene that the recorder reads holds it.
    const Train read = read_scene(write_scene(shown), "test");
    EXPECT_EQ(read[find_setting(read, name).value()].drive.at(0).rpm, Ratio(7));
    EXPECT_FALSE(find_setting(session.train(), name)) << "the draft itself keeps it a trial";
}

TEST_F(ClipArguments, NameAllSettingsOneAfterTheOther) {
    ClipChoice choice;
    choice.settings = ClipChoice::Settings::all;
    std::vector<std::string> named;
    for (const std::string& word : arguments(choice))
        if (word.starts_with("--setting=")) named.push_back(word.substr(10));
    std::vector<std::string> expected;
    for (const Setting& setting : session.train().settings) expected.push_back(setting.name);
    EXPECT_EQ(named, expected);
    EXPECT_EQ(clip_plan_of(session, choice).part.value().legs.size(), expected.size());
}

TEST_F(ClipArguments, GiveATrainWithoutSettingsOneToStandIn) {
    Draft draft = session.draft();
    draft.train.settings.clear();
    draft.chosen = {-1};
    change(draft);
    const std::string name = value_of(arguments({}), "setting");
    EXPECT_TRUE(find_setting(clip_draft(session.draft()).train, name)) << name;
    EXPECT_TRUE(clip_plan_of(session, {}).part);
}

}  // namespace
}  // namespace couplet
