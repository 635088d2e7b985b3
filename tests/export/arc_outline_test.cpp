#include "export/arc_outline.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "export/exact_profile.hpp"
#include "support/dice.hpp"

namespace couplet {
namespace {

ToothProfile profile(int teeth, bool internal = false, double shift = 0.0) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.internal = internal;
    spec.module_mm = 2.0;
    spec.rack = iso_53_rack('A').value();
    spec.shift = shift;
    return profile_of(sizes_of(spec)).profile.value();
}

// Points on every arc, `per_arc` of them.
std::vector<PlanePoint> points_on(const ArcLoop& loop, int per_arc) {
    std::vector<PlanePoint> points;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const PlanePoint& a = loop[i].at;
        const PlanePoint& b = loop[(i + 1) % loop.size()].at;
        const double half_rad = 2.0 * std::atan(loop[i].bulge);
        for (int k = 0; k < per_arc; ++k) {
            // On an arc of half angle h: at the angle t from its middle, the chord being 2 sin h long and cos h away.
            const double t = half_rad * (2.0 * k / per_arc - 1.0);
            const bool straight = std::abs(half_rad) < 1e-9;
            const double along = straight ? 1.0 * k / per_arc : 0.5 + std::sin(t) / (2.0 * std::sin(half_rad));
            const double aside = straight ? 0.0 : -(std::cos(t) - std::cos(half_rad)) / (2.0 * std::sin(half_rad));
            points.push_back({a.x_mm + along * (b.x_mm - a.x_mm) - aside * (b.y_mm - a.y_mm),
                              a.y_mm + along * (b.y_mm - a.y_mm) + aside * (b.x_mm - a.x_mm)});
        }
    }
    return points;
}

double farthest_mm(const ToothProfile& tooth, double tolerance_mm) {
    const ExactProfile exact(tooth);
    double most = 0.0;
    for (const PlanePoint& point : points_on(gear_arcs(tooth, tolerance_mm), 20))
        most = std::max(most, exact.distance_mm(point));
    return most;
}

// From the profile to the arcs: points of flank and fillet, by their own parameters, to the arcs of the tooth on +X.
double farthest_of_profile_mm(const ToothProfile& tooth, double tolerance_mm) {
    const ArcLoop loop = gear_arcs(tooth, tolerance_mm);
    double most = 0.0;
    const auto look = [&](const PlanePoint& point) {
        double nearest = 1e9;
        for (std::size_t i = 0; i < loop.size() / static_cast<std::size_t>(tooth.sizes.spec.teeth); ++i)
            nearest = std::min(nearest, distance_to_arc_mm(point, loop[i], loop[(i + 1) % loop.size()].at));
        most = std::max(most, nearest);
    };
    constexpr int kLooks = 1000;
    for (int i = 0; i <= kLooks; ++i) {
        const double part = 1.0 * i / kLooks;
        look(flank_point(tooth, std::lerp(tooth.flank.inner_roll, tooth.flank.outer_roll, part)));
        look(fillet_point(tooth, tooth.fillet_end_rad * part));
    }
    return most;
}

TEST(ArcOutline, StaysWithinItsToleranceEitherWay) {
    for (const ToothProfile& tooth : {profile(21), profile(8), profile(17, false, -0.3), profile(12, false, 0.5),
                                      profile(200), profile(69, true), profile(30, true), profile(40, true, 0.4)})
        for (const double tolerance_mm : {0.05, 0.005, 0.0005}) {
            const std::string what = std::to_string(tooth.sizes.spec.teeth) + " at " + std::to_string(tolerance_mm);
            EXPECT_LE(farthest_mm(tooth, tolerance_mm), tolerance_mm + kExactly_mm) << what;
            EXPECT_LE(farthest_of_profile_mm(tooth, tolerance_mm), tolerance_mm) << what;
        }
}

// Teeth of all kinds: few and many, undercut, nearly pointed, helical, with sharp and with round corners, thinned.
TEST(ArcOutline, StaysWithinItsToleranceForRandomTeeth) {
    Dice dice(3);
    const auto part = [&](double least, double most) { return std::lerp(least, most, dice.between(0, 1000) / 1000.0); };
    int external = 0;
    int internal = 0;
    int undercut = 0;
    for (int i = 0; i < 250; ++i) {
        GearSpec spec;
        spec.internal = dice.chance(40);
        spec.teeth = spec.internal ? dice.between(20, 90) : dice.between(4, 50);
        spec.module_mm = part(0.2, 8.0);
        spec.rack = {part(0.25, 0.45), part(0.7, 1.1), part(0.9, 1.4), part(0.0, 0.4)};
        spec.helix_angle_rad = dice.chance(30) ? part(-0.6, 0.6) : 0.0;
        spec.shift = part(-0.5, 0.8);
        spec.thinning_mm = part(0.0, 0.05);
        const std::optional<ToothProfile> tooth = profile_of(sizes_of(spec)).profile;
        if (!tooth) continue;
        ++(spec.internal ? internal : external);
        if (tooth->undercut) ++undercut;
        const double tolerance_mm = dice.chance(50) ? 0.005 : 0.05;
        EXPECT_LE(farthest_mm(*tooth, tolerance_mm), tolerance_mm + 2.0 * kExactly_mm) << i;
        EXPECT_LE(farthest_of_profile_mm(*tooth, tolerance_mm), 1.02 * tolerance_mm) << i;
        EXPECT_LT(gear_arcs(*tooth, tolerance_mm).size(), 120U * static_cast<std::size_t>(spec.teeth)) << i;
    }
    EXPECT_GT(external, 60);
    EXPECT_GT(internal, 30);
    EXPECT_GT(undercut, 10);
}

// The tests above could not fail if the arcs were always finer than needed.
TEST(ArcOutline, UsesTheToleranceThatItHas) {
    EXPECT_GT(farthest_mm(profile(21), 0.005), 0.001);
    EXPECT_LT(gear_arcs(profile(21), 0.05).size(), gear_arcs(profile(21), 0.005).size());
    EXPECT_LT(gear_arcs(profile(21), 0.005).size(), gear_arcs(profile(21), 0.0005).size());
}

// Where the next arc begins: the direction at a corner, coming and going, in radians.
double bend_rad(const ArcLoop& loop, std::size_t corner) {
    const ArcCorner& before = loop[(corner + loop.size() - 1) % loop.size()];
    const ArcCorner& here = loop[corner];
    const PlanePoint& after = loop[(corner + 1) % loop.size()].at;
    const auto direction = [](const PlanePoint& a, const PlanePoint& b) {
        return std::atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
    };
    const double comes = direction(before.at, here.at) + 2.0 * std::atan(before.bulge);
    const double goes = direction(here.at, after) - 2.0 * std::atan(here.bulge);
    return std::abs(std::remainder(goes - comes, 2.0 * std::numbers::pi));
}

// Tip edges alone are corners: two of each tooth.
TEST(ArcOutline, IsSmoothButForTheTips) {
    for (const ToothProfile& tooth : {profile(21), profile(40), profile(69, true)}) {
        const ArcLoop loop = gear_arcs(tooth, 0.005);
        int corners = 0;
        for (std::size_t i = 0; i < loop.size(); ++i)
            if (bend_rad(loop, i) > 1e-4) {
                ++corners;
                EXPECT_NEAR(std::hypot(loop[i].at.x_mm, loop[i].at.y_mm), tooth.sizes.tip_diameter_mm / 2.0, 1e-9);
            }
        EXPECT_EQ(corners, 2 * tooth.sizes.spec.teeth);
    }
}

// Below 17 teeth the trochoid meets the involute at a corner of its own.
TEST(ArcOutline, KeepsTheCornerOfAnUndercut) {
    const ToothProfile tooth = profile(8);
    ASSERT_TRUE(tooth.undercut);
    const ArcLoop loop = gear_arcs(tooth, 0.005);
    int corners = 0;
    for (std::size_t i = 0; i < loop.size(); ++i)
        if (bend_rad(loop, i) > 1e-2) ++corners;
    EXPECT_EQ(corners, 4 * 8);
}

TEST(ArcOutline, HasTipAndRootAsTheirOwnCircles) {
    const ToothProfile tooth = profile(21);
    const ArcLoop loop = gear_arcs(tooth, 0.005);
    const auto arcs_at = [&](double radius_mm) {
        int arcs = 0;
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const PlanePoint& a = loop[i].at;
            const PlanePoint& b = loop[(i + 1) % loop.size()].at;
            if (std::abs(std::hypot(a.x_mm, a.y_mm) - radius_mm) > 1e-9 ||
                std::abs(std::hypot(b.x_mm, b.y_mm) - radius_mm) > 1e-9)
                continue;
            ++arcs;
            const double angle = std::atan2(a.x_mm * b.y_mm - a.y_mm * b.x_mm, a.x_mm * b.x_mm + a.y_mm * b.y_mm);
            EXPECT_NEAR(4.0 * std::atan(loop[i].bulge), angle, 1e-9);
        }
        return arcs;
    };
    EXPECT_EQ(arcs_at(tooth.sizes.tip_diameter_mm / 2.0), 21);
    EXPECT_EQ(arcs_at(tooth.sizes.root_diameter_mm / 2.0), 21);
}

TEST(ArcOutline, HasNoTwoCornersInOnePlace) {
    for (const ToothProfile& tooth : {profile(21), profile(8), profile(69, true), profile(30, true)}) {
        const ArcLoop loop = gear_arcs(tooth, 0.005);
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const PlanePoint& next = loop[(i + 1) % loop.size()].at;
            EXPECT_GT(std::hypot(next.x_mm - loop[i].at.x_mm, next.y_mm - loop[i].at.y_mm), 1e-6);
        }
    }
}

// Half a circle from (1, 0) to (-1, 0) by the top, and what lies beside its ends; three quarters of one.
TEST(ArcOutline, MeasuresDistancesToArcsAndLines) {
    const ArcCorner half{{1.0, 0.0}, 1.0};
    EXPECT_NEAR(distance_to_arc_mm({0.0, 1.5}, half, {-1.0, 0.0}), 0.5, 1e-12);
    EXPECT_NEAR(distance_to_arc_mm({0.0, 0.25}, half, {-1.0, 0.0}), 0.75, 1e-12);
    EXPECT_NEAR(distance_to_arc_mm({1.0, -2.0}, half, {-1.0, 0.0}), 2.0, 1e-12);
    const ArcCorner most{{1.0, 0.0}, std::tan(3.0 * std::numbers::pi / 8.0)};
    EXPECT_NEAR(distance_to_arc_mm({-2.0, 0.0}, most, {0.0, -1.0}), 1.0, 1e-12);
    EXPECT_NEAR(distance_to_arc_mm({0.0, 3.0}, most, {0.0, -1.0}), 2.0, 1e-12);
    EXPECT_NEAR(distance_to_arc_mm({2.0, -2.0}, most, {0.0, -1.0}), std::sqrt(5.0), 1e-12);
    EXPECT_NEAR(distance_to_arc_mm({0.5, 3.0}, {{0.0, 0.0}, 0.0}, {1.0, 0.0}), 3.0, 1e-12);
    EXPECT_NEAR(distance_to_arc_mm({4.0, 4.0}, {{0.0, 0.0}, 0.0}, {1.0, 0.0}), 5.0, 1e-12);
}

}  // namespace
}  // namespace couplet
