#include "couple/rates.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

TEST(Rates, OfAFlippedJointCountTheOtherWay) {
    const SolvedTrain capstan =
        solved("crank 21 x planet 24; planet 24 in ring 69 (planet on drum)", "hold ring; drive crank 1");
    const MemberIndex planet = member_named(capstan.train, "planet");
    const MemberIndex drum = member_named(capstan.train, "drum");
    EXPECT_EQ(rate_of(capstan.train, capstan.motion, {"", planet, drum, false}), Combination{Ratio(-161, 240)});
    EXPECT_EQ(rate_of(capstan.train, capstan.motion, {"", planet, drum, true}), Combination{Ratio(161, 240)});
    EXPECT_EQ(rate_of(capstan.train, capstan.motion, {"", drum, planet, false}), Combination{Ratio(161, 240)});
    EXPECT_EQ(rate_of(capstan.train, capstan.motion, {"", planet, kFrame, false}), Combination{Ratio(-7, 16)});
}

TEST(ParallelRatio, NeedsAllParametersInTheSameProportion) {
    EXPECT_EQ(parallel_ratio({2, -4}, {1, -2}), Ratio(2));
    EXPECT_EQ(parallel_ratio({0, 0}, {1, -2}), Ratio(0));
    EXPECT_FALSE(parallel_ratio({2, 4}, {1, -2}));
    EXPECT_FALSE(parallel_ratio({2, 4}, {0, 0}));
    EXPECT_FALSE(parallel_ratio({}, {1}));
}

}  // namespace
}  // namespace couplet
