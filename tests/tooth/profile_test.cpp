#include "tooth/profile.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/dice.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

GearSpec with_rack(GearSpec spec, char rack) {
    spec.rack = *iso_53_rack(rack);
    return spec;
}

GearSpec thinned(GearSpec spec, double thinning_mm) {
    spec.thinning_mm = thinning_mm;
    return spec;
}

// External and internal, spur and helical, with and without undercut, every rack.
std::vector<GearSpec> various_gears() {
    return {gear_a(1.0, 20, 0.0),
            gear_a(3.0, 9, 0.0),
            gear_a(2.0, 12, 0.45),
            thinned(gear_a(1.0, 100, -0.4), 0.06),
            gear_a(2.0, 25, 0.1, 25.0),
            with_rack(gear_a(1.0, 31, 0.0), 'D'),
            with_rack(gear_a(1.0, 14, 0.2, -12.0), 'C'),
            ring_a(1.0, 60, 0.0),
            thinned(ring_a(3.0, 24, 0.5), 0.1),
            with_rack(ring_a(2.0, 45, -0.3, 18.0), 'D'),
            with_rack(ring_a(1.0, 36, 0.2), 'B')};
}

std::string named(const GearSpec& spec) {
    return (spec.internal ? "ring " : "gear ") + std::to_string(spec.teeth) + " x " + std::to_string(spec.shift);
}

// Between the middles of two spaces, by the closed forms: sectors of tip and root, of the involute r_b^2 t^3 / 6, of
// the fillet by fine trapezia of its own points.
double exact_area(const ToothProfile& profile) {
    const GearSizes& sizes = profile.sizes;
    const bool internal = sizes.spec.internal;
    const FlankCurve& flank = profile.flank;
    const PlanePoint tip = flank_point(profile, internal ? flank.inner_roll : flank.outer_roll);
    const PlanePoint bottom = fillet_point(profile, 0.0);
    const double tip_angle = std::atan2(tip.y_mm, tip.x_mm);
    const double root_angle = kPi / sizes.spec.teeth - std::atan2(bottom.y_mm, bottom.x_mm);
    double half = sizes.tip_diameter_mm * sizes.tip_diameter_mm / 8.0 * tip_angle +
                  sizes.root_diameter_mm * sizes.root_diameter_mm / 8.0 * root_angle;
    half += flank.base_radius_mm * flank.base_radius_mm / 6.0 *
            (std::pow(flank.outer_roll, 3) - std::pow(flank.inner_roll, 3));
    constexpr int kPieces = 20000;
    for (int i = 0; i < kPieces; ++i) {
        const PlanePoint a = fillet_point(profile, profile.fillet_end_rad * (1.0 - static_cast<double>(i) / kPieces));
        const PlanePoint b = fillet_point(profile, profile.fillet_end_rad * (1.0 - (i + 1.0) / kPieces));
        half += (a.x_mm * b.y_mm - a.y_mm * b.x_mm) / 2.0;
    }
    return 2.0 * half;
}

TEST(GearPolygon, ClosesAndNeverCrossesItself) {
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const Outline gear = gear_polygon(profile, 0.001 * spec.module_mm);
        EXPECT_EQ(gear.size() % static_cast<std::size_t>(spec.teeth), 0U) << named(spec);
        EXPECT_FALSE(crosses_itself(gear)) << named(spec);
        // The step from the last point back to the first is one of the steps within.
        const std::size_t per_tooth = gear.size() / static_cast<std::size_t>(spec.teeth);
        const auto step = [](const PlanePoint& a, const PlanePoint& b) {
            return std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
        };
        EXPECT_NEAR(step(gear.back(), gear.front()), step(gear[per_tooth - 1], gear[per_tooth]), 1e-12) << named(spec);
    }
}

TEST(GearPolygon, HasTheAreaOfItsCurves) {
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const double exact = exact_area(profile) * spec.teeth;
        const double tolerance_mm = 0.001 * spec.module_mm;
        const Outline usual = gear_polygon(profile, tolerance_mm);
        EXPECT_NEAR(area(usual), exact, perimeter(usual) * tolerance_mm) << named(spec);
        const Outline fine = gear_polygon(profile, 1e-4 * tolerance_mm);
        EXPECT_NEAR(area(fine), exact, perimeter(fine) * 1e-4 * tolerance_mm) << named(spec);
    }
}

TEST(GearPolygon, ShowsTheThicknessOfTheFormula) {
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const double tolerance_mm = 0.001 * spec.module_mm;
        const Outline tooth = open_tooth(profile, tolerance_mm);
        const double from = profile.inner_form_diameter_mm();
        const double to = profile.outer_form_diameter_mm();
        for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
            const double diameter = from + share * (to - from);
            const auto angle = upper_angle_at(tooth, diameter / 2.0);
            ASSERT_TRUE(angle) << named(spec);
            const double slope = std::cos(pressure_angle_at(profile.sizes, diameter));
            EXPECT_NEAR(*angle * diameter, half_tooth_angle_at(profile.sizes, diameter) * diameter,
                        2.0 * tolerance_mm / slope)
                << named(spec);
        }
    }
}

// The largest distance of curve points from the polygon.
template <class Curve>
double farthest(const Outline& tooth, double from, double to, Curve point) {
    double most = 0.0;
    for (int i = 0; i <= 3000; ++i) most = std::max(most, distance_to(point(from + (to - from) * i / 3000), tooth));
    return most;
}

void expect_chords_within(const ToothProfile& profile, double tolerance_mm) {
    const Outline tooth = open_tooth(profile, tolerance_mm);
    const auto arc = [](double diameter_mm) {
        return [=](double angle) {
            return PlanePoint{diameter_mm / 2.0 * std::cos(angle), diameter_mm / 2.0 * std::sin(angle)};
        };
    };
    const FlankCurve& flank = profile.flank;
    const PlanePoint tip = flank_point(profile, profile.sizes.spec.internal ? flank.inner_roll : flank.outer_roll);
    const PlanePoint bottom = fillet_point(profile, 0.0);
    const double most = tolerance_mm * (1.0 + 1e-6);
    const std::string name = named(profile.sizes.spec);
    EXPECT_LE(farthest(tooth, flank.inner_roll, flank.outer_roll, [&](double t) { return flank_point(profile, t); }),
              most)
        << name << " flank";
    EXPECT_LE(farthest(tooth, 0.0, profile.fillet_end_rad, [&](double t) { return fillet_point(profile, t); }), most)
        << name << " fillet";
    EXPECT_LE(farthest(tooth, 0.0, std::atan2(tip.y_mm, tip.x_mm), arc(profile.sizes.tip_diameter_mm)), most)
        << name << " tip";
    EXPECT_LE(farthest(tooth, std::atan2(bottom.y_mm, bottom.x_mm), kPi / profile.sizes.spec.teeth,
                       arc(profile.sizes.root_diameter_mm)),
              most)
        << name << " root";
}

TEST(ToothPolygon, KeepsItsToleranceOnEveryCurve) {
    for (const GearSpec& spec : various_gears())
        for (const double tolerance : {0.01, 0.001, 0.00001})
            expect_chords_within(profile_for(spec), tolerance * spec.module_mm);
}

TEST(ToothPolygon, SpendsNoMorePointsThanTheCurvesNeed) {
    // Points go with the root of the tolerance; halving wastes at most half of the fillet's.
    const ToothProfile profile = profile_for(gear_a(1.0, 100, 0.0));
    const std::size_t usual = tooth_polygon(profile, 0.001).size();
    EXPECT_LT(usual, 64U);
    EXPECT_LT(tooth_polygon(profile, 0.00001).size(), 15 * usual);
}

PlanePoint direction(const PlanePoint& from, const PlanePoint& to) {
    const double length = std::hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm);
    return {(to.x_mm - from.x_mm) / length, (to.y_mm - from.y_mm) / length};
}

double sine_between(const PlanePoint& a, const PlanePoint& b) {
    return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}

TEST(Fillet, MeetsTheFlankAndRunsOnAlongIt) {
    constexpr double kStep = 1e-5;
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const double roll = spec.internal ? profile.flank.outer_roll : profile.flank.inner_roll;
        const double inwards = spec.internal ? 1.0 : -1.0;
        const PlanePoint on_flank = flank_point(profile, roll);
        const PlanePoint on_fillet = fillet_point(profile, profile.fillet_end_rad);
        EXPECT_NEAR(on_flank.x_mm, on_fillet.x_mm, 1e-9 * spec.module_mm) << named(spec);
        EXPECT_NEAR(on_flank.y_mm, on_fillet.y_mm, 1e-9 * spec.module_mm) << named(spec);
        const PlanePoint along_flank = direction(flank_point(profile, roll - inwards * kStep), on_flank);
        const PlanePoint along_fillet = direction(on_fillet, fillet_point(profile, profile.fillet_end_rad - kStep));
        if (profile.undercut) {
            EXPECT_GT(std::abs(sine_between(along_flank, along_fillet)), 0.005) << named(spec);
        } else {
            EXPECT_NEAR(sine_between(along_flank, along_fillet), 0.0, 1e-3) << named(spec);
        }
    }
}

TEST(Fillet, RunsIntoTheRootCircle) {
    for (const GearSpec& spec : various_gears()) {
        const ToothProfile profile = profile_for(spec);
        const PlanePoint bottom = fillet_point(profile, 0.0);
        EXPECT_NEAR(std::hypot(bottom.x_mm, bottom.y_mm), profile.sizes.root_diameter_mm / 2.0, 1e-12) << named(spec);
        const PlanePoint along = direction(bottom, fillet_point(profile, 1e-5));
        const PlanePoint outwards = direction({0.0, 0.0}, bottom);
        EXPECT_NEAR(along.x_mm * outwards.x_mm + along.y_mm * outwards.y_mm, 0.0, 1e-3) << named(spec);
    }
}

TEST(Fillet, OfARingHasTheRacksRadiusWhereThereIsRoom) {
    EXPECT_DOUBLE_EQ(profile_for(ring_a(2.0, 90, 0.0)).root_fillet_radius_mm, 0.76);
    const ToothProfile narrow = profile_for(with_rack(ring_a(2.0, 45, 0.0), 'D'));
    EXPECT_LT(narrow.root_fillet_radius_mm, 0.78);
    // Both fillets then meet in the middle of the space.
    const PlanePoint bottom = fillet_point(narrow, 0.0);
    EXPECT_NEAR(std::atan2(bottom.y_mm, bottom.x_mm), kPi / 45, 1e-9);
}

TEST(Undercut, AppearsExactlyBelowItsLimit) {
    for (const double helix : {0.0, 20.0}) {
        for (int teeth = 6; teeth <= 40; ++teeth) {
            GearSpec spec = gear_a(1.0, teeth, 0.0, helix);
            spec.rack.addendum = 0.6;  // few teeth with so much shift would be pointed
            const double least = undercut_limit(spec).least_shift;
            spec.shift = least + 1e-6;
            EXPECT_FALSE(profile_for(spec).undercut) << named(spec);
            spec.shift = least - 1e-6;
            EXPECT_TRUE(profile_for(spec).undercut) << named(spec);
        }
    }
}

TEST(Undercut, TakesTheLowerPartOfTheInvolute) {
    const ToothProfile profile = profile_for(gear_a(1.0, 9, 0.0));
    EXPECT_TRUE(profile.undercut);
    EXPECT_GT(profile.inner_form_diameter_mm(), profile.sizes.base_diameter_mm);
    // Narrower below the form circle than above it.
    const Outline tooth = open_tooth(profile, 1e-4);
    const double form = profile.inner_form_diameter_mm() / 2.0;
    EXPECT_LT(*upper_angle_at(tooth, form - 0.1), *upper_angle_at(tooth, form + 0.01));
}

constexpr std::size_t kCornerPoints = 60;

// The half tooth of the rack that cuts the space above +X, in the transverse plane: from its middle round the corner
// and up the flank that makes the tooth's upper flank. `across` from the middle of the rack tooth, `height` above the
// pitch line.
Outline rack_half_tooth(const GearSizes& sizes) {
    const GearSpec& spec = sizes.spec;
    const double m = spec.module_mm;
    const double cosine = std::cos(spec.helix_angle_rad);
    const double angle = spec.rack.pressure_angle_rad;
    const double radius = spec.rack.root_radius * m;
    const double bottom = -(spec.rack.dedendum - spec.shift) * m;
    const double half_at_pitch = (kPi * m / cosine - sizes.pitch_thickness_mm) / 2.0;
    // In the normal section the corner's circle touches the bottom line and the flank.
    const double centre_height = bottom + radius;
    const double centre_across = half_at_pitch * cosine + centre_height * std::tan(angle) - radius / std::cos(angle);
    Outline points;
    for (std::size_t i = 0; i <= kCornerPoints; ++i) {
        const double phi = (kPi / 2 - angle) * static_cast<double>(i) / kCornerPoints;
        points.push_back({(centre_across + radius * std::sin(phi)) / cosine, centre_height - radius * std::cos(phi)});
    }
    const double top = (spec.rack.addendum + spec.shift + 0.2) * m;
    for (int i = 1; i <= 120; ++i) {
        const double height = points[kCornerPoints].y_mm + (top - points[kCornerPoints].y_mm) * i / 120;
        points.push_back({half_at_pitch + height * std::tan(angle) / cosine, height});
    }
    return points;
}

// Where the rack's point stands in the gear's frame when the gear has rolled by the angle.
PlanePoint rolled(const GearSizes& sizes, const PlanePoint& on_rack, double roll_rad) {
    const double pitch_radius = sizes.pitch_diameter_mm / 2.0;
    const PlanePoint at_gear{pitch_radius + on_rack.y_mm, -(on_rack.x_mm - pitch_radius * roll_rad)};
    return turned(at_gear, kPi / sizes.spec.teeth - roll_rad);
}

// The tooth's metal: its outline and the axis.
Outline metal(const ToothProfile& profile, double tolerance_mm) {
    Outline closed = open_tooth(profile, tolerance_mm);
    closed.push_back({0.0, 0.0});
    return closed;
}

TEST(ExternalProfile, IsTheEnvelopeOfItsRollingRack) {
    for (const GearSpec& spec : various_gears()) {
        if (spec.internal) continue;
        const ToothProfile profile = profile_for(spec);
        const double tolerance_mm = 1e-4 * spec.module_mm;
        const Outline tooth = open_tooth(profile, tolerance_mm);
        const Outline solid = metal(profile, tolerance_mm);
        const Outline rack = rack_half_tooth(profile.sizes);
        const double most_roll = std::min(1.2, 8.0 * spec.module_mm / profile.sizes.pitch_diameter_mm * 2.0);
        double deepest = 0.0;
        std::vector<double> nearest(tooth.size(), 1e9);
        constexpr int kSteps = 240;
        for (int s = -kSteps; s <= kSteps; ++s) {
            Outline at_gear;
            for (const PlanePoint& p : rack) at_gear.push_back(rolled(profile.sizes, p, most_roll * s / kSteps));
            for (const PlanePoint& p : at_gear)
                if (std::hypot(p.x_mm, p.y_mm) < profile.sizes.tip_diameter_mm / 2.0 && is_inside(p, solid))
                    deepest = std::max(deepest, distance_to(p, tooth));
            for (std::size_t i = 0; i < tooth.size(); ++i)
                nearest[i] = std::min(nearest[i], distance_to(tooth[i], at_gear));
        }
        EXPECT_LE(deepest, 1.5 * tolerance_mm) << named(spec);
        // Every point of flank and fillet above +X was touched; between two steps the rack passes by a little.
        const double tip = profile.sizes.tip_diameter_mm / 2.0 - 1e-9;
        const double root = profile.sizes.root_diameter_mm / 2.0 + 1e-9;
        for (std::size_t i = 0; i < tooth.size(); ++i) {
            const double radius = std::hypot(tooth[i].x_mm, tooth[i].y_mm);
            if (tooth[i].y_mm <= 0.0 || radius > tip || radius < root) continue;
            EXPECT_LE(nearest[i], 1e-3 * spec.module_mm) << named(spec) << " at radius " << radius;
        }
    }
}

TEST(ExternalProfile, LeavesTheBacklashAllAlongAThirdRack) {
    // A thinned gear against the rack that cuts full teeth: half of the thinning, along the normal, for as long as
    // their flanks face each other. Two gears that both fit one rack fit each other.
    for (const GearSpec& full : {gear_a(2.0, 24, 0.0), gear_a(2.0, 31, 0.35), gear_a(1.0, 60, -0.2, 15.0)}) {
        const GearSpec spec = thinned(full, 0.1);
        const ToothProfile profile = profile_for(spec);
        const GearSizes rack_of = sizes_of(full);
        const double tolerance_mm = 1e-5 * spec.module_mm;
        const Outline tooth = open_tooth(profile, tolerance_mm);
        const Outline rack = rack_half_tooth(rack_of);
        const double expected = 0.05 * std::cos(rack_of.transverse_angle_rad);
        // Contact at the middle of the rack's flank, half a module to either side.
        const double sine = std::sin(rack_of.transverse_angle_rad);
        const double cosine = std::cos(rack_of.transverse_angle_rad);
        const double space_half = (kPi * rack_of.transverse_module_mm - rack_of.pitch_thickness_mm) / 2.0;
        for (const double height : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
            // The rack's point at this height touches when it lies on the line of action, at height / tan(angle) beside
            // the pitch point.
            const double h = (height + spec.shift) * spec.module_mm;
            const double across = space_half + h * sine / cosine;
            const double roll = (across + h * cosine / sine) / (rack_of.pitch_diameter_mm / 2.0);
            double gap = 1e9;
            // The straight flank; the corner touches the root, which thinning leaves alone.
            for (std::size_t i = kCornerPoints; i < rack.size(); ++i) {
                const PlanePoint at_gear = rolled(rack_of, rack[i], roll);
                EXPECT_FALSE(is_inside(at_gear, metal(profile, tolerance_mm))) << named(spec);
                gap = std::min(gap, distance_to(at_gear, tooth));
            }
            EXPECT_NEAR(gap, expected, 1e-4 * spec.module_mm) << named(spec) << " at " << height;
        }
    }
}

ProfileFault fault_of(const GearSpec& spec) {
    const ProfileResult result = profile_of(sizes_of(spec));
    EXPECT_FALSE(result.profile) << named(spec);
    return result.fault;
}

TEST(ProfileFault, NamesWhatStopsATooth) {
    EXPECT_EQ(fault_of(gear_a(1.0, 8, 0.9)), ProfileFault::pointed_before_tip);
    EXPECT_EQ(fault_of(thinned(gear_a(1.0, 20, 0.0), 5.0)), ProfileFault::pointed_before_tip);
    EXPECT_EQ(fault_of(gear_a(1.0, 3, -1.0)), ProfileFault::root_inside_axis);
    EXPECT_EQ(fault_of(gear_a(1.0, 5, -0.7)), ProfileFault::cut_off);
    EXPECT_EQ(fault_of(gear_a(1.0, 20, -5.0)), ProfileFault::tip_below_fillet);
    GearSpec negative = gear_a(1.0, 20, 0.0);
    negative.rack.root_radius = -0.1;
    EXPECT_EQ(fault_of(negative), ProfileFault::negative_fillet);
    negative.internal = true;
    EXPECT_EQ(fault_of(negative), ProfileFault::negative_fillet);
    GearSpec wide = gear_a(1.0, 20, 0.0);
    wide.rack.root_radius = 0.6;
    EXPECT_EQ(fault_of(wide), ProfileFault::no_room_at_root);
    EXPECT_EQ(fault_of(ring_a(1.0, 30, 4.0)), ProfileFault::no_room_at_root);
    EXPECT_EQ(fault_of(ring_a(1.0, 60, -5.0)), ProfileFault::tip_inside_base);
}

TEST(ProfileFault, OrAProfileOfNumbersForAnyTooth) {
    Dice dice(3);
    int profiles = 0;
    for (int i = 0; i < 5000; ++i) {
        GearSpec spec = gear_a(1.0, dice.between(3, 60), dice.between(-50, 50) / 10.0, dice.chance(50) ? 0.0 : 25.0);
        spec.internal = dice.chance(30);
        spec.rack.root_radius = dice.between(-1, 6) / 10.0;
        spec.rack.dedendum = dice.between(5, 16) / 10.0;
        spec.thinning_mm = dice.chance(50) ? 0.0 : dice.between(0, 40) / 10.0;
        const ProfileResult result = profile_of(sizes_of(spec));
        if (!result.profile) continue;
        ++profiles;
        const Outline tooth = open_tooth(*result.profile, 0.001);
        for (const PlanePoint& p : tooth) ASSERT_TRUE(std::isfinite(p.x_mm) && std::isfinite(p.y_mm)) << named(spec);
        EXPECT_FALSE(crosses_itself(metal(*result.profile, 0.001))) << named(spec);
    }
    EXPECT_GT(profiles, 500);
}

}  // namespace
}  // namespace couplet
