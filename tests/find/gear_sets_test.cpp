#include "find/gear_sets.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <stdexcept>

namespace couplet {
namespace {

// All triples by three loops.
TEST(GearSets, AreAllChoices) {
    const std::vector<ToothRange> ranges = {{12, 16}, {20, 23}, {13, 15}};
    std::set<std::array<std::int16_t, kMostGearsOfASide>> expected;
    for (std::int16_t a = 12; a <= 16; ++a)
        for (std::int16_t b = 20; b <= 23; ++b)
            for (std::int16_t c = 13; c <= 15; ++c) expected.insert({a, b, c, 0});
    const std::vector<GearSet> sets = gear_sets(ranges, GearOrder::as_given);
    EXPECT_EQ(sets.size(), expected.size());
    for (const GearSet& set : sets) {
        EXPECT_TRUE(expected.contains(set.teeth));
        EXPECT_EQ(set.product, set.teeth[0] * set.teeth[1] * set.teeth[2]);
    }
    EXPECT_TRUE(std::ranges::is_sorted(sets, {}, &GearSet::product));
}

TEST(GearSets, InRisingOrderAreEachChoiceOnce) {
    const std::vector<ToothRange> ranges(3, {12, 17});
    std::set<std::array<std::int16_t, kMostGearsOfASide>> expected;
    for (GearSet set : gear_sets(ranges, GearOrder::as_given)) {
        std::sort(set.teeth.begin(), set.teeth.begin() + 3);
        expected.insert(set.teeth);
    }
    const std::vector<GearSet> sets = gear_sets(ranges, GearOrder::rising);
    EXPECT_EQ(sets.size(), expected.size());
    EXPECT_EQ(static_cast<double>(sets.size()), gear_set_count(ranges, GearOrder::rising));
    for (const GearSet& set : sets) EXPECT_TRUE(expected.contains(set.teeth));
}

TEST(GearSets, TooManyAreRefused) {
    EXPECT_THROW(static_cast<void>(gear_sets(std::vector<ToothRange>(4, {12, 100}), GearOrder::as_given)),
                 std::length_error);
}

}  // namespace
}  // namespace couplet
