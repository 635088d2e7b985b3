#include "couple/typable.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TypablePair pair_for(const Ratio& ratio, int decimals, const Ratio& cap = 36000, const Ratio& first = 360) {
    return typable_pair(ratio, {first, decimals, cap});
}

TEST(WholeDegrees, AreTheSmallestExactPair) {
    EXPECT_EQ(whole_degrees(Ratio(-161, 240)), (DegreePair{240, -161}));
    EXPECT_EQ(whole_degrees(Ratio(4)), (DegreePair{1, 4}));
    EXPECT_EQ(whole_degrees(Ratio(0)), (DegreePair{1, 0}));
}

TEST(TypablePair, IsTheWishedAngleWhereThatFitsTheField) {
    const TypablePair pair = pair_for(Ratio(-161, 240), 1);
    EXPECT_EQ(pair.degrees, (DegreePair{360, Ratio(-483, 2)}));
    EXPECT_TRUE(pair.exact);
    EXPECT_TRUE(pair.drift_deg_per_1000_turns.is_zero());
}

TEST(TypablePair, IsAnExactPairNearTheWishedAngleWhereItsOwnIsNoDecimal) {
    EXPECT_EQ(pair_for(Ratio(-161, 240), 0).degrees, (DegreePair{240, -161}));
    EXPECT_EQ(pair_for(Ratio(-55, 48), 0).degrees, (DegreePair{336, -385}));
    EXPECT_EQ(pair_for(Ratio(1, 7), 3).degrees, (DegreePair{357, 51}));
    EXPECT_EQ(pair_for(Ratio(1, 7), 0, 36000, 720).degrees, (DegreePair{721, 103}));
}

TEST(TypablePair, UsesDecimalsToStayBelowTheCap) {
    const TypablePair pair = pair_for(Ratio(70001, 70003), 1, 36000);
    EXPECT_TRUE(pair.exact);
    EXPECT_EQ(pair.degrees, (DegreePair{Ratio(70003, 10), Ratio(70001, 10)}));
}

TEST(TypablePair, IsTheBestOneWithItsDriftWhereNoneIsExact) {
    // Best fraction for 1000003/1000033 within 1 ... 360 by brute force below.
    const Ratio ratio(1000003, 1000033);
    const TypablePair pair = pair_for(ratio, 0, 360);
    EXPECT_FALSE(pair.exact);
    const Ratio error = (pair.degrees[1] / pair.degrees[0] - ratio).magnitude();
    for (std::int64_t first = 1; first <= 360; ++first)
        for (std::int64_t second = 1; second <= 360; ++second)
            ASSERT_LE(error, (Ratio(second, first) - ratio).magnitude()) << first << " : " << second;
    EXPECT_EQ(pair.drift_deg_per_1000_turns, (pair.degrees[1] / pair.degrees[0] - ratio) * Ratio(360000));
}

TEST(TypablePair, NeverLeavesItsLimits) {
    for (std::int64_t top = -400; top <= 400; top += 37) {
        for (std::int64_t bottom = 1; bottom <= 1200; bottom += 83) {
            for (const int decimals : {0, 1, 3}) {
                for (const int cap : {1, 100, 360, 36000}) {
                    const Ratio ratio(top, bottom);
                    const TypablePair pair = pair_for(ratio, decimals, cap);
                    for (const Ratio& angle : pair.degrees) {
                        ASSERT_LE(angle.magnitude(), Ratio(cap)) << ratio.to_string();
                        ASSERT_LE(decimals_needed(angle).value_or(99), decimals) << ratio.to_string();
                    }
                    ASSERT_GT(pair.degrees[0].sign(), 0);
                    ASSERT_EQ(pair.exact, pair.degrees[1] / pair.degrees[0] == ratio);
                    const Ratio unit = power_of_ten(-decimals);
                    const bool smallest_fits =
                        ratio.denominator() * unit <= Ratio(cap) && ratio.numerator().magnitude() * unit <= Ratio(cap);
                    ASSERT_EQ(pair.exact, smallest_fits) << ratio.to_string() << " " << decimals << " " << cap;
                }
            }
        }
    }
}

TEST(Drift, CountsDegreesOfTheSecondJointInAThousandTurnsOfTheFirst) {
    // 360 : -241 instead of -241.5 loses half a degree a turn.
    EXPECT_EQ(drift_deg_per_1000_turns(Ratio(-161, 240), {360, -241}), Ratio(500));
    EXPECT_EQ(drift_deg_per_1000_turns(Ratio(-161, 240), {360, Ratio(-483, 2)}), Ratio(0));
    EXPECT_THROW((void)drift_deg_per_1000_turns(1, {0, 1}), std::invalid_argument);
}

}  // namespace
}  // namespace couplet
