#include "place/copy_places.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "place/assembly.hpp"
#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"
#include "train/arrangement.hpp"

namespace couplet {
namespace {

TEST(CopyPlaces, AreEqualUnlessGiven) {
    Train train = train_of(Arrangement::paired, {24, 15, 15, 71});
    const MemberIndex inner = *find_member(train, "inner planet");
    const MemberIndex outer = *find_member(train, "outer planet");
    EXPECT_EQ(turns_from_first(train, inner, 2), Ratio(2, 3));
    EXPECT_EQ(turns_from_first(train, outer, 2), Ratio(2, 3));
    train.members[inner.position()].at_deg = {Ratio(10), Ratio(118), Ratio(242)};
    EXPECT_EQ(turns_from_first(train, inner, 1), Ratio(108, 360));
    EXPECT_EQ(turns_from_first(train, outer, 1), Ratio(108, 360));
}

// 71 - 24 = 47 places round (from memory: texts on planetary gears): three pairs of planets stand at 0, 16 and 31 of
// them.
TEST(CopyPlaces, OuterPlanetsFollowTheInnerOnes) {
    Train train = train_of(Arrangement::paired, {24, 15, 15, 71});
    train.members[find_member(train, "inner planet")->position()].at_deg = {Ratio(0), Ratio(360 * 16, 47),
                                                                            Ratio(360 * 31, 47)};
    const TrainTeeth teeth = teeth_of(train);
    const Placement placement = place_members(train, teeth);
    const Assembly assembly = assembly_of(train, teeth, placement, starting_rotations(train, placement));
    EXPECT_EQ(assembly.outcome, AssemblyOutcome::assembles);
    for (const Finding& finding : assembly.findings) EXPECT_NE(finding.verdict, Verdict::fails) << finding.rule;
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
