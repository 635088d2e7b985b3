#include "motion/motion.hpp"

#include <gtest/gtest.h>

#include <string>

#include "support/outcome_printer.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_builder.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

const char* const kSimpleSet = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";

TEST(Outcome, IsMovesWhereTheDriversFixEveryRate) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 1");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    EXPECT_EQ(set.motion.freedom, 1);
    EXPECT_EQ(set.motion.missing_drivers, 0);
    EXPECT_TRUE(set.motion.free_joints.empty());
    EXPECT_TRUE(set.motion.contradictions.empty());
    EXPECT_EQ(set.motion.steps_beyond_words, 0);
}

TEST(Outcome, IsFreeWhereADriverIsMissing) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 1");
    EXPECT_EQ(set.motion.outcome, Outcome::free);
    EXPECT_EQ(set.motion.freedom, 2);
    EXPECT_EQ(set.motion.missing_drivers, 1);
    ASSERT_EQ(set.motion.free_joints.size(), 1U);
    ASSERT_EQ(set.motion.parameter_count(), 2U);
    const MemberIndex stand_in = set.motion.free_joints.front();
    EXPECT_EQ(set.motion.joint_rate(stand_in)[1], Ratio(1));
}

TEST(Outcome, IsFreeWithoutAnySetting) {
    const SolvedTrain set = solved(kSimpleSet, "");
    EXPECT_EQ(set.motion.outcome, Outcome::free);
    EXPECT_EQ(set.motion.freedom, 2);
    EXPECT_EQ(set.motion.missing_drivers, 2);
    EXPECT_EQ(set.motion.free_joints.size(), 2U);
}

TEST(Outcome, MarksWhatIsUndeterminedWhereVeryManyDriversAreMissing) {
    const SolvedTrain pairs = solved(
        "a1 9 x b1 10; a2 9 x b2 10; a3 9 x b3 10; a4 9 x b4 10; a5 9 x b5 10; a6 9 x b6 10; a7 9 x b7 10; a8 9 x b8 "
        "10",
        "drive a1 1");
    EXPECT_EQ(pairs.motion.outcome, Outcome::free);
    EXPECT_EQ(pairs.motion.missing_drivers, 7);
    EXPECT_EQ(pairs.turns("b1"), Ratio(-9, 10));
    const auto rate = [&](const char* name) { return pairs.motion.joint_rate(member_named(pairs.train, name)); };
    EXPECT_FALSE(needs_missing_driver(pairs.motion, rate("b1")));
    EXPECT_TRUE(needs_missing_driver(pairs.motion, rate("b8")));
    // What two undetermined joints have to do with one another is still told: these turn 10 to -9, those not at all.
    EXPECT_EQ(rate("b8")[1] * Ratio(-10, 9), rate("a8")[1]);
    EXPECT_EQ(rate("b8")[2] * Ratio(-10, 9), rate("a8")[2]);
    EXPECT_NE(rate("b8")[1] * rate("a7")[2], rate("b8")[2] * rate("a7")[1]);
}

TEST(Outcome, KnowsADriverOfAPlanetWhereVeryManyDriversAreMissing) {
    // The planet is driven against the frame; its joint and its carrier's are free, their sum is not.
    const SolvedTrain pairs = solved(
        "a1 9 x b1 10; a2 9 x b2 10; a3 9 x b3 10; a4 9 x b4 10; a5 9 x b5 10; a6 9 x b6 10; sun 9 x planet 10 (planet "
        "on carrier)",
        "drive planet 1");
    EXPECT_EQ(pairs.motion.missing_drivers, 7);
    EXPECT_EQ(pairs.turns("planet"), Ratio(1));
}

TEST(Outcome, IsLockedWhereTheDriverCannotTurn) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring, carrier; drive sun 1");
    EXPECT_EQ(set.motion.outcome, Outcome::locked);
    EXPECT_EQ(set.motion.freedom, 0);
    EXPECT_EQ(set.motion.missing_drivers, 0);
}

TEST(Outcome, IsLockedWhereOnlyThePartWithTheDriverIs) {
    const SolvedTrain two = solved("sun 30 x planet 18; planet 18 in ring 66; a 20 x b 30 (planet on carrier)",
                                   "hold ring, carrier; drive sun 1, a 1");
    EXPECT_EQ(two.motion.outcome, Outcome::locked);
    EXPECT_EQ(two.motion.freedom, 1);
}

TEST(Outcome, IsLockedByMeshesAlone) {
    // Three wheels round in a ring, each in mesh with both others: no sense of turning suits all.
    const SolvedTrain ring = solved("a 20 x b 20; b 20 x c 20; c 20 x a 20", "drive a 1");
    EXPECT_EQ(ring.motion.outcome, Outcome::locked);
    EXPECT_EQ(ring.motion.freedom, 0);
}

TEST(Outcome, IsConflictingByTheExcessOfTheLastDriver) {
    // 30 w_sun + 66 w_ring = 96 w_carrier: sun and carrier at 1 rpm have the ring at 1 rpm; it is driven at 3.
    const SolvedTrain set = solved(kSimpleSet, "drive sun 1, carrier 1, ring 3");
    EXPECT_EQ(set.motion.outcome, Outcome::conflicting);
    EXPECT_EQ(set.motion.freedom, 2);
    ASSERT_EQ(set.motion.contradictions.size(), 1U);
    EXPECT_EQ(set.motion.contradictions[0].coefficients, (Combination{Ratio(5, 11), Ratio(-16, 11), 1}));
    EXPECT_EQ(set.motion.contradictions[0].excess_rpm, Ratio(2));
}

TEST(Outcome, IsConflictingForTwoDriversOfOneFixedTrain) {
    const SolvedTrain pair = solved("a 10 x b 20", "drive a 4, b 2");
    EXPECT_EQ(pair.motion.outcome, Outcome::conflicting);
    ASSERT_EQ(pair.motion.contradictions.size(), 1U);
    EXPECT_EQ(pair.motion.contradictions[0].coefficients, (Combination{Ratio(1, 2), 1}));
    EXPECT_EQ(pair.motion.contradictions[0].excess_rpm, Ratio(4));
}

TEST(Outcome, NamesEveryContradiction) {
    const SolvedTrain pairs = solved("a 10 x b 20; c 10 x d 20", "drive a 4, b 2, c 4, d -3");
    EXPECT_EQ(pairs.motion.outcome, Outcome::conflicting);
    ASSERT_EQ(pairs.motion.contradictions.size(), 2U);
    EXPECT_EQ(pairs.motion.contradictions[0].excess_rpm, Ratio(4));
    EXPECT_EQ(pairs.motion.contradictions[1].excess_rpm, Ratio(-1));
}

TEST(Outcome, IsMovesWhereDriversTooManyAgree) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 1, carrier 1, ring 1");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    EXPECT_EQ(set.motion.freedom, 2);
    EXPECT_EQ(set.turns("planet", "carrier"), Ratio(0));
    EXPECT_EQ(set.turns("ring"), Ratio(1));

    const SolvedTrain pair = solved("a 10 x b 20; b 20 x c 5", "drive a 4, b -2, c 8");
    EXPECT_EQ(pair.motion.outcome, Outcome::moves);
    EXPECT_EQ(pair.turns("c"), Ratio(8));
}

TEST(Outcome, TakesADriverAtRestForAHold) {
    const SolvedTrain driven = solved(kSimpleSet, "drive sun 1, ring 0");
    EXPECT_EQ(driven.motion.outcome, Outcome::moves);
    EXPECT_EQ(driven.turns("carrier"), Ratio(5, 16));
    EXPECT_EQ(driven.turns("ring"), Ratio(0));
}

TEST(Outcome, LetsADriverAtRestBeBlocked) {
    const SolvedTrain two = solved("sun 30 x planet 18; planet 18 in ring 66; a 20 x b 30 (planet on carrier)",
                                   "hold ring, carrier; drive sun 0, a 1");
    EXPECT_EQ(two.motion.outcome, Outcome::moves);
    EXPECT_EQ(two.turns("sun"), Ratio(0));
    EXPECT_EQ(two.turns("b"), Ratio(-2, 3));
}

TEST(Outcome, SolvesForDriversThatAllStandStill) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 0");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    EXPECT_EQ(set.turns("carrier"), Ratio(0));
    // Per turn of the driver all the same.
    EXPECT_EQ(set.motion.joint_rate(member_named(set.train, "carrier"))[0], Ratio(5, 16));
}

TEST(Outcome, ReckonsHoldsThatSayTheSameOnce) {
    const SolvedTrain set = solved("sun 30 x planet 18; planet 18 in ring 66; ring 80 x outer 40 (planet on carrier)",
                                   "hold ring, outer; drive sun 1");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    EXPECT_EQ(set.turns("carrier"), Ratio(5, 16));
}

TEST(Outcome, ReckonsTiesThatSayTheSameOnce) {
    const SolvedTrain set = solved(kSimpleSet, "tie sun=carrier, carrier=ring; drive sun 1");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    for (const char* member : {"sun", "carrier", "ring", "planet"}) EXPECT_EQ(set.turns(member), Ratio(1)) << member;
}

TEST(RedundantRows, OfManyPlanetsAgree) {
    std::string planets = "sun 30 x planet0 18; planet0 18 in ring 66";
    std::string riding = "planet0 on carrier";
    for (int k = 1; k < 9; ++k) {
        const std::string name = "planet" + std::to_string(k);
        planets += "; sun 30 x " + name + " 18; " + name + " 18 in ring 66";
        riding += ", " + name + " on carrier";
    }
    const SolvedTrain set = solved(planets + " (" + riding + ")", "hold ring; drive sun 1");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    EXPECT_EQ(set.turns("carrier"), Ratio(5, 16));
    EXPECT_EQ(set.turns("planet8", "carrier"), Ratio(-55, 48));
}

TEST(RedundantRows, OfParallelPathsAgreeWhereTheirCountsDo) {
    // Two idlers of different size between the same wheels: the size of an idler does not matter.
    const SolvedTrain agreeing =
        solved("a 20 x idler1 15; idler1 15 x b 40; a 20 x idler2 31; idler2 31 x b 40", "drive a 1");
    EXPECT_EQ(agreeing.motion.outcome, Outcome::moves);
    EXPECT_EQ(agreeing.turns("b"), Ratio(1, 2));

    // A stepped shaft instead of the second idler gives another ratio: locked.
    const SolvedTrain fighting =
        solved("a 20 x idler 15; idler 15 x b 40; a 20 x step 31; step 30 x b 40", "drive a 1");
    EXPECT_EQ(fighting.motion.outcome, Outcome::locked);
}

TEST(RedundantRows, OfThreeWheelsOverOnePlanetAreNone) {
    // Wheels of 99, 100 and 101 teeth over one planet, which no geometry lets share an axis: motion does not ask.
    const SolvedTrain set =
        solved("fixed 100 x thick 20; thick 20 x w99 99; thick 20 x w100 100; thick 20 x w101 101 (thick on arm)",
               "hold fixed, w100; drive arm 1");
    EXPECT_EQ(set.motion.outcome, Outcome::moves);
    EXPECT_EQ(set.turns("w101"), Ratio(1, 101));
}

TEST(TwoDrivers, MakeEveryRateACombination) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 7, carrier 11");
    ASSERT_EQ(set.motion.outcome, Outcome::moves);
    // w_ring = -(5/11) w_sun + (16/11) w_carrier: Willis.
    EXPECT_EQ(rate_on(set.train, set.motion, member_named(set.train, "ring"), kFrame),
              (Combination{Ratio(-5, 11), Ratio(16, 11)}));
    EXPECT_EQ(set.turns("ring"), Ratio(-5, 11) * 7 + Ratio(16, 11) * 11);
}

TEST(RateOn, IsTheDifferenceOfAnyTwoMembers) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 1");
    EXPECT_EQ(set.turns("planet", "carrier"), Ratio(-55, 48));
    EXPECT_EQ(set.turns("planet"), Ratio(-5, 6));
    EXPECT_EQ(set.turns("planet", "ring"), Ratio(-5, 6));
    EXPECT_EQ(set.turns("carrier", "planet"), Ratio(55, 48));
    EXPECT_EQ(set.turns("sun", "carrier"), Ratio(11, 16));
    EXPECT_EQ(set.turns("frame", "sun"), Ratio(-1));
    EXPECT_EQ(set.turns("frame"), Ratio(0));
}

TEST(RatesOnFrame, AreThoseOfRateOn) {
    const SolvedTrain set =
        solved("sun 30 x planet 20; wheel 24 x moon 12 (planet on arm, wheel on arm, moon on planet)",
               "hold sun; drive arm 3");
    const std::vector<Combination> rates = rates_on_frame(set.train, set.motion);
    ASSERT_EQ(rates.size(), set.train.members.size());
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(rates.size()); ++m)
        EXPECT_EQ(rates[static_cast<std::size_t>(m)], rate_on(set.train, set.motion, {m}, kFrame)) << m;
}

TEST(ReferenceDriver, IsTheFirstThatRuns) {
    EXPECT_EQ(reference_driver(solved(kSimpleSet, "drive sun 0, carrier 2").motion), std::optional<std::size_t>(1));
    EXPECT_EQ(reference_driver(solved(kSimpleSet, "drive sun 3, carrier 2").motion), std::optional<std::size_t>(0));
    EXPECT_EQ(reference_driver(solved(kSimpleSet, "hold ring; drive sun 0").motion), std::optional<std::size_t>(0));
    EXPECT_EQ(reference_driver(solved(kSimpleSet, "hold ring").motion), std::nullopt);
}

TEST(TurnsPerDriverTurn, CountsAllDriversAtTheirSpeeds) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 7, carrier 11");
    const Combination ring = rate_on(set.train, set.motion, member_named(set.train, "ring"), kFrame);
    EXPECT_EQ(turns_per_driver_turn(set.motion, ring), set.turns("ring") / 7);
}

TEST(TurnsPerDriverTurn, IsTheRatioWhateverTheSpeed) {
    for (const char* setting : {"hold ring; drive sun 1", "hold ring; drive sun -250.5", "hold ring; drive sun 0"}) {
        const SolvedTrain set = solved(kSimpleSet, setting);
        const Combination carrier = rate_on(set.train, set.motion, member_named(set.train, "carrier"), kFrame);
        EXPECT_EQ(turns_per_driver_turn(set.motion, carrier), Ratio(5, 16)) << setting;
    }
}

TEST(TurnsPerDriverTurn, IsNothingWhereADriverIsMissing) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 1");
    const Combination ring = rate_on(set.train, set.motion, member_named(set.train, "ring"), kFrame);
    EXPECT_EQ(turns_per_driver_turn(set.motion, ring), std::nullopt);
    const Combination sun = rate_on(set.train, set.motion, member_named(set.train, "sun"), kFrame);
    EXPECT_EQ(turns_per_driver_turn(set.motion, sun), Ratio(1));
}

TEST(Solve, TakesAnAxisAlongZAndRefusesOneThatCrosses) {
    Train train = train_from(kSimpleSet);
    const Setting setting = setting_from(train, "hold ring; drive sun 1");
    train.members[1].axis = {0, 0, Ratio(5, 2)};
    EXPECT_EQ(solve(train, setting).outcome, Outcome::moves);
    train.members[1].axis = {1, 0, 0};
    EXPECT_THROW((void)solve(train, setting), std::invalid_argument);
}

TEST(Solve, RefusesAMeshWithoutAnArm) {
    const Train train = train_from("a 20 x b 30; b 30 x c 20 (b on a, c on d)");
    EXPECT_THROW((void)solve(train, setting_from(train, "drive a 1")), std::invalid_argument);
}

TEST(Solve, KnowsATrainOfOneMember) {
    TrainBuilder builder;
    builder.member("shaft");
    const SolvedTrain shaft = solved(builder.build(), {"", {}, {}, {{{0}, 5}}});
    EXPECT_EQ(shaft.motion.outcome, Outcome::moves);
    EXPECT_EQ(shaft.turns("shaft"), Ratio(5));
}

TEST(Solve, KnowsWheelsInsideWheels) {
    // A ring and a gear inside it on fixed axes turn in the same sense.
    EXPECT_EQ(solved("a 20 in ring 50", "drive a 5").turns("ring"), Ratio(2));
    EXPECT_EQ(solved("a 20 in ring 50", "drive ring 2").turns("a"), Ratio(5));
}

}  // namespace
}  // namespace couplet
