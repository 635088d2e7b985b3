// The session goes after what the Find panel wants and shows. The scene is the default one, never saved.
#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "app/kept_folder.hpp"
#include "app/session.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

class FindingSession : public KeptFolder {
  protected:
    void apply_view(const std::vector<Command>& commands = {}) {
        apply(session, {session.view, commands}, clock_s_ += 0.01);
    }
    void look_until_over() {
        while (!session.find_job->progress().is_over) {
            (void)look_after_find(session);
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
    }
    // 4 to 1 of 18 to 30 teeth, found.
    void find_small() {
        session.view.open = Step::find;
        session.view.find.wish.teeth = {{"sun", {18, 30}}, {"planet", {18, 30}}};
        apply_view();
        look_until_over();
    }
    [[nodiscard]] const std::vector<SearchRow>& rows() const { return session.find_job->progress().result.rows; }
    void point_at(std::optional<SearchRow> row) {
        session.view.find.shown = std::move(row);
        apply_view();
    }
    [[nodiscard]] std::vector<int> teeth_on_stage() const {
        std::vector<int> teeth;
        for (const Gear& gear : session.stage->train.gears) teeth.push_back(gear.teeth);
        return teeth;
    }

    Session session = open_session({}, folder() / "kept");

  private:
    double clock_s_ = 0.0;
};

TEST_F(FindingSession, LooksForNothingWhileItsPanelIsClosed) {
    apply_view();
    EXPECT_FALSE(session.find_job);
    EXPECT_FALSE(look_after_find(session));
}

TEST_F(FindingSession, FollowsTheWish) {
    find_small();
    const std::shared_ptr<FindJob> first = session.find_job;
    EXPECT_TRUE(rows() == search(session.view.find.wish).rows);
    apply_view();
    EXPECT_EQ(session.find_job, first) << "the same wish is searched once";
    session.view.find.sort = RankKey::size;
    apply_view();
    EXPECT_EQ(session.find_job, first) << "an order of the rows is no wish";
    session.view.find.wish.target = 5;
    apply_view();
    EXPECT_NE(session.find_job, first);
    EXPECT_EQ(session.find_job->wish().target, Ratio(5));
    look_until_over();
    EXPECT_EQ(rows().front().ratio, Ratio(5));
}

TEST_F(FindingSession, StopsASearchThatIsWantedNoMore) {
    session.view.open = Step::find;
    SearchWish& wish = session.view.find.wish;
    wish.arrangement = Arrangement::in_series;
    wish.target = Ratio(51234567, 10000000);
    wish.shift = ShiftUse::allowed;
    wish.spacing = SpacingUse::free;
    wish.most_nearest = 10000;
    for (const char* name : {"sun 1", "planet 1", "sun 2", "planet 2"}) wish.teeth[name] = {18, 60};
    apply_view();
    const std::weak_ptr<FindJob> long_one = session.find_job;
    wish = FindChoice{}.wish;
    apply_view();
    look_until_over();
    while (!session.retired_finds.empty()) {
        apply_view();
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    EXPECT_TRUE(long_one.expired());
}

TEST_F(FindingSession, ShowsTheTrainOfARowAndTakesEverythingBack) {
    find_small();
    session.view.look.observer = MemberIndex{1};
    session.view.camera.azimuth_rad = 0.25;
    session.view.fit_camera = false;
    apply_view();
    const std::shared_ptr<const Stage> stage = session.stage;
    const StageLook look = session.view.look;
    const Camera camera = session.view.camera;
    const Draft draft = session.draft();
    unsigned stages = session.stage_count;
    for (const std::size_t row : {0U, 1U}) {
        point_at(rows()[row]);
        EXPECT_EQ(session.found_on_stage, rows()[row]);
        // The gears of a simple set stand as sun, planet, ring.
        EXPECT_EQ(teeth_on_stage(), rows()[row].teeth);
        EXPECT_GT(session.stage_count, stages);
        stages = session.stage_count;
        EXPECT_TRUE(session.view.fit_camera);
        EXPECT_EQ(session.view.look.observer, kFrame) << "members are other ones";
        EXPECT_TRUE(session.draft() == draft) << "it is only shown";
        (void)standing_now(session);
        session.view.camera.azimuth_rad = 1.5;  // as the flight to it leaves it
        session.view.fit_camera = false;
        apply_view();
        EXPECT_EQ(session.stage_count, stages) << "made once";
    }
    point_at(std::nullopt);
    EXPECT_FALSE(session.found_on_stage);
    EXPECT_EQ(session.stage, stage);
    EXPECT_GT(session.stage_count, stages);
    EXPECT_TRUE(session.view.look == look);
    EXPECT_TRUE(session.view.camera == camera);
    EXPECT_FALSE(session.view.fit_camera);
}

TEST_F(FindingSession, TakesEverythingBackWhenThePanelCloses) {
    find_small();
    const std::shared_ptr<const Stage> stage = session.stage;
    point_at(rows().front());
    ASSERT_NE(session.stage, stage);
    session.view.open = Step::size;
    apply_view();
    EXPECT_EQ(session.stage, stage);
    EXPECT_FALSE(session.view.find.shown);
}

// The stage shows the last train that could be drawn, and does so again.
TEST_F(FindingSession, TakesAStageBackThatCannotBeMadeAnew) {
    const std::shared_ptr<const Stage> stage = session.stage;
    Draft draft = session.draft();
    draft.train.teeth.module_mm.reset();
    apply_view({ChangeDraft{"no module", draft, ""}});
    ASSERT_FALSE(session.study->stage().part);
    ASSERT_EQ(session.stage, stage);
    find_small();
    point_at(rows().front());
    EXPECT_NE(session.stage, stage);
    point_at(std::nullopt);
    EXPECT_EQ(session.stage, stage);
}

TEST_F(FindingSession, TakesAnUndoMeanwhile) {
    Draft draft = session.draft();
    draft.train.gears[0].teeth = 18;
    apply_view({ChangeDraft{"teeth", draft, ""}});
    find_small();
    point_at(rows().front());
    apply_view({Undo{}});
    EXPECT_EQ(teeth_on_stage(), rows().front().teeth) << "the cursor still rests on its row";
    point_at(std::nullopt);
    EXPECT_EQ(session.stage, *session.study->stage().part);
    EXPECT_EQ(session.stage->train.gears[0].teeth, 21);
}

TEST_F(FindingSession, KeepsTheTrainOfARowAsASceneOfItsOwn) {
    find_small();
    const SearchRow row = rows()[1];
    session.view.look.observer = MemberIndex{1};
    session.view.fit_camera = false;
    point_at(row);
    apply_view({OpenFound{session.view.find.wish, row}});
    EXPECT_TRUE(session.notices.back().text.starts_with("kept: "));
    EXPECT_TRUE(session.train() == session.file.saved);
    EXPECT_TRUE(session.file.path.empty()) << "it has no file yet";
    std::vector<int> teeth;
    for (const Gear& gear : session.train().gears) teeth.push_back(gear.teeth);
    EXPECT_EQ(teeth, row.teeth);
    EXPECT_EQ(session.study->motion().outcome, Outcome::moves);
    EXPECT_NE(session.train().notes.find("Found for 4"), std::string::npos);
    EXPECT_EQ(session.view.open, Step::find) << "its panel stays";
    // The cursor goes: the train stays, and the camera goes to it, seen from the frame.
    point_at(std::nullopt);
    EXPECT_EQ(teeth_on_stage(), row.teeth);
    EXPECT_EQ(session.view.look.observer, kFrame);
    EXPECT_TRUE(session.view.fit_camera);
    EXPECT_EQ(session.stage, *session.study->stage().part);
}

TEST_F(FindingSession, AsksBeforeItLeavesUnsavedChanges) {
    Draft draft = session.draft();
    draft.train.gears[0].teeth = 18;
    apply_view({ChangeDraft{"teeth", draft, ""}});
    find_small();
    const SearchRow row = rows().front();
    apply_view({OpenFound{session.view.find.wish, row}});
    EXPECT_EQ(session.train().gears[0].teeth, 18);
    ASSERT_FALSE(session.notices.empty());
    EXPECT_EQ(session.notices.back().kind, Notice::Kind::question);
    ASSERT_EQ(session.notices.back().actions.size(), 2U);
    EXPECT_EQ(session.notices.back().actions[0].name, "drop them and keep the train that was found");
    apply_view({Answer{session.notices.size() - 1, 0}});
    EXPECT_EQ(session.train().title, "Simple planetary set 18, 18, 54 x 3");
    EXPECT_EQ(session.train().gears[0].teeth, row.teeth[0]);
}

}  // namespace
}  // namespace couplet
