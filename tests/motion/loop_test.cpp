#include "motion/loop.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "motion/pose.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_families.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

constexpr std::array kPrimes = {2,  3,  5,  7,  11, 13, 17, 19, 23, 29, 31, 37, 41,
                                43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97};

bool is_back_after(const Motion& motion, const Ratio& turns) {
    return std::ranges::all_of(joint_phases_turns(motion, turns), &Ratio::is_zero);
}

void expect_loop(const Motion& motion, const Ratio& turns) {
    EXPECT_EQ(strict_loop_turns(motion), turns);
    EXPECT_TRUE(is_back_after(motion, turns));
}

// Ring held: carrier 21 / (21 + 69) = 7/30 = 56/240, planet on carrier -21/24 (1 - 7/30) = -161/240; 240, 56 and 161
// share no factor.
TEST(StrictLoop, OfASimpleSetIsTheCommonDenominator) {
    expect_loop(
        solved("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)", "hold ring; drive sun 30").motion,
        Ratio(240));
}

// out: 17/31 x 19/29 = 323/899, lay: -17/31 = -493/899; 899, 493 = 17 x 29 and 323 = 17 x 19 share no factor.
TEST(StrictLoop, OfAFixedAxisTrain) {
    expect_loop(solved("in 17 x lay 31; lay 19 x out 29", "drive in 1").motion, Ratio(899));
    expect_loop(solved("a 10 x b 20", "drive a -6").motion, Ratio(2));
}

// b turns three times as fast as a: a needs one turn whatever b does.
TEST(StrictLoop, IsAWholeTurnOfTheDriverAtLeast) {
    expect_loop(solved("a 30 x b 10", "drive a 1").motion, Ratio(1));
}

// Per turn of the sun: ring -5/12, carrier (20 - 60 x 5/12) / 80 = -1/16, planet on carrier -(1 + 1/16) = -17/16; over
// 48 these are 48, -20, -3 and -51.
TEST(StrictLoop, CountsSeveralDriversAtTheirSpeeds) {
    const char* const set = "sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)";
    expect_loop(solved(set, "drive sun 12, ring -5").motion, Ratio(48));
    // The first driver stands, so the ring is the reference: carrier 60/80, planet on carrier 20/20 x 3/4.
    expect_loop(solved(set, "drive sun 0, ring 7").motion, Ratio(4));
    // Nothing runs: the first driver is thought to turn alone: carrier 1/4, planet on carrier -3/4.
    expect_loop(solved(set, "drive sun 0, ring 0").motion, Ratio(4));
}

TEST(StrictLoop, IsNoneWhereNothingMoves) {
    const char* const set = "sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)";
    EXPECT_EQ(strict_loop_turns(solved(set, "drive sun 1").motion), std::nullopt);
    EXPECT_EQ(strict_loop_turns(solved(set, "hold sun, ring; drive carrier 1").motion), std::nullopt);
    EXPECT_EQ(strict_loop_turns(solved("a 10 x b 20", "drive a 1, b 1").motion), std::nullopt);
    EXPECT_EQ(strict_loop_turns(solve(Train{}, Setting{})), std::nullopt);
    // A driver at rest on a member that cannot turn: it moves, in that its speeds can be had, and nothing turns.
    const Motion at_rest = solved("a 10 x b 20", "hold b; drive a 0").motion;
    EXPECT_EQ(strict_loop_turns(at_rest), std::nullopt);
}

TEST(StrictLoop, TakesEveryMemberBackAndNothingShorterDoes) {
    for (std::uint64_t seed = 0; seed < 150; ++seed) {
        const RandomTrain random = random_train(seed, {30, false, true});
        const Motion motion = solve(random.train, random.setting);
        ASSERT_EQ(motion.outcome, Outcome::moves) << seed;
        const Ratio turns = strict_loop_turns(motion).value();
        ASSERT_GT(turns, Ratio(0)) << seed;
        ASSERT_TRUE(is_back_after(motion, turns)) << seed;
        for (const int prime : kPrimes)
            ASSERT_FALSE(is_back_after(motion, turns / Ratio(prime))) << seed << " " << prime;
    }
}

// Counts of thirty digits and more.
TEST(StrictLoop, HoldsAtAnySizeOfItsNumbers) {
    const FamilyTrain family = family_b(300, DriverPlace::far_end);
    const Motion motion = solve(family.train, family.setting);
    const Ratio turns = strict_loop_turns(motion).value();
    EXPECT_FALSE(turns.is_small());
    EXPECT_TRUE(is_back_after(motion, turns));
    for (const int prime : kPrimes) EXPECT_FALSE(is_back_after(motion, turns / Ratio(prime))) << prime;
}

}  // namespace
}  // namespace couplet
