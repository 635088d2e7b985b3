#include "solid/anatomy.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

Anatomy anatomy(const PlacedTrain& set) {
    return anatomy_of(set.train, set.teeth, set.placement);
}

TEST(Anatomy, CoaxialMembersShareAnAxis) {
    const PlacedTrain set = placed(simple_set(20, 20, 60, 3));
    const Anatomy parts = anatomy(set);
    ASSERT_EQ(parts.axes.size(), 2U);
    EXPECT_EQ(parts.axis_of[member_named(set.train, "sun").position()],
              parts.axis_of[member_named(set.train, "ring").position()]);
    const Axis& planets =
        parts.axes[static_cast<std::size_t>(parts.axis_of[member_named(set.train, "planet").position()])];
    EXPECT_EQ(planets.carrier, member_named(set.train, "carrier"));
    EXPECT_NEAR(planets.distance_mm, 20.0, 1e-9);
    EXPECT_EQ(parts.carriers, std::vector<MemberIndex>{member_named(set.train, "carrier")});
}

TEST(Anatomy, CarriersAreListedFromTheOutermost) {
    const PlacedTrain set =
        placed(sized_train("sun 20 x table 20; hub 20 x boat 20 (table on arm, hub on arm, boat on table)"));
    const Anatomy parts = anatomy(set);
    EXPECT_EQ(parts.carriers,
              (std::vector<MemberIndex>{member_named(set.train, "arm"), member_named(set.train, "table")}));
}

TEST(Anatomy, ABoreIsAsGivenOrSuitsTheGear) {
    Train train = simple_set(20, 20, 60, 3);
    train.gears[0].bore = Ratio(7, 2);
    const PlacedTrain set = placed(train);
    EXPECT_DOUBLE_EQ(usual_bore_mm(set.train, set.teeth, {0}), 3.5);
    // About 0.3 of the root diameter of 17.5.
    EXPECT_NEAR(usual_bore_mm(set.train, set.teeth, {1}), 5.25, 0.5);
    train.gears[0].bore = Ratio(100);  // more than the gear has
    const PlacedTrain wide = placed(train);
    EXPECT_LT(usual_bore_mm(wide.train, wide.teeth, {0}), wide.teeth.gears[0].root_diameter_mm);
}

TEST(Anatomy, BoresOfTrainsInInchesAreInInches) {
    Train train = simple_set(20, 20, 60, 3);
    train.teeth.module_mm.reset();
    train.teeth.diametral_pitch = Ratio(8);
    train.gears[0].bore = Ratio(1, 2);
    const PlacedTrain set = placed(train);
    EXPECT_DOUBLE_EQ(usual_bore_mm(set.train, set.teeth, {0}), 12.7);
}

TEST(Anatomy, ARingReachesFromItsTipsToItsRim) {
    const PlacedTrain set = placed(simple_set(20, 20, 60, 3));
    const GearSizes& ring = set.teeth.gears[2];
    ASSERT_TRUE(ring.spec.internal);
    EXPECT_DOUBLE_EQ(reach_of(ring).inner_mm, ring.tip_diameter_mm / 2.0);
    EXPECT_DOUBLE_EQ(reach_of(ring).outer_mm, ring.root_diameter_mm / 2.0 + 3.0);
}

}  // namespace
}  // namespace couplet
