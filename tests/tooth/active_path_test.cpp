#include "tooth/active_path.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tooth/meshing.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

ActivePath path_of(const GearSpec& first, const GearSpec& second) {
    const double angle = operating_angle_of(first, second).value();
    return active_path(profile_for(first), profile_for(second), pair_sizes(sizes_of(first), sizes_of(second), angle));
}

// A ring of full height reaches into the fillet of the gear inside; a shorter one does not.
GearSpec short_ring(double module_mm, int teeth, double shift) {
    GearSpec spec = ring_a(module_mm, teeth, shift);
    spec.tip_change = -0.3;
    return spec;
}

TEST(ActivePath, IsTheWholePathWhereInvolutesReachFarEnough) {
    for (const GearSpec& second : {gear_a(2.0, 40, 0.0), short_ring(2.0, 80, 0.0)}) {
        const GearSpec first = gear_a(2.0, 30, 0.0);
        const double angle = operating_angle_of(first, second).value();
        const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), angle);
        const ActivePath path = path_of(first, second);
        EXPECT_EQ(path.start_mm, pair.path_start_mm);
        EXPECT_EQ(path.end_mm, pair.path_end_mm);
        EXPECT_NEAR(path.contact_ratio, pair.transverse_contact_ratio, 1e-14);
    }
}

TEST(ActivePath, HasAsManyTeethInContactAsTheOutlinesShow) {
    const std::vector<std::pair<GearSpec, GearSpec>> pairs = {
        {gear_a(2.0, 20, 0.0), gear_a(2.0, 35, 0.0)},
        {gear_a(2.0, 9, 0.0), gear_a(2.0, 40, 0.0)},
        {gear_a(2.0, 12, 0.0), gear_a(2.0, 12, 0.0)},
        {gear_a(3.0, 14, 0.4), gear_a(3.0, 40, 0.1)},
        {gear_a(2.0, 24, 0.0), short_ring(2.0, 69, 0.0)},
        {gear_a(3.0, 16, 0.0), short_ring(3.0, 24, 0.5)},
        {gear_a(2.0, 20, 0.0, 20.0), gear_a(2.0, 31, 0.0, -20.0)}};
    for (const auto& [first, second] : pairs) {
        const double angle = operating_angle_of(first, second).value();
        const Meshing meshing(first, second, angle, 1e-6);
        EXPECT_NEAR(meshing.counted_contact_ratio(600, 3e-5), path_of(first, second).contact_ratio, 0.004)
            << first.teeth << " " << second.teeth;
    }
}

TEST(ActivePath, IsCutByUndercut) {
    const GearSpec first = gear_a(2.0, 9, 0.0);
    const GearSpec second = gear_a(2.0, 40, 0.0);
    const double angle = operating_angle_of(first, second).value();
    const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), angle);
    const ActivePath path = path_of(first, second);
    EXPECT_GT(path.start_mm, pair.path_start_mm);
    EXPECT_LT(path.contact_ratio, pair.transverse_contact_ratio);
    // It begins at the undercut gear's form circle.
    const ToothProfile profile = profile_for(first);
    const double on_first = tangent_length_mm(profile.sizes, pair.first_operating_diameter_mm) + path.start_mm;
    EXPECT_NEAR(std::hypot(profile.sizes.base_diameter_mm, 2.0 * on_first), profile.inner_form_diameter_mm(), 1e-9);
}

TEST(ActivePath, IsCutByTheFilletThatARingReaches) {
    const GearSpec first = gear_a(3.0, 24, 0.0);
    const GearSpec second = ring_a(3.0, 69, 0.0);
    const double angle = operating_angle_of(first, second).value();
    const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), angle);
    const ActivePath path = path_of(first, second);
    EXPECT_GT(path.start_mm, pair.path_start_mm);
    EXPECT_EQ(path.end_mm, pair.path_end_mm);
    const ToothProfile profile = profile_for(first);
    const double to_pitch = tangent_length_mm(profile.sizes, pair.first_operating_diameter_mm);
    EXPECT_NEAR(to_pitch + path.start_mm, profile.flank.base_radius_mm * profile.flank.inner_roll, 1e-12);
}

TEST(ActivePath, OfTeethOutOfReachIsNothing) {
    const GearSpec first = gear_a(2.0, 20, 0.0);
    const GearSpec second = gear_a(2.0, 30, 0.0);
    // Centres drawn apart by more than both addenda.
    const double angle = operating_angle_at(first, second, 55.0).value();
    const ActivePath path =
        active_path(profile_for(first), profile_for(second), pair_sizes(sizes_of(first), sizes_of(second), angle));
    EXPECT_EQ(path.contact_ratio, 0.0);
    EXPECT_FALSE(path.first_sliding);
    EXPECT_FALSE(path.second_sliding);
}

// How far the contact runs along a flank while the gear turns a little.
double run_along(const ToothProfile& profile, double from_base_mm, double turn_rad) {
    const double roll = from_base_mm / profile.flank.base_radius_mm;
    const PlanePoint a = flank_point(profile, roll - turn_rad / 2.0);
    const PlanePoint b = flank_point(profile, roll + turn_rad / 2.0);
    return std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
}

TEST(Sliding, IsTheDifferenceOfTheRunsAlongTheFlanks) {
    for (const GearSpec& second : {gear_a(2.0, 40, 0.1), ring_a(2.0, 80, 0.2)}) {
        const GearSpec first = gear_a(2.0, 22, 0.1);
        const double angle = operating_angle_of(first, second).value();
        const ToothProfile one = profile_for(first);
        const ToothProfile two = profile_for(second);
        const PairSizes pair = pair_sizes(one.sizes, two.sizes, angle);
        const ActivePath path = active_path(one, two, pair);
        const double sense = second.internal ? -1.0 : 1.0;
        const auto runs = [&](double at) {
            const double turn = 1e-4;
            const double on_two = tangent_length_mm(two.sizes, pair.second_operating_diameter_mm) - sense * at;
            return std::pair{run_along(one, tangent_length_mm(one.sizes, pair.first_operating_diameter_mm) + at, turn),
                             run_along(two, on_two, turn * first.teeth / second.teeth)};
        };
        const auto [first_at_start, second_at_start] = runs(path.start_mm);
        const auto [first_at_end, second_at_end] = runs(path.end_mm);
        EXPECT_NEAR(path.first_sliding.value(), 1.0 - second_at_start / first_at_start, 1e-5);
        EXPECT_NEAR(path.second_sliding.value(), 1.0 - first_at_end / second_at_end, 1e-5);
    }
}

TEST(Sliding, IsNothingWhereTheFlankHasNoCurvatureRadius) {
    const GearSpec first = gear_a(2.0, 12, 0.0);
    const GearSpec second = gear_a(2.0, 60, 0.0);
    ToothProfile sharp = profile_for(first);
    sharp.flank.inner_roll = 0.0;  // an involute that begins on its base circle
    const double angle = operating_angle_of(first, second).value();
    const ActivePath path =
        active_path(sharp, profile_for(second), pair_sizes(sizes_of(first), sizes_of(second), angle));
    EXPECT_FALSE(path.first_sliding);
    EXPECT_TRUE(path.second_sliding);
}

}  // namespace
}  // namespace couplet
