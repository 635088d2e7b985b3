#include "place/angle.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

const std::vector<double> kDirections = {0.3, 0.71};

TEST(Angle, CancelsDirectionsExactly) {
    const Angle sum = exact_angle(Ratio(1, 3)) + direction_angle(1) * Ratio(5, 7) + direction_angle(0);
    const Angle back = sum - direction_angle(0) - direction_angle(1) * Ratio(5, 7);
    EXPECT_EQ(back, exact_angle(Ratio(1, 3)));
    EXPECT_TRUE(back.is_exact());
    EXPECT_FALSE(sum.is_exact());
}

TEST(Angle, IsTheSumOfItsParts) {
    const Angle sum = exact_angle(Ratio(1, 4)) + direction_angle(1) * Ratio(2) - direction_angle(0);
    EXPECT_DOUBLE_EQ(sum.value(kDirections), 0.25 + 2 * 0.71 - 0.3);
}

TEST(Angle, TimesZeroIsExact) {
    EXPECT_EQ(direction_angle(0) * Ratio(0), Angle{});
}

TEST(Angle, IsShownExactlyOnlyWithoutDirections) {
    EXPECT_EQ(shown(exact_angle(Ratio(1, 7)), kDirections).exact_deg, Ratio(360, 7));
    const ShownAngle open = shown(direction_angle(0), kDirections);
    EXPECT_FALSE(open.exact_deg);
    EXPECT_DOUBLE_EQ(open.value_deg, 108.0);
}

TEST(Angle, IsReducedIntoOnePeriod) {
    EXPECT_EQ(reduced(exact_angle(Ratio(-1, 8)), Ratio(1, 3), kDirections).turns, Ratio(5, 24));
    EXPECT_EQ(reduced(exact_angle(Ratio(1, 3)), Ratio(1, 3), kDirections).turns, Ratio(0));
    const Angle open = reduced(direction_angle(1) + exact_angle(Ratio(2)), Ratio(1, 4), kDirections);
    EXPECT_NEAR(open.value(kDirections), 0.21, 1e-12);
    EXPECT_EQ(open.directions, direction_angle(1).directions);
}

TEST(Angle, IsReducedToTheLeastWithHalfAPeriodKeptPositive) {
    EXPECT_EQ(reduced_to_least(exact_angle(Ratio(3, 4)), Ratio(1), kDirections).turns, Ratio(-1, 4));
    EXPECT_EQ(reduced_to_least(exact_angle(Ratio(-1, 2)), Ratio(1), kDirections).turns, Ratio(1, 2));
    EXPECT_NEAR(reduced_to_least(direction_angle(1), Ratio(1), kDirections).value(kDirections), -0.29, 1e-12);
}

}  // namespace
}  // namespace couplet
