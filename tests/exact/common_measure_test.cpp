#include "exact/common_measure.hpp"

#include <gtest/gtest.h>

#include "support/dice.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TEST(CommonMeasure, IsTheGcdOfWholeNumbers) {
    EXPECT_EQ(common_measure(Ratio(84), Ratio(-36)), Ratio(12));
    EXPECT_EQ(common_measure(Ratio(7), Ratio(1)), Ratio(1));
}

// 9/10 = 27/30 and 21/15 = 42/30; 27 and 42 share 3.
TEST(CommonMeasure, BringsFractionsToOneDenominator) {
    EXPECT_EQ(common_measure(Ratio(9, 10), Ratio(-21, 15)), Ratio(1, 10));
}

TEST(CommonMeasure, OfNothingIsTheOther) {
    EXPECT_EQ(common_measure(Ratio(0), Ratio(-5, 3)), Ratio(5, 3));
    EXPECT_EQ(common_measure(Ratio(-5, 3), Ratio(0)), Ratio(5, 3));
    EXPECT_EQ(common_measure(Ratio(0), Ratio(0)), Ratio(0));
}

// a and b are multiples that share no factor: no larger measure exists.
TEST(CommonMeasure, GoesIntoBothAndNothingLargerDoes) {
    Dice dice(6);
    const Ratio far_beyond_words = Ratio::whole_from_digits("1" + std::string(60, '0')) + Ratio(1, 7);
    for (int trial = 0; trial < 500; ++trial) {
        const Ratio stretch = dice.chance(30) ? far_beyond_words : Ratio(1);
        const Ratio a = Ratio(dice.between(-5000, 5000), dice.between(1, 5000)) * stretch;
        const Ratio b = Ratio(dice.between(1, 5000), dice.between(1, 5000)) * stretch;
        const Ratio measure = common_measure(a, b);
        ASSERT_GT(measure, Ratio(0));
        ASSERT_TRUE((a / measure).is_whole());
        ASSERT_TRUE((b / measure).is_whole());
        ASSERT_EQ(whole_gcd(a / measure, b / measure), Ratio(1));
    }
}

}  // namespace
}  // namespace couplet
