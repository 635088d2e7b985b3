#include "place/assembly.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "exact/decimal.hpp"
#include "place/placed_train.hpp"
#include "support/dice.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TEST(Assembly, ShowsTheArithmeticOfTheCondition) {
    const Assembly assembly = placed(simple_set(21, 24, 69, 3)).assembly();
    ASSERT_EQ(assembly.conditions.size(), 1U);
    EXPECT_EQ(assembly.conditions[0].form, AssemblyForm::simple);
    EXPECT_EQ(assembly.conditions[0].sum, Ratio(90));
    EXPECT_EQ(assembly.conditions[0].quotient, Ratio(30));
    EXPECT_EQ(assembly.conditions[0].least_mesh_angle_deg, Ratio(4));
    EXPECT_EQ(assembly.outcome, AssemblyOutcome::assembles);
}

TEST(Assembly, OffersTheNearestPlacesWhereCopiesDoNotFit) {
    const Assembly assembly = placed(simple_set(21, 24, 69, 4)).assembly();
    EXPECT_EQ(assembly.outcome, AssemblyOutcome::does_not_assemble);
    ASSERT_EQ(assembly.misplaced.size(), 2U);
    const MisplacedCopy& copy = assembly.misplaced[0];
    EXPECT_EQ(copy.stands_at_deg, Ratio(90));
    // 90 degrees are 22.5 of the least mesh angles of 4.
    EXPECT_EQ(copy.below.value().exact_deg, Ratio(88));
    EXPECT_EQ(copy.above.value().exact_deg, Ratio(92));
    EXPECT_EQ(copy.misses_by.exact_deg, Ratio(2));
}

TEST(Assembly, HoldsAtThePlacesThatItOffers) {
    const Train train = simple_set(21, 24, 69, 4, {Ratio(0), Ratio(88), Ratio(180), Ratio(268)});
    EXPECT_EQ(placed(train).assembly().outcome, AssemblyOutcome::assembles);
}

TEST(Assembly, HoldsAtPlacesThatAreWrittenAsDecimals) {
    // 17 x 360/84 = 72.857142857142857...: twelve decimals close every loop, six do not.
    const auto at = [](const std::string& degrees) { return std::vector<Ratio>{Ratio(0), *parse_ratio(degrees)}; };
    const Assembly close = placed(simple_set(22, 20, 62, 2, at("72.857142857143"))).assembly();
    EXPECT_TRUE(close.conditions[0].holds);
    EXPECT_EQ(close.outcome, AssemblyOutcome::assembles);
    const Assembly rough = placed(simple_set(22, 20, 62, 2, at("72.857143"))).assembly();
    EXPECT_FALSE(rough.conditions[0].holds);
    EXPECT_EQ(rough.outcome, AssemblyOutcome::does_not_assemble);
}

TEST(Assembly, KnowsTheSteppedAndThePairedForm) {
    const Assembly stepped = placed(stepped_set(18, 24, 16, 62, 3)).assembly();
    ASSERT_EQ(stepped.conditions.size(), 1U);
    EXPECT_EQ(stepped.conditions[0].form, AssemblyForm::stepped);
    EXPECT_EQ(stepped.conditions[0].sum, Ratio(222));  // (18 x 16 + 62 x 24) / 8

    Train train =
        sized_train("sun 24 x inner 18; inner 18 x outer 20; outer 20 in ring 72 (inner on arm, outer on arm)");
    set_copies(train, "inner", 3);
    set_copies(train, "outer", 3);
    const Assembly paired = placed(train).assembly();
    ASSERT_EQ(paired.conditions.size(), 1U);
    EXPECT_EQ(paired.conditions[0].form, AssemblyForm::paired);
    EXPECT_EQ(paired.conditions[0].sum, Ratio(48));
    EXPECT_TRUE(paired.misplaced.empty());
    set_copies(train, "inner", 5);
    set_copies(train, "outer", 5);
    const Assembly five = placed(train).assembly();
    EXPECT_FALSE(five.conditions[0].holds);
    EXPECT_EQ(five.misplaced.size(), 4U);
}

TEST(Assembly, ReportsCopiesThatCollide) {
    // 20 / 40 / 100 takes four planets at most (D03 of the published checks); six satisfy (S + R) / n all the same.
    const Assembly assembly = placed(simple_set(20, 40, 100, 6)).assembly();
    EXPECT_EQ(assembly.outcome, AssemblyOutcome::does_not_assemble);
    ASSERT_FALSE(assembly.clearances.empty());
    // Chord 2 x 30 x sin(30) less the tip diameter of 42.
    EXPECT_NEAR(assembly.clearances[0].clearance_mm, 30.0 - 42.0, 1e-9);
    EXPECT_TRUE(assembly.misplaced.empty());
}

TEST(Assembly, SeesNeighboursOfTwoKinds) {
    Train train =
        sized_train("sun 24 x inner 18; inner 18 x outer 20; outer 20 in ring 72 (inner on arm, outer on arm)");
    set_copies(train, "inner", 4);
    set_copies(train, "outer", 4);
    const Assembly assembly = placed(train).assembly();
    EXPECT_EQ(assembly.clearances.size(), 3U);
}

TEST(Assembly, HoldsAtRandomMultiplesOfTheLeastMeshAngleAndNowhereElse) {
    Dice dice(20251);
    for (int trial = 0; trial < 300; ++trial) {
        const int sun = dice.between(18, 40);
        const int planet = dice.between(18, 30);
        const int ring = sun + 2 * planet;
        const Ratio least = Ratio(360, sun + ring);
        const Ratio multiple(dice.between(1, sun + ring - 1));
        const Ratio off = least * Ratio(dice.between(1, 99), 100);
        const Train good = simple_set(sun, planet, ring, 2, {Ratio(0), least * multiple});
        EXPECT_TRUE(placed(good).assembly().misplaced.empty()) << sun << " " << planet;
        const Train bad = simple_set(sun, planet, ring, 2, {Ratio(0), least * multiple + off});
        const Assembly assembly = placed(bad).assembly();
        ASSERT_EQ(assembly.misplaced.size(), 1U) << sun << " " << planet;
        EXPECT_EQ(assembly.misplaced[0].below.value().exact_deg, least * multiple);
        EXPECT_EQ(assembly.misplaced[0].above.value().exact_deg, least * (multiple + Ratio(1)));
    }
}

TEST(Assembly, FindsPlacesThatSuitTwoLoopsAtOnce) {
    // Sun and ring ask for multiples of 360/90, a second sun behind the ring's (one body) for 360/(S P2 + R P1)/g: the
    // places in both are those that the proof of the copies bears out.
    Train train = sized_train("sun 21 x planet 24; planet 24 in ring 69; planet 20 in drum 65 (planet on carrier)");
    set_copies(train, "planet", 2, {Ratio(0), Ratio(100)});
    const Assembly assembly = placed(train).assembly();
    ASSERT_EQ(assembly.misplaced.size(), 1U);
    ASSERT_TRUE(assembly.misplaced[0].above);
    set_copies(train, "planet", 2, {Ratio(0), assembly.misplaced[0].above->exact_deg.value()});
    EXPECT_TRUE(placed(train).assembly().misplaced.empty());
}

TEST(Assembly, CountsTurnsUntilTheSameTeethMeet) {
    const Train train = sized_train("a 23 x b 67; a 20 x c 60");
    const Hunting hunting = hunting_of(train, {0});
    EXPECT_EQ(hunting.phases, 1);
    EXPECT_EQ(hunting.first_turns, 67);
    EXPECT_EQ(hunting.second_turns, 23);
    EXPECT_EQ(hunting_of(train, {1}).phases, 20);
}

TEST(Assembly, MostEqualCopiesLeaveRoomAndOneMoreDoesNot) {
    EXPECT_EQ(most_equal_copies(24.0, 20.0), 7);
    EXPECT_EQ(most_equal_copies(10.0, 25.0), 1);
}

}  // namespace
}  // namespace couplet
