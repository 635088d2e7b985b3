#include "place/copy_places.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TEST(CopyPlaces, AreEqualUnlessGiven) {
    Member member;
    member.copies = 3;
    EXPECT_EQ(turns_from_first(member, 2), Ratio(2, 3));
    member.at_deg = {Ratio(10), Ratio(118), Ratio(242)};
    EXPECT_EQ(turns_from_first(member, 1), Ratio(108, 360));
}

TEST(CopyPlaces, FindTheClosestNeighbours) {
    // Centres 24 mm out, module 1: (30 + 18) / 2. The chord of the narrowest angle, 75 degrees, is derived.
    const PlacedTrain set = placed(simple_set(30, 18, 66, 4, {Ratio(0), Ratio(90), Ratio(165), Ratio(270)}));
    const MemberIndex planet = member_named(set.train, "planet");
    const ClosestCopies closest = closest_copies(set.placement, planet, planet);
    EXPECT_NEAR(closest.distance_mm, 2 * 24 * std::sin(37.5 * std::numbers::pi / 180), 1e-9);
    EXPECT_EQ(set.placement[closest.first].copy + set.placement[closest.second].copy, 5);
}

TEST(CopyPlaces, MeasureARingWithItsRim) {
    const PlacedTrain set = placed(simple_set(30, 18, 66, 3));
    const GearIndex ring = gears_of(set.train, member_named(set.train, "ring"))[0];
    const GearIndex sun = gears_of(set.train, member_named(set.train, "sun"))[0];
    EXPECT_DOUBLE_EQ(outer_diameter_mm(set.teeth, sun), 32.0);
    EXPECT_GT(outer_diameter_mm(set.teeth, ring), set.teeth.gears[ring.position()].root_diameter_mm);
}

}  // namespace
}  // namespace couplet
