#include "app/history.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "support/dice.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

Draft draft_with(int teeth) {
    Draft draft = draft_of(train_from("sun 24 x wheel 18"));
    draft.train.gears[0].teeth = teeth;
    return draft;
}

int teeth_of(const Draft& draft) {
    return draft.train.gears[0].teeth;
}

TEST(History, BeginsWithNothingToUndo) {
    History history(draft_with(24));
    EXPECT_FALSE(history.can_undo());
    EXPECT_FALSE(history.can_redo());
    EXPECT_EQ(history.undo_what(), "");
    EXPECT_EQ(history.redo_what(), "");
    history.undo();
    history.redo();
    EXPECT_EQ(history.now(), draft_with(24));
}

TEST(History, GoesBackAndForthAndSaysWhatItWouldDo) {
    History history(draft_with(24));
    history.change("teeth: 25", draft_with(25));
    history.change("teeth: 26", draft_with(26));
    EXPECT_EQ(history.undo_what(), "teeth: 26");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
    EXPECT_EQ(history.undo_what(), "teeth: 25");
    EXPECT_EQ(history.redo_what(), "teeth: 26");
    history.undo();
    EXPECT_EQ(history.undo_what(), "");
    EXPECT_EQ(history.redo_what(), "teeth: 25");
    history.redo();
    history.redo();
    EXPECT_EQ(teeth_of(history.now()), 26);
}

TEST(History, ForgetsWhatWasUndoneWithANewChange) {
    History history(draft_with(24));
    history.change("teeth: 25", draft_with(25));
    history.change("teeth: 26", draft_with(26));
    history.undo();
    history.change("teeth: 40", draft_with(40));
    EXPECT_FALSE(history.can_redo());
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
}

TEST(History, MakesNoStepOfADraftLikeThePresentOne) {
    History history(draft_with(24));
    history.change("teeth: 25", draft_with(25));
    history.undo();
    history.change("nothing", draft_with(24));
    EXPECT_FALSE(history.can_undo());
    EXPECT_TRUE(history.can_redo());
}

TEST(History, MakesOneStepOfChangesWithTheSameKey) {
    History history(draft_with(24));
    history.change("other", draft_with(23), "other");
    for (int teeth = 25; teeth <= 40; ++teeth)
        history.change("teeth: " + std::to_string(teeth), draft_with(teeth), "sun");
    EXPECT_EQ(history.undo_what(), "teeth: 40");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 23);
    history.redo();
    EXPECT_EQ(teeth_of(history.now()), 40);
}

TEST(History, NeverMergesChangesWithoutAKey) {
    History history(draft_with(24));
    history.change("25", draft_with(25));
    history.change("26", draft_with(26));
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
}

TEST(History, MergesOnlyWhatFollowsDirectly) {
    History history(draft_with(24));
    history.change("25", draft_with(25), "sun");
    history.change("30", draft_with(30), "wheel");
    history.change("26", draft_with(26), "sun");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 30);
    // An undo and a redo stand between, too.
    history.redo();
    history.change("27", draft_with(27), "sun");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 26);
    history.undo();
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
    history.change("28", draft_with(28), "sun");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
}

TEST(History, MakesAStepOfItsOwnAfterAPause) {
    History history(draft_with(24));
    history.change("25", draft_with(25), "sun");
    history.pause();
    history.change("26", draft_with(26), "sun");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
}

TEST(History, DropsAStepThatWasDraggedBackToItsBeginning) {
    History history(draft_with(24));
    history.change("25", draft_with(25), "wheel");
    history.change("26", draft_with(26), "sun");
    history.change("25", draft_with(25), "sun");
    EXPECT_EQ(history.undo_what(), "25");
    EXPECT_FALSE(history.can_redo());
    // The step before is whole: the next change does not merge into it.
    history.change("27", draft_with(27), "wheel");
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 25);
    history.undo();
    EXPECT_EQ(teeth_of(history.now()), 24);
}

TEST(History, ChoosesASettingWithoutAStep) {
    Draft first = draft_with(24);
    first.train.settings = {{"slow", {}, {}, {}}, {"fast", {}, {}, {}}};
    first.chosen = {0};
    History history(first);
    Draft second = first;
    second.trial = Setting{"slow", {{0}}, {}, {}};
    history.change("pin sun", second, "pins");
    history.choose({1});
    EXPECT_EQ(history.now().chosen, SettingIndex{1});
    EXPECT_FALSE(history.now().trial);
    EXPECT_EQ(history.undo_what(), "pin sun");
    // It does not merge with what came before.
    Draft third = history.now();
    third.trial = Setting{"fast", {{1}}, {}, {}};
    history.change("pin wheel", third, "pins");
    history.undo();
    EXPECT_EQ(history.now().chosen, SettingIndex{1});
    EXPECT_FALSE(history.now().trial);
    history.undo();
    EXPECT_EQ(history.now(), first);
    // What was undone stays.
    history.choose({1});
    EXPECT_TRUE(history.can_redo());
}

TEST(History, KeepsAtMostItsNumberOfStepsTheLatest) {
    History history(draft_with(0));
    const int changes = static_cast<int>(History::kMostSteps) + 20;
    for (int teeth = 1; teeth <= changes; ++teeth) history.change(std::to_string(teeth), draft_with(teeth));
    std::size_t undone = 0;
    for (; history.can_undo(); ++undone) history.undo();
    // The draft that stays at the bottom is one of the steps kept.
    EXPECT_EQ(undone, History::kMostSteps - 1);
    EXPECT_EQ(teeth_of(history.now()), changes - static_cast<int>(undone));
    for (; history.can_redo();) history.redo();
    EXPECT_EQ(teeth_of(history.now()), changes);
}

// Beside the history a plain list of all drafts that must be met again on the way back and forth.
TEST(History, GivesTheSameDraftsBackAfterManyRandomChanges) {
    Dice dice(5);
    for (int trial = 0; trial < 20; ++trial) {
        std::vector<Draft> met = {draft_with(24)};
        std::size_t at = 0;
        std::string last_key;
        History history(met.front());
        for (int k = 0; k < 400; ++k) {
            const int action = dice.between(1, 10);
            if (action <= 2 && at > 0) {
                history.undo();
                --at;
                last_key.clear();
            } else if (action == 3 && at + 1 < met.size()) {
                history.redo();
                ++at;
                last_key.clear();
            } else {
                const Draft next = draft_with(1000 * (trial + 1) + k);
                const std::string key = dice.chance(50) ? "" : "key " + std::to_string(dice.between(1, 2));
                history.change("change", next, key);
                met.resize(at + 1);
                if (!key.empty() && key == last_key)
                    met[at] = next;
                else
                    met.push_back(next), ++at;
                last_key = key;
            }
            ASSERT_EQ(history.now(), met[at]);
        }
        for (; at > 0; --at, history.undo()) ASSERT_EQ(history.now(), met[at]);
        ASSERT_EQ(history.now(), met.front());
        ASSERT_FALSE(history.can_undo());
        for (; at + 1 < met.size(); ++at, history.redo()) ASSERT_EQ(history.now(), met[at]);
        ASSERT_EQ(history.now(), met.back());
        ASSERT_FALSE(history.can_redo());
    }
}

}  // namespace
}  // namespace couplet
