#include "sheet/outcome_words.hpp"

#include <gtest/gtest.h>

#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

using Sentences = std::vector<std::string>;

HandSheet with_outcome(Outcome outcome) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.outcome = outcome;
    hand.sheet.explanation.emplace();
    return hand;
}

TEST(OutcomeLine, TellsFreedomAndDrivers) {
    HandSheet hand = capstan_sheet();
    EXPECT_EQ(outcome_line(hand.sheet.motion), "moves: freedom 1, 1 driver");
    hand.sheet.motion.outcome = Outcome::free;
    hand.sheet.motion.freedom = 2;
    hand.sheet.motion.missing_drivers = 1;
    EXPECT_EQ(outcome_line(hand.sheet.motion), "free: freedom 2, 1 driver, 1 missing");
}

TEST(OutcomeAdvice, IsEmptyWhereTheSettingMoves) {
    const HandSheet hand = capstan_sheet();
    EXPECT_TRUE(outcome_advice(hand.train, hand.sheet).empty());
}

TEST(OutcomeAdvice, NamesMembersThatCouldTakeAMissingDriver) {
    HandSheet hand = with_outcome(Outcome::free);
    hand.sheet.motion.missing_drivers = 1;
    hand.sheet.explanation->could_drive = {hand.member("ring"), hand.member("drum")};
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet),
              (Sentences{"Free: 1 driver missing, so some joints can still turn as they like.",
                         "Drive or hold one more member: ring or drum."}));
    hand.sheet.motion.missing_drivers = 2;
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet).back(),
              "Drive or hold 2 more members; the first may be ring or drum.");
}

TEST(OutcomeAdvice, NamesWhatToLetGoOfWhereLocked) {
    HandSheet hand = with_outcome(Outcome::locked);
    hand.sheet.setting.hold = {hand.member("ring"), hand.member("drum")};
    hand.sheet.setting.tie = {{hand.member("crank"), hand.member("drum")}};
    hand.sheet.explanation->blocked = {hand.member("crank")};
    hand.sheet.explanation->releases = {{{0}, {}}};
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet),
              (Sentences{"Locked: crank cannot turn.", "Let go of the hold on ring."}));
    hand.sheet.explanation->releases = {{{0, 1}, {}}, {{1}, {0}}};
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet).back(),
              "Let go of one of these: the hold on ring and the hold on drum; or the hold on drum and the tie crank = "
              "drum.");
    hand.sheet.explanation->releases_are_smallest = false;
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet).back(),
              "The search was cut short: letting go of fewer may do as well.");
}

TEST(OutcomeAdvice, SaysWhenTheMeshesAloneLock) {
    HandSheet hand = with_outcome(Outcome::locked);
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet),
              (Sentences{"Locked: the drivers cannot turn.",
                         "The meshes alone lock it: no hold or tie is to blame. Take a mesh or a gear away."}));
}

// With the ring held the drum turns 7/30 of the crank (Willis): 30 rpm ask for 7 rpm.
TEST(OutcomeAdvice, TellsTheSpeedThatWouldAgree) {
    HandSheet hand = with_outcome(Outcome::conflicting);
    hand.sheet.motion.drivers = {{hand.member("crank"), 30}, {hand.member("drum"), 10}};
    hand.sheet.motion.contradictions = {{{Ratio(-7, 30), 1}, 3}};
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet),
              (Sentences{"Conflicting: the drivers contradict each other.",
                         "With crank at 30 rpm, drum has to turn at 7 rpm but is driven at 10 rpm, 3 rpm too many: "
                         "change its speed or leave that driver out."}));
}

TEST(OutcomeAdvice, TellsOfAConflictOfOneDriverAlone) {
    HandSheet hand = with_outcome(Outcome::conflicting);
    hand.sheet.motion.drivers = {{hand.member("crank"), -3}};
    hand.sheet.motion.contradictions = {{{1}, -3}};
    EXPECT_EQ(outcome_advice(hand.train, hand.sheet).back(),
              "crank has to turn at 0 rpm but is driven at -3 rpm, 3 rpm too few: change its speed or leave that "
              "driver out.");
}

TEST(ObstacleText, SaysWhyAndWhatWouldHelp) {
    HandSheet hand = capstan_sheet();
    EXPECT_EQ(obstacle_text(hand.train, hand.coupling()), "");
    hand.coupling().obstacle = Obstacle::independent;
    hand.coupling().holds_to_exist = {hand.member("ring"), hand.member("drum")};
    EXPECT_EQ(obstacle_text(hand.train, hand.coupling()),
              "crank on frame and planet on drum can turn independently of each other, so no two angles couple them; "
              "holding ring or drum would.");
    hand.coupling().obstacle = Obstacle::first_stands_still;
    EXPECT_EQ(obstacle_text(hand.train, hand.coupling()),
              "crank on frame stands still while planet on drum turns: couple it from a joint that turns.");
    hand.coupling().obstacle = Obstacle::undetermined;
    EXPECT_EQ(obstacle_text(hand.train, hand.coupling()),
              "There is no motion in this setting, so nothing can be coupled.");
}

}  // namespace
}  // namespace couplet
