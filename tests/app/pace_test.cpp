// The pace keeps a moving picture smooth. Times are given, not measured.
#include "app/pace.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

void took_often(DrawingPace& pace, double seconds) {
    for (int i = 0; i < 12; ++i) pace.took(pace.for_moving(), seconds);
}

TEST(DrawingPace, BeginsLightAndGoesCoarserWhereFramesAreSlow) {
    DrawingPace pace;
    EXPECT_EQ(pace.for_moving(), Fineness::light);
    took_often(pace, DrawingPace::kSlowFrame_s * 1.5);
    EXPECT_EQ(pace.for_moving(), Fineness::half);
    pace.forget();
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(DrawingPace, StaysWhereFramesKeepUp) {
    DrawingPace pace;
    took_often(pace, DrawingPace::kSlowFrame_s * 0.9);
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(DrawingPace, IsFullWhereAFullPictureKeepsUp) {
    DrawingPace pace;
    pace.took(Fineness::full, 0.004);
    EXPECT_EQ(pace.for_moving(), Fineness::full);
    pace.forget();
    pace.took(Fineness::full, 0.1);
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(DrawingPace, GoesFinerAgainOnlyWithRoomToSpare) {
    DrawingPace pace;
    took_often(pace, 1.0);
    ASSERT_EQ(pace.for_moving(), Fineness::half);
    for (int i = 0; i < 40; ++i) pace.took(Fineness::half, DrawingPace::kSlowFrame_s / 5);
    EXPECT_EQ(pace.for_moving(), Fineness::half) << "four times the pixels would not keep up";
    for (int i = 0; i < 40; ++i) pace.took(Fineness::half, DrawingPace::kSlowFrame_s / 20);
    EXPECT_EQ(pace.for_moving(), Fineness::light);
}

TEST(DrawingPace, TheFullPictureFollowsAtRest) {
    const DrawingPace pace;
    EXPECT_FALSE(pace.full_is_due(Fineness::light, 10.0, 10.1));
    EXPECT_TRUE(pace.full_is_due(Fineness::half, 10.0, 10.0 + 1.01 * DrawingPace::kRest_s));
    EXPECT_FALSE(pace.full_is_due(Fineness::full, 10.0, 20.0));
}

}  // namespace
}  // namespace couplet
