#include "tooth/measure.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tooth/outline.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

GearSpec thinned(GearSpec spec, double thinning_mm) {
    spec.thinning_mm = thinning_mm;
    return spec;
}

// From a ball's centre in the middle of the space above +X to the flanks, which turn with the helix along the axis.
double distance_to_flanks(const ToothProfile& profile, const Outline& tooth, double centre_radius_mm, double reach_mm) {
    const GearSizes& gear = profile.sizes;
    const double half_pitch = kPi / gear.spec.teeth;
    const double turn_per_mm = 2.0 * std::tan(gear.spec.helix_angle_rad) / gear.pitch_diameter_mm;
    const int slices = turn_per_mm == 0.0 ? 0 : 60;
    double least = 1e9;
    for (int s = -slices; s <= slices; ++s) {
        const double along = slices == 0 ? 0.0 : reach_mm * s / slices;
        // The ball as the slice's own tooth sees it.
        const double angle = half_pitch - along * turn_per_mm;
        const PlanePoint centre{centre_radius_mm * std::cos(angle), centre_radius_mm * std::sin(angle)};
        least = std::min(least, std::hypot(distance_to(centre, tooth), along));
    }
    return least;
}

// The circle that touches both flanks, found by moving it along the middle of the space.
double centre_radius_by_search(const ToothProfile& profile, double pin_mm) {
    const double outward = profile.sizes.spec.internal ? -1.0 : 1.0;
    Outline flank;
    for (int i = 0; i <= 1500; ++i)
        flank.push_back(flank_point(
            profile, profile.flank.inner_roll + (profile.flank.outer_roll - profile.flank.inner_roll) * i / 1500));
    double inside = profile.sizes.root_diameter_mm / 2.0;
    double outside = profile.sizes.tip_diameter_mm / 2.0 + outward * pin_mm;
    for (int i = 0; i < 50; ++i) {
        const double middle = (inside + outside) / 2.0;
        const bool touches = distance_to_flanks(profile, flank, middle, pin_mm / 2.0) < pin_mm / 2.0;
        (touches ? inside : outside) = middle;
    }
    return outside;
}

TEST(OverPins, RestOnTheSampledFlanks) {
    for (const GearSpec& spec : {gear_a(1.0, 20, 0.0), gear_a(2.0, 17, 0.3), thinned(gear_a(3.0, 40, -0.2), 0.12),
                                 ring_a(1.0, 60, 0.0), ring_a(2.0, 45, 0.4), thinned(ring_a(3.0, 38, 0.1), 0.15)}) {
        const ToothProfile profile = profile_for(spec);
        const auto measured = over_pins_of(profile.sizes);
        ASSERT_TRUE(measured) << spec.teeth;
        const double centre = centre_radius_by_search(profile, measured->pin_mm);
        const double outward = spec.internal ? -1.0 : 1.0;
        // Two spaces nearest to opposite: the chord between the pins' centres.
        const double between = 2.0 * kPi * (spec.teeth / 2) / spec.teeth;
        const double chord = 2.0 * centre * std::sin(between / 2.0);
        EXPECT_NEAR(measured->over_pins_mm, chord + outward * measured->pin_mm, 1e-5 * spec.module_mm) << spec.teeth;
    }
}

TEST(OverPins, OfAHelicalGearAreBallsOnItsHelicoids) {
    for (const GearSpec& spec : {gear_a(2.0, 24, 0.1, 20.0), ring_a(2.0, 50, 0.0, 20.0)}) {
        const ToothProfile profile = profile_for(spec);
        const auto measured = over_pins_of(profile.sizes);
        ASSERT_TRUE(measured);
        const double centre = centre_radius_by_search(profile, measured->pin_mm);
        const double outward = spec.internal ? -1.0 : 1.0;
        EXPECT_NEAR(measured->over_pins_mm, 2.0 * centre + outward * measured->pin_mm, 2e-4) << spec.internal;
    }
}

TEST(OverPins, TakeAnotherSizeWhereTheClassicOneWouldSink) {
    // A gear of negative shift has narrow teeth and wide spaces.
    const GearSizes gear = sizes_of(gear_a(1.0, 60, -0.9));
    const auto measured = over_pins_of(gear);
    ASSERT_TRUE(measured);
    EXPECT_GT(measured->over_pins_mm, gear.tip_diameter_mm);
    EXPECT_NEAR(measured->over_pins_mm,
                2.0 * centre_radius_by_search(profile_for(gear.spec), measured->pin_mm) + measured->pin_mm, 1e-5);
}

TEST(OverPins, AreNothingWhereNoToothIs) {
    EXPECT_FALSE(over_pins_of(sizes_of(gear_a(1.0, 8, 1.5))));
    EXPECT_FALSE(over_pins_of(sizes_of(ring_a(1.0, 30, 4.0))));
}

TEST(OverPins, ShowTheThinningByTheirOwnFactor) {
    // Derived: a smaller tooth lowers the pins by thinning x cos(a_t) / sin(a_pin), both sides together.
    const GearSizes full = sizes_of(gear_a(2.0, 30, 0.0));
    const GearSizes thin = sizes_of(thinned(gear_a(2.0, 30, 0.0), 1e-4));
    const double pin = 1.728 * 2.0;
    const double centres = over_pins(full, pin) - pin;
    const double factor = std::cos(full.transverse_angle_rad) / std::sin(pressure_angle_at(full, centres));
    EXPECT_NEAR((over_pins(full, pin) - over_pins(thin, pin)) / 1e-4, factor, 1e-3);
}

// Jaws at right angles to the middle of the spanned teeth, put to the sampled flanks.
double span_by_jaws(const ToothProfile& profile, int teeth) {
    const double pitch = 2.0 * kPi / profile.sizes.spec.teeth;
    const double half = pitch * (teeth - 1) / 2.0;
    double most = -1e9;
    for (int i = 0; i <= 20000; ++i) {
        const double roll =
            profile.flank.inner_roll + (profile.flank.outer_roll - profile.flank.inner_roll) * i / 20000;
        most = std::max(most, turned(flank_point(profile, roll), half).y_mm);
    }
    return 2.0 * most;
}

TEST(Span, IsThatOfJawsOnTheSampledFlanks) {
    for (const GearSpec& spec : {gear_a(3.0, 24, 0.4), gear_a(1.0, 17, 0.0), thinned(gear_a(2.0, 45, -0.3), 0.2)}) {
        const ToothProfile profile = profile_for(spec);
        const auto span = span_of(profile.sizes);
        ASSERT_TRUE(span);
        EXPECT_NEAR(span->span_mm, span_by_jaws(profile, span->teeth), 1e-6) << spec.teeth;
    }
}

TEST(Span, OfAHelicalGearIsTheTransverseOneAcrossTheBaseHelix) {
    const ToothProfile profile = profile_for(gear_a(2.0, 30, 0.2, 15.0));
    const auto span = span_of(profile.sizes);
    ASSERT_TRUE(span);
    EXPECT_NEAR(span->span_mm, span_by_jaws(profile, span->teeth) * std::cos(profile.sizes.base_helix_rad), 1e-6);
}

TEST(Span, IsNothingWhereNoCaliperReaches) {
    EXPECT_FALSE(span_of(sizes_of(ring_a(1.0, 60, 0.0))));
    GearSpec narrow = gear_a(1.0, 60, 0.0, 30.0);
    narrow.face_width_mm = 3.0;
    EXPECT_FALSE(span_of(sizes_of(narrow)));
    EXPECT_FALSE(span_of(sizes_of(gear_a(1.0, 8, 1.5))));
}

TEST(ChordalThickness, IsTheChordOfTheSampledTooth) {
    const ToothProfile profile = profile_for(gear_a(2.0, 20, 0.1));
    const double angle = *upper_angle_at(open_tooth(profile, 1e-7), profile.sizes.pitch_diameter_mm / 2.0);
    const ChordalThickness chordal = chordal_thickness_of(profile.sizes);
    EXPECT_NEAR(chordal.chord_mm, profile.sizes.pitch_diameter_mm * std::sin(angle), 1e-5);
    EXPECT_NEAR(chordal.height_mm,
                (profile.sizes.tip_diameter_mm - profile.sizes.pitch_diameter_mm * std::cos(angle)) / 2.0, 1e-5);
}

TEST(ChordalThickness, OfARingIsMeasuredFromItsTip) {
    const GearSizes ring = sizes_of(ring_a(2.0, 50, 0.0));
    const ChordalThickness chordal = chordal_thickness_of(ring);
    // Derived: from the tip circle out to the chord, which lies inside the reference circle.
    EXPECT_NEAR(chordal.height_mm,
                ring.pitch_diameter_mm / 2.0 * std::cos(chordal.half_angle_rad) - ring.tip_diameter_mm / 2.0, 1e-12);
}

}  // namespace
}  // namespace couplet
