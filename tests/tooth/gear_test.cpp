#include "tooth/gear.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tooth/outline.hpp"

namespace couplet {
namespace {

TEST(GearSizes, OfASpurGearFollowFromItsTeeth) {
    const GearSizes gear = sizes_of(gear_a(2.0, 20, 0.25));
    // Derived: d = m z, tip d + 2 m (1 + x), root d - 2 m (1.25 - x), s = m (pi/2 + 2 x tan 20).
    EXPECT_DOUBLE_EQ(gear.pitch_diameter_mm, 40.0);
    EXPECT_DOUBLE_EQ(gear.tip_diameter_mm, 45.0);
    EXPECT_DOUBLE_EQ(gear.root_diameter_mm, 36.0);
    EXPECT_NEAR(gear.pitch_thickness_mm, std::numbers::pi + std::tan(20 * kDegree), 1e-14);
    EXPECT_NEAR(gear.base_diameter_mm, 40.0 * std::cos(20 * kDegree), 1e-13);
    EXPECT_EQ(gear.base_helix_rad, 0.0);
}

TEST(GearSizes, OfARingFitTheGearThatFillsIt) {
    // An external gear with the same shift fills the ring's spaces: thickness = space at every circle.
    const GearSizes ring = sizes_of(ring_a(2.0, 40, 0.3, 15.0));
    const GearSizes gear = sizes_of(gear_a(2.0, 40, 0.3, 15.0));
    for (const double diameter : {79.0, 82.0, 85.0}) {
        const double both = half_tooth_angle_at(ring, diameter) + half_tooth_angle_at(gear, diameter);
        EXPECT_NEAR(both, std::numbers::pi / 40, 1e-15);
    }
    EXPECT_LT(ring.tip_diameter_mm, ring.pitch_diameter_mm);
    EXPECT_GT(ring.root_diameter_mm, ring.pitch_diameter_mm);
}

TEST(GearSizes, OfAHelicalGearAgreeInBothSections) {
    const GearSizes gear = sizes_of(gear_a(3.0, 25, 0.0, -20.0));
    EXPECT_NEAR(gear.transverse_module_mm * std::cos(20 * kDegree), 3.0, 1e-14);
    EXPECT_NEAR(std::tan(gear.transverse_angle_rad) * std::cos(20 * kDegree), std::tan(20 * kDegree), 1e-14);
    // Any text: tan of the base helix = tan of the helix x cos of the transverse angle; the hand keeps its sign.
    EXPECT_NEAR(std::tan(gear.base_helix_rad), std::tan(-20 * kDegree) * std::cos(gear.transverse_angle_rad), 1e-14);
}

TEST(GearSizes, ThinningTakesFromTheToothAlone) {
    GearSpec spec = gear_a(2.0, 20, 0.0);
    const GearSizes full = sizes_of(spec);
    spec.thinning_mm = 0.05;
    const GearSizes thinned = sizes_of(spec);
    EXPECT_NEAR(full.pitch_thickness_mm - thinned.pitch_thickness_mm, 0.05, 1e-15);
    EXPECT_EQ(full.root_diameter_mm, thinned.root_diameter_mm);
    EXPECT_EQ(full.tip_diameter_mm, thinned.tip_diameter_mm);
}

TEST(ToothAngle, IsZeroAtThePointedDiameter) {
    for (const double shift : {-0.2, 0.0, 0.7}) {
        const GearSizes gear = sizes_of(gear_a(1.0, 18, shift));
        const double pointed = pointed_diameter(gear);
        EXPECT_NEAR(half_tooth_angle_at(gear, pointed), 0.0, 1e-13) << shift;
        EXPECT_GT(pointed, gear.tip_diameter_mm) << shift;
    }
    // An internal gear's space comes to a point outside its root.
    const GearSizes ring = sizes_of(ring_a(1.0, 60, 0.0));
    EXPECT_NEAR(half_tooth_angle_at(ring, pointed_diameter(ring)), std::numbers::pi / 60, 1e-13);
    EXPECT_GT(pointed_diameter(ring), ring.root_diameter_mm);
}

TEST(ToothAngle, IsANumberWhereverItIsAsked) {
    GearSpec spec = gear_a(1.0, 8, -5.0);
    spec.thinning_mm = 40.0;
    const GearSizes gear = sizes_of(spec);
    for (const double diameter : {-3.0, 0.0, 1.0, gear.base_diameter_mm, 100.0})
        EXPECT_TRUE(std::isfinite(half_tooth_angle_at(gear, diameter))) << diameter;
    EXPECT_TRUE(std::isfinite(gear.tip_thickness_mm));
    EXPECT_EQ(pointed_diameter(gear), gear.base_diameter_mm);
    EXPECT_EQ(pressure_angle_at(gear, 0.5 * gear.base_diameter_mm), 0.0);
    EXPECT_EQ(tangent_length_mm(gear, -1.0), 0.0);
}

TEST(TangentLength, IsTheLegOfItsTriangle) {
    const GearSizes gear = sizes_of(gear_a(2.0, 30, 0.0));
    const double length = tangent_length_mm(gear, 62.0);
    EXPECT_NEAR(std::hypot(length, gear.base_diameter_mm / 2.0), 31.0, 1e-13);
    EXPECT_NEAR(2.0 * length / gear.base_diameter_mm, std::tan(pressure_angle_at(gear, 62.0)), 1e-13);
}

TEST(Undercut, LimitsOfTeethAndShiftAreOneLimit) {
    for (const double helix : {0.0, 12.0, 30.0}) {
        GearSpec spec = gear_a(1.5, 11, 0.0, helix);
        spec.shift = undercut_limit(spec).least_shift;
        EXPECT_NEAR(undercut_limit(spec).fewest_teeth, 11.0, 1e-12) << helix;
    }
}

TEST(Iso54, KnowsItsModulesAndTheNearest) {
    EXPECT_EQ(iso_54_series(3.0), ModuleSeries::preferred);
    EXPECT_EQ(iso_54_series(3.5), ModuleSeries::second_choice);
    EXPECT_EQ(iso_54_series(3.175), ModuleSeries::none);
    EXPECT_EQ(nearest_iso_54_module(3.175), 3.0);
    EXPECT_EQ(nearest_iso_54_module(0.2), 1.0);
    EXPECT_EQ(nearest_iso_54_module(1000.0), 50.0);
}

}  // namespace
}  // namespace couplet
