// Static torques, free of loss, that were published elsewhere.
//
// By virtual work the torques on the free members of a train do no work in any of its motions: the sum of torque x rate
// is 0 for each parameter of the motion. The motions are ours, the torques are the world's; how each is known stands
// beside it as in rates_test.cpp.
//
// Waiting for crossing axes: the bevel differential of 24/24 (torque 7 on one side, 7 on the other, -14 on the
// carrier). Waiting for losses: the efficiency of a simple set with its ring held, (1 - i0 eta0)/(1 - i0).
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

struct Torque {
    std::string member;
    Ratio torque;
};

// Torque x rate over the members, one sum per parameter of the motion.
Combination virtual_work(const SolvedTrain& train, const std::vector<Torque>& torques) {
    Combination work(train.motion.parameter_count());
    for (const Torque& on : torques) {
        const Combination rate = rate_on(train.train, train.motion, member_named(train.train, on.member), kFrame);
        for (std::size_t k = 0; k < work.size(); ++k) work[k] += on.torque * rate[k];
    }
    return work;
}

Ratio sum_of(const std::vector<Torque>& torques) {
    Ratio sum;
    for (const Torque& on : torques) sum += on.torque;
    return sum;
}

const Combination kNoWork{0, 0};

// All texts: ring R/S, carrier -(1 + R/S); from memory.
TEST(PublishedTorques, OfASimpleSet) {
    const SolvedTrain free_set =
        solved("sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)", "drive sun 1, carrier 1");
    const std::vector<Torque> torques{{"sun", 1}, {"ring", Ratio(11, 5)}, {"carrier", Ratio(-16, 5)}};
    EXPECT_EQ(virtual_work(free_set, torques), kNoWork);
    EXPECT_EQ(sum_of(torques), Ratio(0));
    // Torques that are a little off do work.
    EXPECT_NE(virtual_work(free_set, {{"sun", 1}, {"ring", 2}, {"carrier", -3}}), kNoWork);
}

// Power balance, derived: 10 N m on the sun of 20/40/100 with the ring held.
TEST(PublishedTorques, OfTwentyFortyHundredBalanceThePower) {
    const char* const meshes = "sun 20 x planet 40; planet 40 in ring 100 (planet on carrier)";
    const std::vector<Torque> torques{{"sun", 10}, {"ring", 50}, {"carrier", -60}};
    EXPECT_EQ(virtual_work(solved(meshes, "drive sun 1, carrier 1"), torques), kNoWork);

    const SolvedTrain running = solved(meshes, "hold ring; drive sun 60");
    EXPECT_EQ(10 * running.turns("sun"), Ratio(600));
    EXPECT_EQ(60 * running.turns("carrier"), Ratio(600));
}

// Problem read at holooly.com (fig. 15.29), answer ours: 1.2 kW into the arm at 120 rpm, sun A held.
TEST(PublishedTorques, OfTwoSunsAndACompoundPlanet) {
    const SolvedTrain free_train = solved("a 28 x planet 22; d 24 x planet 26 (planet on arm)", "drive a 1, arm 1");
    const std::vector<Torque> per_arm{{"arm", 1}, {"d", Ratio(66, 25)}, {"a", Ratio(-91, 25)}};
    EXPECT_EQ(virtual_work(free_train, per_arm), kNoWork);
    EXPECT_EQ(sum_of(per_arm), Ratio(0));

    const double arm_newton_metres = 1200.0 / (2.0 * std::numbers::pi * 120.0 / 60.0);
    EXPECT_NEAR(arm_newton_metres, 95.493, 0.0005);
    EXPECT_NEAR(arm_newton_metres * per_arm[1].torque.to_double(), 252.10, 0.005);
    EXPECT_NEAR(arm_newton_metres * per_arm[2].torque.to_double(), -347.59, 0.005);
}

}  // namespace
}  // namespace couplet
