#include "tooth/train_teeth.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/train_notation.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

// A train in the notation of the tests, of one module.
Train train_of(const char* meshes, int module_mm = 2) {
    Train train = train_from(meshes);
    train.teeth.module_mm = Ratio(module_mm);
    return train;
}

std::string refusal_of(const Train& train) {
    try {
        static_cast<void>(teeth_of(train));
    } catch (const TeethError& error) {
        return error.what();
    }
    return "";
}

TEST(TrainTeeth, TakeWhatIsNotGivenFromProfileA) {
    const TrainTeeth teeth = teeth_of(train_of("a 20 x b 30"));
    ASSERT_EQ(teeth.gears.size(), 2U);
    const GearSpec& spec = teeth.gears[0].spec;
    EXPECT_DOUBLE_EQ(spec.rack.pressure_angle_rad, 20 * kDegree);
    EXPECT_EQ(spec.rack.addendum, 1.0);
    EXPECT_EQ(spec.rack.dedendum, 1.25);
    EXPECT_EQ(spec.rack.root_radius, 0.38);
    EXPECT_EQ(spec.face_width_mm, 20.0);
    EXPECT_EQ(spec.thinning_mm, 0.0);
    ASSERT_TRUE(teeth.meshes[0].pair);
    EXPECT_NEAR(teeth.meshes[0].pair->centre_distance_mm, 50.0, 1e-12);
    EXPECT_TRUE(teeth.meshes[0].active);
    EXPECT_NEAR(teeth.operating_diameters_mm[1].value(), 60.0, 1e-12);
}

TEST(TrainTeeth, TellTheRuleThatARefusalBreaks) {
    Train train = train_of("a 20 x b 30");
    train.gears[0].spec.module_mm = Ratio(3);
    try {
        static_cast<void>(teeth_of(train));
        ADD_FAILURE() << "modules of 3 and 2 mm are no mesh";
    } catch (const TeethError& error) {
        EXPECT_EQ(error.wrong, "'a' and 'b' are in mesh with different modules");
        EXPECT_EQ(error.broken.rule, "same module in mesh");
        EXPECT_EQ(error.broken.where, "a, b");
        EXPECT_EQ(error.broken.figure, 3.0);
        EXPECT_EQ(error.broken.limit, 2.0);
        EXPECT_EQ(error.broken.verdict, Verdict::fails);
    }
}

TEST(TrainTeeth, GiveAShallowClearanceASmallerFillet) {
    Train train = train_of("a 20 x b 30");
    train.teeth.dedendum = Ratio(11, 10);
    const GearSpec shallow = teeth_of(train).gears[0].spec;
    EXPECT_LT(shallow.rack.root_radius, root_radius_in_clearance(shallow.rack) * 1.001);
    EXPECT_GT(shallow.rack.root_radius, 0.1);
    train.teeth.dedendum = Ratio(9, 10);
    EXPECT_EQ(teeth_of(train).gears[0].spec.rack.root_radius, 0.0);
}

TEST(TrainTeeth, PreferAGearsOwnKeys) {
    Train train = train_of("a 20 x b 30");
    train.teeth.backlash = Ratio(1, 10);
    train.gears[0].spec.addendum = Ratio(9, 10);
    train.gears[0].spec.backlash = Ratio(1, 5);
    train.gears[0].shift = Ratio(1, 4);
    const TrainTeeth teeth = teeth_of(train);
    EXPECT_EQ(teeth.gears[0].spec.rack.addendum, 0.9);
    EXPECT_EQ(teeth.gears[1].spec.rack.addendum, 1.0);
    EXPECT_EQ(teeth.gears[0].spec.shift, 0.25);
    // Half of each gear's backlash, at the operating circles.
    EXPECT_NEAR(teeth.meshes[0].pair->circular_backlash_mm, 0.15, 1e-12);
}

TEST(TrainTeeth, CountInInchesWhereADiametralPitchIsGiven) {
    Train train = train_from("a 20 x b 30");
    train.teeth.diametral_pitch = Ratio(8);
    train.teeth.face_width = Ratio(1, 2);
    train.teeth.backlash = Ratio(1, 100);
    train.meshes[0].centre_distance = Ratio(32, 10);
    const TrainTeeth teeth = teeth_of(train);
    // Derived: 25.4 / 8.
    EXPECT_NEAR(teeth.gears[0].spec.module_mm, 3.175, 1e-15);
    EXPECT_NEAR(teeth.gears[0].spec.face_width_mm, 12.7, 1e-13);
    EXPECT_NEAR(teeth.meshes[0].pair->centre_distance_mm, 81.28, 1e-12);
    EXPECT_NEAR(given_centre_distance_mm(train, train.meshes[0]).value(), 81.28, 1e-12);
    // Centres 0.05 inches further apart than the teeth ask for.
    EXPECT_GT(teeth.meshes[0].pair->circular_backlash_mm, 0.254);
}

TEST(TrainTeeth, LetTheHandsFollowFromTheMeshes) {
    Train train = train_of("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)");
    train.teeth.helix_angle_deg = Ratio(15);
    const TrainTeeth teeth = teeth_of(train);
    const auto hand = [&](const char* member) {
        return teeth.gears[gears_of(train, member_named(train, member)).front().position()].spec.helix_angle_rad;
    };
    EXPECT_GT(hand("sun"), 0.0);
    EXPECT_LT(hand("planet"), 0.0);
    EXPECT_LT(hand("ring"), 0.0);
}

TEST(TrainTeeth, ShortenAShiftedPairTogether) {
    Train train = train_of("a 14 x b 30");
    train.gears[0].shift = Ratio(1, 2);
    train.gears[1].shift = Ratio(2, 5);
    const TrainTeeth teeth = teeth_of(train);
    EXPECT_LT(teeth.gears[0].spec.tip_change, 0.0);
    EXPECT_EQ(teeth.gears[0].spec.tip_change, teeth.gears[1].spec.tip_change);
    EXPECT_NEAR(teeth.meshes[0].pair->first_root_clearance_mm, 0.5, 1e-12);
}

TEST(TrainTeeth, PutTheExternalGearOfAMeshFirst) {
    Train train = train_of("planet 24 in ring 69");
    std::swap(train.meshes[0].first, train.meshes[0].second);
    EXPECT_FALSE(train[external_gear_of(train, train.meshes[0])].internal);
    EXPECT_TRUE(train[other_gear_of(train, train.meshes[0])].internal);
    EXPECT_NEAR(teeth_of(train).meshes[0].pair->centre_distance_mm, 45.0, 1e-12);
}

TEST(TrainTeeth, HaveNoPairWhereNoneCanBe) {
    const TrainTeeth teeth = teeth_of(train_of("planet 24 in ring 24"));
    EXPECT_FALSE(teeth.meshes[0].pair);
    EXPECT_FALSE(teeth.meshes[0].active);
    EXPECT_FALSE(teeth.operating_diameters_mm[0]);
}

TEST(TrainTeeth, RefuseWhatNoTeethCanBeByName) {
    EXPECT_EQ(refusal_of(train_from("a 20 x b 30")),
              "gear 'a' has no size; give 'module' (mm) or 'diametral_pitch' (per inch) in [teeth] or on the gear");
    Train train = train_of("a 20 x b 30");
    train.gears[1].teeth = 2;
    EXPECT_EQ(refusal_of(train), "gear 'b' has too few teeth; give at least 3");
    train = train_of("a 20 x b 30");
    train.gears[1].spec.module_mm = Ratio(3);
    EXPECT_EQ(refusal_of(train), "'a' and 'b' are in mesh with different modules; both need the same one");
    train = train_of("a 20 x b 30");
    train.gears[0].spec.pressure_angle_deg = Ratio(25);
    EXPECT_EQ(refusal_of(train), "'a' and 'b' are in mesh with different pressure angles; both need the same one");
    train.gears[0].spec.pressure_angle_deg = Ratio(90);
    EXPECT_EQ(refusal_of(train), "gear 'a' has an impossible pressure angle; give one above 0 and below 45 degrees");
    train = train_of("a 20 x b 30");
    train.gears[0].spec.helix_angle_deg = Ratio(10);
    EXPECT_EQ(refusal_of(train), "'a' and 'b' are in mesh with different helix angles; both need the same one");
    train.teeth.helix_angle_deg = Ratio(90);
    EXPECT_EQ(refusal_of(train), "gear 'b' has an impossible helix angle; give one between -60 and 60 degrees");
    train = train_of("a 20 x b 30");
    train.teeth.root_radius = Ratio(-1, 10);
    EXPECT_EQ(refusal_of(train), "gear 'a' has a negative root radius; give 0 or more");
    train = train_of("a 20 x b 30");
    train.teeth.addendum = Ratio(0);
    EXPECT_EQ(refusal_of(train), "gear 'a' has no height above its pitch circle; give an addendum above 0");
}

TEST(CarriedGear, IsThePlanetsWhereThePartnerIsOnTheCarriersAxis) {
    const Train train = train_of("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)");
    for (const Mesh& mesh : train.meshes)
        EXPECT_EQ(train[train[carried_gear_of(train, mesh).value()].member].name, "planet");
    const Train fixed = train_of("a 20 x b 30");
    EXPECT_FALSE(carried_gear_of(fixed, fixed.meshes[0]));
    const Train paired = train_of("p 20 x q 30 (p on carrier, q on carrier)");
    EXPECT_FALSE(carried_gear_of(paired, paired.meshes[0]));
}

TEST(MatchShifts, BringTheCentreDistancesTogether) {
    // Counts that alone do not agree: 21 + 24 against 70 - 24.
    const Train train = train_of("sun 21 x planet 24; planet 24 in ring 70 (planet on carrier)");
    const TrainTeeth before = teeth_of(train);
    EXPECT_GT(std::abs(before.meshes[0].pair->centre_distance_mm - before.meshes[1].pair->centre_distance_mm), 0.5);
    const MatchedTrain matched = match_shifts(train);
    ASSERT_EQ(matched.shifts.size(), 1U);
    EXPECT_TRUE(train[matched.shifts[0].gear].internal);
    EXPECT_NEAR(matched.shifts[0].centre_distance_mm, before.meshes[0].pair->centre_distance_mm, 1e-12);
    const TrainTeeth after = teeth_of(matched.train);
    // To the six decimals of the written shift.
    EXPECT_NEAR(after.meshes[0].pair->centre_distance_mm, after.meshes[1].pair->centre_distance_mm, 5e-6);
}

TEST(MatchShifts, MatchTheSunWhereTheRingsMeshComesFirst) {
    const Train train = train_of("planet 24 in ring 70; sun 21 x planet 24 (planet on carrier)");
    const MatchedTrain matched = match_shifts(train);
    ASSERT_EQ(matched.shifts.size(), 1U);
    EXPECT_EQ(name_of(train, matched.shifts[0].gear), "sun");
    EXPECT_GT(matched.shifts[0].shift, 0.0);
    const TrainTeeth after = teeth_of(matched.train);
    EXPECT_NEAR(after.meshes[0].pair->centre_distance_mm, after.meshes[1].pair->centre_distance_mm, 5e-6);
}

TEST(MatchShifts, LeaveATrainThatAgreesAlone) {
    const Train train = train_of("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)");
    const MatchedTrain matched = match_shifts(train);
    EXPECT_TRUE(matched.shifts.empty());
    EXPECT_EQ(matched.train, train);
}

TEST(MatchShifts, RefuseWhatNoShiftCanDo) {
    EXPECT_THROW(
        static_cast<void>(match_shifts(train_of("sun 20 x planet 20; planet 20 in ring 90 (planet on carrier)"))),
        TeethError);
}

}  // namespace
}  // namespace couplet
