// The pace keeps a moving picture smooth. Times are given, not measured.
#include "app/pace.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

void took_often(Pace& pace, double seconds) {
    for (int i = 0; i < 12; ++i) pace.took(pace.for_moving(), seconds);
}

TEST(Pace, BeginsLightAndGoesCoarserWhereFramesAreSlow) {
    Pace pace;
    EXPECT_EQ(pace.for_moving(), Fineness::light);
    took_often(pace, Pace::kSlowFrame_s * 1.5);
    EXPECT_EQ(pace.for_moving(), Fineness::half);
    pace.forget();
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(Pace, StaysWhereFramesKeepUp) {
    Pace pace;
    took_often(pace, Pace::kSlowFrame_s * 0.9);
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(Pace, IsFullWhereAFullPictureKeepsUp) {
    Pace pace;
    pace.took(Fineness::full, 0.004);
    EXPECT_EQ(pace.for_moving(), Fineness::full);
    pace.forget();
    pace.took(Fineness::full, 0.1);
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(Pace, GoesFinerAgainOnlyWithRoomToSpare) {
    Pace pace;
    took_often(pace, 1.0);
    ASSERT_EQ(pace.for_moving(), Fineness::half);
    for (int i = 0; i < 40; ++i) pace.took(Fineness::half, Pace::kSlowFrame_s / 5);
    EXPECT_EQ(pace.for_moving(), Fineness::half) << "four times the pixels would not keep up";
    for (int i = 0; i < 40; ++i) pace.took(Fineness::half, Pace::kSlowFrame_s / 20);
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(Pace, TheFullPictureFollowsAtRest) {
    const Pace pace;
    EXPECT_FALSE(pace.full_is_due(Fineness::light, 10.0, 10.1));
    EXPECT_TRUE(pace.full_is_due(Fineness::half, 10.0, 10.0 + 1.01 * Pace::kRest_s));
    EXPECT_FALSE(pace.full_is_due(Fineness::full, 10.0, 20.0));
}

}  // namespace
}  // namespace couplet
