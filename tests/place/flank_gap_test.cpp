#include "place/flank_gap.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "place/outline.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

GearSizes gear(int teeth, bool internal, double helix_deg = 0.0) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.internal = internal;
    spec.module_mm = 2.0;
    spec.rack = iso_53_rack('A').value();
    // Stub teeth: fillets keep out of the way of the partner's tips.
    spec.rack.addendum = 0.8;
    spec.helix_angle_rad = helix_deg * kTurn / 360.0;
    spec.thinning_mm = 0.1;
    spec.face_width_mm = 10.0;
    return sizes_of(spec);
}

// The distance of the two outlines as polygons, over one pitch.
double by_outlines(const GearSizes& first, const GearSizes& second, double centre_mm, double miss_pitches) {
    const bool internal = second.spec.internal;
    const ToothOutline a(profile_of(first).profile.value(), 2e-5);
    const ToothOutline b(profile_of(second).profile.value(), 2e-5);
    const auto all = [](const PlanePoint&) { return true; };
    double nearest = 1.0;
    for (int step = 0; step < 24; ++step) {
        const double part = step / 24.0;
        // The first gear's phase on the line of centres, and what the second gear's must be.
        const double own = -part;
        const double other = internal ? own - 0.5 - miss_pitches : 0.5 + miss_pitches - own;
        const double side = internal ? 0.0 : kTurn / 2;
        std::vector<Edge> first_edges;
        std::vector<Edge> second_edges;
        a.add_edges(first_edges, {0, 0}, -own * kTurn / first.spec.teeth, 0.0, 0.9, all);
        // A ring's axis lies behind the planet.
        b.add_edges(second_edges, {internal ? -centre_mm : centre_mm, 0}, side - other * kTurn / second.spec.teeth,
                    side, 0.6, all);
        const auto closest = closest_within(first_edges, second_edges, nearest);
        if (closest) nearest = closest->crossing ? 0.0 : closest->distance_mm;
    }
    return nearest;
}

TEST(FlankGap, IsHalfTheBacklashWhereTeethStandInTheMiddle) {
    const auto gap = flank_gap(gear(20, false), gear(31, false), 51.0, 0.0);
    ASSERT_TRUE(gap);
    // Two thinnings of 0.1 mm make a circular backlash of 0.2.
    EXPECT_NEAR(gap->ahead_mm, 0.1 * std::cos(kTurn / 18), 1e-12);
    EXPECT_DOUBLE_EQ(gap->ahead_mm, gap->behind_mm);
    EXPECT_TRUE(gap->contact);
}

TEST(FlankGap, IsWhatTheOutlinesShow) {
    for (const double miss : {0.0, 0.008, -0.008}) {
        for (const double apart_mm : {0.0, 0.15}) {
            const GearSizes first = gear(24, false);
            const GearSizes second = gear(31, false);
            const auto gap = flank_gap(first, second, 55.0 + apart_mm, miss);
            const double smallest = std::min(gap->ahead_mm, gap->behind_mm);
            EXPECT_NEAR(by_outlines(first, second, 55.0 + apart_mm, miss), smallest, 1e-4) << miss << " " << apart_mm;
            const GearSizes ring = gear(79, true);
            const auto inner = flank_gap(first, ring, 55.0 - apart_mm, miss);
            EXPECT_NEAR(by_outlines(first, ring, 55.0 - apart_mm, miss), std::min(inner->ahead_mm, inner->behind_mm),
                        1e-4)
                << miss << " " << apart_mm;
        }
    }
}

TEST(FlankGap, MovesFromOneSideToTheOther) {
    const GearSizes first = gear(20, false);
    const auto gap = flank_gap(first, gear(31, false), 51.0, 0.01);
    const double base_pitch = kTurn / 2 * first.base_diameter_mm / 20;
    EXPECT_NEAR(gap->ahead_mm - gap->behind_mm, 0.02 * base_pitch, 1e-12);
}

TEST(FlankGap, IsNormalToHelicalTeeth) {
    const GearSizes first = gear(20, false, 25.0);
    const GearSizes second = gear(31, false, -25.0);
    const double centre_mm = (first.pitch_diameter_mm + second.pitch_diameter_mm) / 2;
    const auto gap = flank_gap(first, second, centre_mm, 0.0);
    const double transverse = 0.1 * std::cos(first.transverse_angle_rad);
    EXPECT_NEAR(gap->ahead_mm, transverse * std::cos(first.base_helix_rad), 1e-12);
}

TEST(FlankGap, NeedsBaseCirclesApart) {
    EXPECT_FALSE(flank_gap(gear(20, false), gear(31, false), 40.0, 0.0));
    EXPECT_FALSE(flank_gap(gear(20, false), gear(20, true), 0.0, 0.0));
}

}  // namespace
}  // namespace couplet
