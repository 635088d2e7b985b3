#include "solid/detail.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

GearShape wheel() {
    GearShape gear;
    gear.key_width_mm = 2.0;
    gear.holes = 5;
    return gear;
}

TEST(Detail, MarkedIsTheShapeItself) {
    const auto gear = std::get<GearShape>(with_detail(wheel(), Detail::marked));
    EXPECT_TRUE(gear.marked);
    EXPECT_EQ(gear.key_width_mm, 2.0);
    EXPECT_EQ(gear.holes, 5);
}

TEST(Detail, UnmarkedKeepsKeysAndHoles) {
    const auto gear = std::get<GearShape>(with_detail(wheel(), Detail::unmarked));
    EXPECT_FALSE(gear.marked);
    EXPECT_EQ(gear.key_width_mm, 2.0);
    EXPECT_EQ(gear.holes, 5);
}

TEST(Detail, PlainHasNothingThatTellsTeethApart) {
    const auto gear = std::get<GearShape>(with_detail(wheel(), Detail::plain));
    EXPECT_FALSE(gear.marked);
    EXPECT_EQ(gear.key_width_mm, 0.0);
    EXPECT_EQ(gear.holes, 0);
    RingShape ring;
    ring.bolts = 8;
    EXPECT_EQ(std::get<RingShape>(with_detail(ring, Detail::plain)).bolts, 0);
    EXPECT_EQ(std::get<RingShape>(with_detail(ring, Detail::unmarked)).bolts, 8);
}

}  // namespace
}  // namespace couplet
