// The session obeys edits: drafts, files, notices. Scenes of scenes/ and of the tests' own folder.
#include "app/session.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>

#include "exact/decimal.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class SessionInAFolder : public testing::Test {
  protected:
    SessionInAFolder() {
        const testing::TestInfo* test = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = fs::path(testing::TempDir()) / (std::string("couplet_session_") + test->name());
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    ~SessionInAFolder() override { fs::remove_all(folder_); }

    fs::path write(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
        return folder_ / name;
    }
    [[nodiscard]] std::string read(const std::string& name) const { return load_scene_text(folder_ / name); }
    [[nodiscard]] Session open(const fs::path& scene = {}) const { return open_session(scene, folder_ / "kept"); }
    void ask(Session& session, Command command) {
        clock_s_ += 0.01;
        apply(session, {session.view, {std::move(command)}}, clock_s_);
    }
    void change_teeth(Session& session, std::size_t gear, int teeth) {
        Draft draft = session.draft();
        draft.train.gears[gear].teeth = teeth;
        ask(session, ChangeDraft{"teeth", draft, ""});
    }

    fs::path folder_;
    double clock_s_ = 0.0;
};

std::string second_angle(const Session& session, std::size_t coupling) {
    return exact_text(session.study->sheet().couplings.at(coupling).degrees[1]);
}

constexpr const char* kPair = R"(couplet = 1
title = "Pair"   # a comment that stays
[teeth]
module = 2
[[member]]
name = "a"
[[member.gear]]
teeth = 20
[[member]]
name = "b"
[[member.gear]]
teeth = 40
[[mesh]]
gears = ["a", "b"]
[[setting]]
name = "on"
drive = { a = 60.0 }
)";

const Notice* notice_about(const Session& session, const std::string& about) {
    for (const Notice& notice : session.notices)
        if (notice.about == about) return &notice;
    return nullptr;
}

TEST_F(SessionInAFolder, BeginsWithTheCapstanAndItsNumbers) {
    const Session session = open();
    EXPECT_EQ(session.train().title, "Harbour capstan");
    // The design's example, section 5.
    EXPECT_EQ(second_angle(session, 1), "-241.5");
    ASSERT_TRUE(session.stage);
    EXPECT_TRUE(session.is_saved());
}

TEST_F(SessionInAFolder, FollowsAPinAtOnceAndTakesItBack) {
    Session session = open();
    const MemberIndex drum = *find_member(session.train(), "drum");
    const MemberIndex ring = *find_member(session.train(), "ring");
    ask(session, ChangeDraft{"pull ring", unpinned(session.draft(), ring), ""});
    EXPECT_EQ(session.study->motion().outcome, Outcome::free);
    ask(session, ChangeDraft{"pin drum", pinned(session.draft(), drum), ""});
    ASSERT_EQ(session.study->motion().outcome, Outcome::moves);
    // With the carrier held the tooth counts alone count: planet -21/24, ring -21/69 of the crank; the drum stands.
    std::vector<std::string> angles;
    for (const Coupling& coupling : session.study->sheet().couplings)
        if (coupling.second_per_first) angles.push_back(coupling.second_per_first->to_string());
    EXPECT_EQ(angles, (std::vector<std::string>{"0", "-7/8", "-7/23"}));
    EXPECT_TRUE(session.is_saved()) << "a trial is no change of the scene";
    ask(session, Undo{});
    ask(session, Undo{});
    EXPECT_EQ(second_angle(session, 1), "-241.5");
    EXPECT_FALSE(session.draft().trial);
    ask(session, Redo{});
    EXPECT_EQ(session.study->motion().outcome, Outcome::free);
}

TEST_F(SessionInAFolder, GoesOnFromWhereThePartsStandWhenTheSettingChanges) {
    Session session = open();
    session.view.running = true;
    ASSERT_TRUE(run_for(session, 1.7));
    const std::vector<Ratio> before = session.crank.joint_phases();
    ask(session, ChooseSetting{{1}});
    EXPECT_EQ(session.crank.joint_phases(), before);
    ASSERT_TRUE(run_for(session, 0.3));
    EXPECT_NE(session.crank.joint_phases(), before);
}

TEST_F(SessionInAFolder, KeepsTheLastStageWhereTeethMakeNone) {
    Session session = open(write("pair.toml", kPair));
    const auto before = session.stage;
    Draft draft = session.draft();
    draft.train.teeth.module_mm.reset();
    ask(session, ChangeDraft{"no module", draft, ""});
    EXPECT_EQ(session.stage, before);
    ASSERT_NE(notice_about(session, "stage"), nullptr);
    EXPECT_NE(notice_about(session, "stage")->text.find("module"), std::string::npos);
    // The numbers need no module.
    EXPECT_EQ(second_angle(session, 0), "-180");
    ask(session, Undo{});
    EXPECT_EQ(notice_about(session, "stage"), nullptr);
}

TEST_F(SessionInAFolder, RefusesADraftThatIsNoTrain) {
    Session session = open(write("pair.toml", kPair));
    Draft draft = session.draft();
    draft.train.gears[0].teeth = 2;
    ask(session, ChangeDraft{"too few", draft, ""});
    EXPECT_EQ(session.train().gears[0].teeth, 20);
    ASSERT_NE(notice_about(session, "edit"), nullptr);
}

TEST_F(SessionInAFolder, SavesKeepingComments) {
    Session session = open(write("pair.toml", kPair));
    change_teeth(session, 0, 22);
    EXPECT_FALSE(session.is_saved());
    ask(session, SaveScene{});
    EXPECT_TRUE(session.is_saved());
    EXPECT_NE(read("pair.toml").find("teeth = 22"), std::string::npos);
    EXPECT_NE(read("pair.toml").find("# a comment that stays"), std::string::npos);
}

TEST_F(SessionInAFolder, AsksForANameBeforeSavingWhatHasNone) {
    Session session = open();
    session.view.open = Step::couple;
    ask(session, SaveScene{});
    EXPECT_EQ(session.view.open, Step::scene);
    ask(session, SaveSceneAs{folder_ / "mine.toml"});
    EXPECT_EQ(session.file.path, folder_ / "mine.toml");
    EXPECT_EQ(session.recent.front(), folder_ / "mine.toml");
}

TEST_F(SessionInAFolder, ReplacesAnotherFileOnlyWhenTold) {
    Session session = open();
    write("other.toml", kPair);
    ask(session, SaveSceneAs{folder_ / "other.toml"});
    EXPECT_EQ(read("other.toml"), kPair);
    ASSERT_NE(notice_about(session, "save"), nullptr);
    ask(session, Answer{0, 0});
    EXPECT_NE(read("other.toml").find("Harbour capstan"), std::string::npos);
}

TEST_F(SessionInAFolder, TellsWhereABrokenFileIsBrokenAndWaitsForItsMending) {
    std::string broken = kPair;
    broken.replace(broken.find("teeth = 40"), 10, "theeth = 4");
    const fs::path path = write("pair.toml", broken);
    Session session = open(path);
    EXPECT_EQ(session.train().title, "Harbour capstan") << "the last good train stays";
    const Notice* told = notice_about(session, "file");
    ASSERT_NE(told, nullptr);
    EXPECT_NE(told->text.find("line 12"), std::string::npos) << told->text;
    EXPECT_NE(told->text.find("did you mean 'teeth'?"), std::string::npos) << told->text;
    ASSERT_TRUE(told->excerpt);
    EXPECT_EQ(told->excerpt->lines.at(static_cast<std::size_t>(12 - told->excerpt->first_line)), "theeth = 4");
    EXPECT_FALSE(look_after_files(session, 1));
    write("pair.toml", std::string(kPair) + "\n");
    EXPECT_TRUE(look_after_files(session, 2));
    EXPECT_EQ(session.train().title, "Pair");
    EXPECT_EQ(notice_about(session, "file"), nullptr);
}

TEST_F(SessionInAFolder, FollowsAFileThatAnotherProgramChanges) {
    Session session = open(write("pair.toml", kPair));
    session.view.camera.distance_mm = 123;
    std::string changed = kPair;
    changed.replace(changed.find("teeth = 40"), 10, "teeth = 400");
    write("pair.toml", changed);
    EXPECT_TRUE(look_after_files(session, 1));
    EXPECT_EQ(second_angle(session, 0), "-18");
    EXPECT_EQ(session.view.camera.distance_mm, 123) << "the view stays";
    EXPECT_TRUE(session.is_saved());
    ask(session, Undo{});
    EXPECT_EQ(second_angle(session, 0), "-180");
}

TEST_F(SessionInAFolder, ShowsAConflictAndLetsTheUserChoose) {
    for (const std::size_t choice : {0U, 1U}) {
        Session session = open(write("pair.toml", kPair));
        change_teeth(session, 0, 10);
        write("pair.toml", std::string(kPair) + "# more\n[[joint]]\nname = \"j\"\nturns = \"b\"\nagainst = \"a\"\n");
        EXPECT_TRUE(look_after_files(session, 1));
        EXPECT_FALSE(look_after_files(session, 2)) << "asked once";
        ASSERT_NE(notice_about(session, "file"), nullptr);
        EXPECT_EQ(session.train().gears[0].teeth, 10);
        ask(session, Answer{0, choice});
        EXPECT_EQ(session.train().gears[0].teeth, choice == 0 ? 20 : 10);
        EXPECT_EQ(session.train().joints.size(), choice == 0 ? 1U : 0U);
        EXPECT_FALSE(look_after_files(session, 3));
    }
}

TEST_F(SessionInAFolder, AsksBeforeItLeavesUnsavedChanges) {
    Session session = open(write("pair.toml", kPair));
    change_teeth(session, 0, 10);
    ask(session, NewScene{Arrangement::simple});
    EXPECT_EQ(session.train().title, "Pair");
    ASSERT_NE(notice_about(session, "leave"), nullptr);
    EXPECT_EQ(notice_about(session, "leave")->actions.size(), 3U);
    // "save, then ...": saved and left.
    ask(session, Answer{0, 0});
    EXPECT_NE(session.train().title, "Pair");
    EXPECT_NE(read("pair.toml").find("teeth = 10"), std::string::npos);
}

TEST_F(SessionInAFolder, NewScenesOfEveryArrangementMove) {
    Session session = open();
    for (const ArrangementForm& form : arrangement_forms()) {
        ask(session, NewScene{form.arrangement});
        EXPECT_EQ(session.study->motion().outcome, Outcome::moves) << form.name;
        EXPECT_EQ(session.study->stage().why_not, "") << form.name;
    }
}

TEST_F(SessionInAFolder, OffersWorkThatAnEarlierWindowLeft) {
    const fs::path path = write("pair.toml", kPair);
    const pid_t child = fork();
    if (child == 0) {
        Session session = open(path);
        Draft draft = session.draft();
        draft.train.gears[0].teeth = 17;
        apply(session, {session.view, {ChangeDraft{"teeth", draft, ""}}}, 1);
        (void)look_after_files(session, 2);
        _exit(0);  // as a crash would: no goodbye
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    Session session = open();
    ASSERT_EQ(session.left_unsaved.size(), 1U);
    ASSERT_NE(notice_about(session, "unsaved"), nullptr);
    ask(session, Answer{0, 0});
    EXPECT_EQ(session.train().gears[0].teeth, 17);
    EXPECT_EQ(session.file.path, path);
    EXPECT_FALSE(session.is_saved());
    EXPECT_TRUE(unsaved_work(folder_ / "kept").empty());
}

TEST_F(SessionInAFolder, SaysWhyAHeldMemberDoesNotFollowTheHand) {
    Session session = open();
    const std::vector<Ratio> before = session.crank.joint_phases();
    ask(session, TurnMember{*find_member(session.train(), "ring"), 0.1});
    ASSERT_NE(notice_about(session, "hand"), nullptr);
    EXPECT_NE(notice_about(session, "hand")->text.find("ring is held"), std::string::npos);
    EXPECT_EQ(session.crank.joint_phases(), before);
}

TEST_F(SessionInAFolder, NotesFadeAndErrorsStay) {
    Session session = open();
    ask(session, CopyText{"360 : 84"});
    EXPECT_EQ(session.clipboard, "360 : 84");
    ASSERT_EQ(session.notices.size(), 1U);
    EXPECT_FALSE(look_after_files(session, session.notices.front().fades_at_s - 0.1));
    EXPECT_TRUE(look_after_files(session, session.notices.front().fades_at_s + 0.1));
    EXPECT_TRUE(session.notices.empty());
}

}  // namespace
}  // namespace couplet
