#include "solid/tooth_contour.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tooth/outline.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

std::vector<GearSpec> various_gears() {
    return {gear_a(3.0, 24, 0.0),       gear_a(3.0, 8, 0.0),  gear_a(2.0, 12, 0.45),      gear_a(1.0, 150, -0.4),
            gear_a(2.0, 25, 0.1, 25.0), ring_a(3.0, 69, 0.0), ring_a(2.0, 30, -0.3, 18.0)};
}

// From the last tooth's first point to the second's.
Outline two_teeth(const ToothContour& teeth) {
    Outline outline;
    for (std::size_t i = 0; i <= 2 * teeth.pitch_points; ++i)
        outline.push_back(teeth.contour.points[teeth.index(teeth.teeth - 1, i)].at);
    return outline;
}

// More than a tooth of the true outline, to measure against.
Outline fine_teeth(const ToothProfile& profile) {
    const Outline tooth = open_tooth(profile, 1e-5);
    Outline three;
    for (const double turn : {-1.0, 0.0, 1.0}) {
        const Outline moved = turned(tooth, turn * 2.0 * kPi / profile.sizes.spec.teeth);
        three.insert(three.end(), moved.begin(), moved.end());
    }
    return three;
}

TEST(ToothContour, StaysWithinItsToleranceOfTheTrueProfile) {
    for (const GearSpec& spec : various_gears())
        for (const double tolerance : {0.002, 0.02}) {
            const ToothProfile profile = profile_for(spec);
            const Outline few = two_teeth(tooth_contour(profile, tolerance));
            const Outline fine = fine_teeth(profile);
            for (std::size_t i = 0; i < few.size(); ++i) {
                EXPECT_LT(distance_to(few[i], fine), 2e-5) << spec.teeth;
                if (i == 0) continue;
                const PlanePoint half{(few[i].x_mm + few[i - 1].x_mm) / 2, (few[i].y_mm + few[i - 1].y_mm) / 2};
                EXPECT_LT(distance_to(half, fine), tolerance) << spec.teeth;
            }
            // And the other way round: no part of the profile is passed over.
            for (const PlanePoint& p : open_tooth(profile, 1e-4))
                EXPECT_LT(distance_to(p, few), tolerance + 2e-4) << spec.teeth;
        }
}

TEST(ToothContour, HasItsFlankPointsOnTheInvolute) {
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const ToothContour teeth = tooth_contour(profile, 0.002);
        std::size_t on_flank = 0;
        for (std::size_t i = teeth.tooth_points / 2 + 1; i < teeth.tooth_points; ++i) {
            const ContourPoint& p = teeth.contour.points[i % teeth.contour.points.size()];
            const double ratio = std::hypot(p.at.x_mm, p.at.y_mm) / profile.flank.base_radius_mm;
            const double roll = std::sqrt(std::max(0.0, ratio * ratio - 1.0));
            if (roll < profile.flank.inner_roll - 1e-9 || roll > profile.flank.outer_roll + 1e-9 || p.at.y_mm <= 0.0)
                continue;
            const PlanePoint exact = flank_point(profile, roll);
            if (std::hypot(exact.x_mm - p.at.x_mm, exact.y_mm - p.at.y_mm) > 1e-9) continue;
            ++on_flank;
            // Where undercut leaves a slight corner, the normal is its mean.
            if (profile.undercut && roll < profile.flank.inner_roll + 1e-9) continue;
            // The involute runs square to its normal.
            const PlanePoint next = flank_point(profile, roll + 1e-6);
            const PlanePoint along{next.x_mm - exact.x_mm, next.y_mm - exact.y_mm};
            const double length = std::hypot(along.x_mm, along.y_mm);
            const bool at_tip = i <= (teeth.tooth_points + 1) / 2;
            const PlanePoint& normal = at_tip ? p.after : p.before;
            if (p.is_sharp() && !at_tip) continue;
            EXPECT_NEAR(dot(normal, along) / length, 0.0, p.is_sharp() ? 1e-4 : 0.02) << spec.teeth << " " << i;
        }
        EXPECT_GE(on_flank, 2U) << spec.teeth;
    }
}

TEST(ToothContour, NormalsHaveUnitLengthAndPointOutOfTheMetal) {
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const ToothContour teeth = tooth_contour(profile, 0.02);
        const Outline all = gear_polygon(profile, 1e-4);
        for (std::size_t i = 0; i < teeth.pitch_points; ++i) {
            const ContourPoint& p = teeth.contour.points[i];
            EXPECT_NEAR(std::hypot(p.before.x_mm, p.before.y_mm), 1.0, 1e-9);
            EXPECT_NEAR(std::hypot(p.after.x_mm, p.after.y_mm), 1.0, 1e-9);
            const PlanePoint normal{(p.before.x_mm + p.after.x_mm) / 2, (p.before.y_mm + p.after.y_mm) / 2};
            const PlanePoint out{p.at.x_mm + 0.02 * normal.x_mm, p.at.y_mm + 0.02 * normal.y_mm};
            const PlanePoint in{p.at.x_mm - 0.02 * normal.x_mm, p.at.y_mm - 0.02 * normal.y_mm};
            EXPECT_EQ(is_inside(out, all), spec.internal) << spec.teeth << " " << i;
            EXPECT_NE(is_inside(in, all), spec.internal) << spec.teeth << " " << i;
        }
    }
}

TEST(ToothContour, IsSharpAtTheTipsAndNowhereElse) {
    for (const GearSpec& spec : {gear_a(3.0, 24, 0.0), ring_a(3.0, 69, 0.0)}) {
        const ToothContour teeth = tooth_contour(profile_for(spec), 0.02);
        std::size_t sharp = 0;
        const double tip = sizes_of(spec).tip_diameter_mm / 2.0;
        for (const ContourPoint& p : teeth.contour.points) {
            if (!p.is_sharp()) continue;
            ++sharp;
            EXPECT_NEAR(std::hypot(p.at.x_mm, p.at.y_mm), tip, 1e-9);
        }
        EXPECT_EQ(sharp, 2 * teeth.teeth);
    }
}

TEST(ToothContour, MirrorsEachToothInItsMiddle) {
    for (const GearSpec& spec : various_gears()) {
        const ToothContour teeth = tooth_contour(profile_for(spec), 0.01);
        for (std::size_t i = 0; i < teeth.tooth_points; ++i) {
            const PlanePoint& p = teeth.contour.points[teeth.index(0, i)].at;
            const PlanePoint& q = teeth.contour.points[teeth.index(0, teeth.tooth_points - 1 - i)].at;
            EXPECT_NEAR(p.x_mm, q.x_mm, 1e-12 * std::abs(p.x_mm) + 1e-12) << spec.teeth;
            EXPECT_NEAR(p.y_mm, -q.y_mm, 1e-9) << spec.teeth;
        }
    }
}

TEST(ToothContour, IsATrapezoidWithOnePointOnEachFlankWhereItMayBe) {
    for (const GearSpec& spec : {gear_a(3.0, 24, 0.0), ring_a(3.0, 69, 0.0)})
        EXPECT_EQ(tooth_contour(profile_for(spec), 100.0).pitch_points, 6U);
}

TEST(ToothContour, SharesThePointWhereFilletsMeet) {
    // A full-radius root leaves no arc of the root circle.
    GearSpec spec = gear_a(2.0, 20, 0.0);
    spec.rack.root_radius = largest_root_radius(spec.rack);
    const ToothContour teeth = tooth_contour(profile_for(spec), 0.01);
    EXPECT_EQ(teeth.tooth_points, teeth.pitch_points + 1);
    const PlanePoint& shared = teeth.contour.points[teeth.index(0, teeth.tooth_points - 1)].at;
    EXPECT_NEAR(std::atan2(shared.y_mm, shared.x_mm), kPi / 20, 1e-9);
}

}  // namespace
}  // namespace couplet
