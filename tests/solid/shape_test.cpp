#include "solid/shape.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solid/shapes.hpp"
#include "solid/solid_measure.hpp"
#include "support/dice.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

std::vector<Shape> various_shapes() {
    std::vector<Shape> shapes{full_gear(), full_gear(20.0), full_ring(69), full_ring(30), full_ring(69, -15.0)};
    GearShape small = plain_gear(gear_a(3.0, 21, 0.0), 12.0);
    small.bore_mm = 8.0;
    small.key_width_mm = 2.0;
    small.chamfer_mm = 0.36;
    small.marked = true;
    shapes.emplace_back(small);
    for (int lobes = 1; lobes <= 6; ++lobes) shapes.emplace_back(lobed_plate(lobes));
    PlateShape arm;
    arm.lobes = {{{0, 0}, 20.0}, {{40, 0}, 12.0}};
    arm.holes = {{{0, 0}, 8.0}, {{40, 0}, 5.0}};
    arm.thickness_mm = 5.0;
    arm.chamfer_mm = 0.4;
    shapes.emplace_back(arm);
    arm.holes = {{{40, 0}, 5.0}};
    shapes.emplace_back(arm);
    arm.lobes = {{{30, 5}, 20.0}, {{60, 5}, 20.0}};  // beside the axis
    arm.holes = {{{30, 5}, 8.0}, {{60, 5}, 8.0}};
    shapes.emplace_back(arm);
    shapes.emplace_back(TurnedShape{{{0, 0}, {9, 0}, {10, 1}, {10, 40}, {4, 40}, {4, 55}, {0, 55}}, 0.0});
    shapes.emplace_back(TurnedShape{{{3, 0}, {9, 0}, {10, 1}, {10, 40}, {3, 40}}, 6.0});
    shapes.emplace_back(TurnedShape{{{0, 0}, {10, 8}, {0, 16}}, 0.0});
    shapes.emplace_back(BarShape{{5, -2, 0}, {25, 2, 8}, 0.5});
    return shapes;
}

TEST(SolidOf, EveryShapeIsClosedAtEveryTolerance) {
    std::size_t index = 0;
    for (const Shape& shape : various_shapes()) {
        for (const double tolerance : {1e-9, 0.005, 0.02, 0.1, 0.5, 5.0, 1e3}) {
            if (tolerance < 1e-6 && index == 1) continue;  // twisted, that would be millions
            const Solid solid = solid_of(shape, tolerance);
            EXPECT_FALSE(solid.triangles.empty());
            EXPECT_TRUE(is_closed(solid)) << index << " at " << tolerance;
        }
        ++index;
    }
}

TEST(SolidOf, NormalsHaveUnitLengthAndAgreeWithTheWinding) {
    std::size_t index = 0;
    for (const Shape& shape : various_shapes()) {
        for (const double tolerance : {0.005, 0.02, 0.1, 0.5, 5.0}) {
            const Solid solid = solid_of(shape, tolerance);
            EXPECT_GT(worst_facing(solid), 0.25) << index << " at " << tolerance;
            for (const SolidVertex& vertex : solid.vertices)
                ASSERT_NEAR(dot3(normal_of(vertex), normal_of(vertex)), 1.0, 1e-5) << index;
        }
        ++index;
    }
}

TEST(SolidOf, FillsItsExtent) {
    for (const Shape& shape : various_shapes()) {
        const Extent extent = extent_of(shape);
        const std::array<double, 3> reach = reach_of(solid_of(shape, 0.002));
        EXPECT_NEAR(reach[0], extent.radius_mm, std::holds_alternative<BarShape>(shape) ? 0.6 : 0.01);
        EXPECT_NEAR(reach[1], extent.bottom_mm, 1e-5);
        EXPECT_NEAR(reach[2], extent.top_mm, 1e-5);
    }
}

TEST(GearSolid, HoldsItsOutlineTimesItsWidthLessItsBore) {
    for (const GearSpec& spec : {gear_a(3.0, 24, 0.0), gear_a(3.0, 9, 0.2), gear_a(1.0, 120, -0.3),
                                 gear_a(2.0, 31, 0.0, 22.0), gear_a(2.0, 17, 0.3, -35.0)}) {
        GearShape gear = plain_gear(spec, 12.0);
        gear.bore_mm = 5.0;
        const Outline outline = gear_polygon(gear.profile, 1e-4);
        const double exact = (area(outline) - kPi * 2.5 * 2.5) * 12.0;
        for (const double tolerance : {0.001, 0.01}) {
            // Chords leave the outline by two thirds of the tolerance on the average, and by less than all of it.
            const double most = tolerance * (perimeter(outline) + kPi * 5.0) * 12.0;
            EXPECT_NEAR(volume_mm3(solid_of(gear, tolerance)), exact, most) << spec.teeth << " at " << tolerance;
        }
    }
}

TEST(GearSolid, LosesAPrismAlongEveryChamferedEdge) {
    GearShape gear = plain_gear(gear_a(3.0, 24, 0.0), 12.0);
    gear.bore_mm = 20.0;
    const double whole = volume_mm3(solid_of(gear, 0.002));
    gear.chamfer_mm = 0.3;
    const double edges = 2.0 * (perimeter(gear_polygon(gear.profile, 1e-3)) + kPi * 20.0);
    EXPECT_NEAR(whole - volume_mm3(solid_of(gear, 0.002)), edges * 0.3 * 0.3 / 2.0, 0.1 * edges * 0.3 * 0.3 / 2.0);
}

TEST(GearSolid, HasItsWebHolesAndKeyway) {
    GearShape gear = full_gear();
    gear.chamfer_mm = 0.0;
    const double tolerance = 0.001;
    const double hub = 17.0 * 17.0 * kPi;
    const double rim = 75.0 * 75.0 * kPi;
    const double holes = 6 * 12.5 * 12.5 * kPi;
    // The keyway: its rectangle from the chord on, less the segment over the chord. Derived.
    const double half_angle = std::asin(0.25);
    const double key =
        5.0 * (12.5 - 10.0 * std::cos(half_angle)) - 100.0 * (half_angle - std::sin(half_angle) * std::cos(half_angle));
    const Outline outline = gear_polygon(gear.profile, 1e-4);
    const double exact = (area(outline) - kPi * 100.0 - key) * 20.0 - (rim - hub) * 11.0 - holes * 9.0;
    EXPECT_NEAR(volume_mm3(solid_of(gear, tolerance)), exact,
                tolerance * (perimeter(outline) * 20.0 + kPi * (20.0 * 20.0 + 184.0 * 20.0 + 150.0 * 9.0)));
}

TEST(RingSolid, HoldsItsRimLessItsSpacesAndBolts) {
    for (const double helix_deg : {0.0, 15.0}) {
        RingShape ring = full_ring(69, helix_deg);
        ring.chamfer_mm = 0.0;
        const Outline inside = gear_polygon(ring.profile, 1e-4);
        const double exact =
            (kPi * ring.outside_mm * ring.outside_mm / 4.0 - area(inside) - 8 * kPi * 1.2 * 1.2) * 12.0;
        const double most = 0.002 * (perimeter(inside) + kPi * (ring.outside_mm + 8 * 2.4)) * 12.0;
        EXPECT_NEAR(volume_mm3(solid_of(ring, 0.002)), exact, most);
    }
}

TEST(PlateSolid, HoldsItsHullLessItsHoles) {
    PlateShape plate = lobed_plate(3);
    plate.chamfer_mm = 0.0;
    // A triangle widened by r: area + perimeter r + pi r^2 (Steiner's formula; any text).
    const double side = 67.0 * std::sqrt(3.0);
    const double hull = side * side * std::sqrt(3.0) / 4.0 + 3.0 * side * 15.0 + kPi * 225.0;
    EXPECT_NEAR(volume_mm3(solid_of(plate, 1e-4)), (hull - kPi * (3 * 25.0 + 100.0)) * 6.0, 1.0);
}

TEST(TurnedSolid, HoldsWhatPappusSays) {
    // Area times the way of its centroid (Pappus; any text): a triangle with corners at radii 3, 9 and 6, height 12.
    const TurnedShape ring{{{3, 0}, {9, 0}, {6, 12}}, 0.0};
    EXPECT_NEAR(volume_mm3(solid_of(ring, 1e-5)), 6.0 * 12.0 / 2.0 * 2.0 * kPi * 6.0, 0.02);
    // Frustum on a cylinder with a bore.
    const TurnedShape tube{{{3, 0}, {8, 0}, {8, 10}, {5, 16}, {3, 16}}, 6.0};
    const double frustum = kPi * 6.0 / 3.0 * (64.0 + 40.0 + 25.0);
    EXPECT_NEAR(volume_mm3(solid_of(tube, 1e-5)), kPi * 64.0 * 10.0 + frustum - kPi * 9.0 * 16.0, 0.05);
}

TEST(BarSolid, HoldsItsBoxLessItsEdges) {
    EXPECT_NEAR(volume_mm3(solid_of(BarShape{{25, 2, 8}, {5, -2, 0}, 0.0}, 0.01)), 20.0 * 4.0 * 8.0, 1e-3);
    // Twelve prisms of section c^2 / 2; at each of the eight corners three of them run into each other. What a corner
    // cube of side c keeps is where all three pairs of distances to its sides add up to more than c: a quarter.
    const double c = 0.5;
    const double prisms = 4.0 * (19.0 + 3.0 + 7.0) * c * c / 2.0;
    const double corners = 8.0 * 0.75 * c * c * c;
    EXPECT_LT(volume_mm3(solid_of(BarShape{{5, -2, 0}, {25, 2, 8}, c}, 0.01)), 640.0 - prisms - corners);
    EXPECT_GT(volume_mm3(solid_of(BarShape{{5, -2, 0}, {25, 2, 8}, c}, 0.01)), 640.0 - prisms - 8.0 * c * c * c);
}

// Where a point of the wall stands in the section at half of the face width.
PlanePoint untwisted(const GearShape& gear, const Point3& p) {
    const GearSizes& sizes = gear.profile.sizes;
    const double per_mm = std::tan(sizes.spec.helix_angle_rad) / (sizes.pitch_diameter_mm / 2.0);
    return turned({p[0], p[1]}, -per_mm * (p[2] - gear.face_width_mm / 2.0));
}

TEST(GearSolid, KeepsItsWallWithinTheToleranceOfTheTrueTeeth) {
    for (const double helix_deg : {0.0, 25.0, -40.0}) {
        const GearShape gear = plain_gear(gear_a(2.0, 19, 0.1, helix_deg), 25.0);
        for (const double tolerance : {0.005, 0.03}) {
            const Solid solid = solid_of(gear, tolerance);
            Outline teeth = gear_polygon(gear.profile, 1e-4);
            teeth.push_back(teeth.front());
            double farthest_corner = 0.0;
            double farthest_middle = 0.0;
            for (std::size_t i = 0; i < solid.triangles.size(); ++i) {
                if (solid.vertices[solid.triangles[i][0]].surface != Surface::ground || i % 7 != 0) continue;
                const Triangle3 t = corners_of(solid, i);
                for (std::size_t k = 0; k < 3; ++k) {
                    const Point3& a = t[k];
                    const Point3& b = t[(k + 1) % 3];
                    const Point3 middle{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2};
                    farthest_corner = std::max(farthest_corner, distance_to(untwisted(gear, a), teeth));
                    farthest_middle = std::max(farthest_middle, distance_to(untwisted(gear, middle), teeth));
                }
            }
            EXPECT_LT(farthest_corner, 2e-4) << helix_deg;
            EXPECT_LT(farthest_middle, 1.5 * tolerance) << helix_deg << " at " << tolerance;
            EXPECT_GT(farthest_middle, 0.1 * tolerance) << helix_deg << " at " << tolerance;
        }
    }
}

TEST(ToothMark, IsCentredOnXAtHalfTheFaceWidthOfGearAndRing) {
    GearShape gear = full_gear();
    gear.profile = profile_for(gear_a(3.0, 60, 0.0, 20.0));
    RingShape ring = full_ring(69, 20.0);
    for (const Shape& shape : {Shape(gear), Shape(ring)}) {
        const Solid solid = solid_of(shape, 0.02);
        const PlanePoint below = mark_middle(solid, false);
        const PlanePoint above = mark_middle(solid, true);
        const double low = std::atan2(below.y_mm, below.x_mm);
        const double high = std::atan2(above.y_mm, above.x_mm);
        const auto [width, pitch_radius] =
            std::holds_alternative<GearShape>(shape)
                ? std::pair{gear.face_width_mm, gear.profile.sizes.pitch_diameter_mm / 2.0}
                : std::pair{ring.face_width_mm, ring.profile.sizes.pitch_diameter_mm / 2.0};
        // Right-handed: followed up, a tooth goes counter-clockwise.
        EXPECT_NEAR(high - low, width * std::tan(20.0 * kDegree) / pitch_radius, 1e-4);
        EXPECT_NEAR(high + low, 0.0, 1e-4);
    }
}

TEST(ToothMark, IsLargeEnoughToBeSeenAndOnlyWhereWanted) {
    const auto is_mark = [](const SolidVertex& vertex) { return vertex.surface == Surface::mark; };
    for (const int teeth : {9, 21, 60}) {
        GearShape gear = plain_gear(gear_a(3.0, teeth, teeth < 17 ? 0.3 : 0.0), 12.0);
        EXPECT_EQ(area_mm2(solid_of(gear, 0.02), is_mark), 0.0);
        gear.marked = true;
        // At least a quarter of a square module on either face.
        EXPECT_GT(area_mm2(solid_of(gear, 0.02), is_mark), 2.0 * 0.25 * 9.0) << teeth;
    }
    EXPECT_GT(area_mm2(solid_of(full_ring(69), 0.02), is_mark), 2.0 * 0.25 * 9.0);
}

TEST(SolidOf, SpendsTrianglesByTheTolerance) {
    GearShape wheel = plain_gear(gear_a(3.0, 24, 0.0), 12.0);
    wheel.chamfer_mm = 0.36;
    wheel.bore_mm = 10.0;
    wheel.marked = true;
    EXPECT_LT(solid_of(wheel, 0.02).triangles.size(), 8000U);
    EXPECT_LT(solid_of(wheel, 0.2).triangles.size(), 1100U);
    EXPECT_LT(solid_of(full_ring(69), 0.02).triangles.size(), 15000U);
    EXPECT_LT(solid_of(full_ring(69), 0.2).triangles.size(), 3000U);
}

TEST(SolidOf, LeavesOutWhatContradictsItself) {
    const auto volume = [](const GearShape& gear) {
        const Solid solid = solid_of(gear, 0.02);
        EXPECT_TRUE(is_closed(solid));
        EXPECT_GT(worst_facing(solid), 0.25);
        return volume_mm3(solid);
    };
    GearShape solid_disc = full_gear();
    solid_disc.web_mm = solid_disc.face_width_mm;
    GearShape gear = full_gear();
    gear.hub_mm = gear.rim_mm + 5.0;
    EXPECT_NEAR(volume(gear), volume(solid_disc), 1.0);
    gear = full_gear();
    gear.rim_mm = 500.0;
    EXPECT_NEAR(volume(gear), volume(solid_disc), 1.0);
    gear = full_gear();
    gear.hub_mm = gear.bore_mm;  // less than the keyway needs
    EXPECT_NEAR(volume(gear), volume(solid_disc), 1.0);

    GearShape no_holes = full_gear();
    no_holes.holes = 0;
    gear = full_gear();
    gear.hole_mm = 90.0;                                // wider than the web
    EXPECT_NEAR(volume(gear), volume(no_holes), 30.0);  // circles keep their corners for the holes
    gear.hole_mm = 25.0;
    gear.hole_circle_mm = 30.0;  // across the hub
    EXPECT_NEAR(volume(gear), volume(no_holes), 30.0);

    GearShape no_bore = full_gear();
    no_bore.bore_mm = 0.0;
    const double without = volume(no_bore);
    no_bore.bore_mm = 400.0;
    EXPECT_NEAR(volume(no_bore), without, 1e-6 * without);

    RingShape ring = full_ring(69);
    ring.bolt_mm = 50.0;
    EXPECT_TRUE(is_closed(solid_of(ring, 0.02)));
    ring.outside_mm = 0.0;
    EXPECT_TRUE(is_closed(solid_of(ring, 0.02)));
    EXPECT_GT(volume_mm3(solid_of(ring, 0.02)), 0.0);
}

// Any gear that has a profile, with any features, sensible or not.
Shape random_toothed(Dice& dice) {
    for (;;) {
        GearSpec spec = gear_a(dice.between(5, 60) / 10.0, dice.between(6, 200), dice.between(-6, 9) / 10.0,
                               dice.chance(40) ? dice.between(-350, 350) / 10.0 : 0.0);
        spec.internal = dice.chance(35);
        spec.rack = *iso_53_rack(dice.pick(std::vector<char>{'A', 'B', 'C', 'D'}));
        spec.thinning_mm = dice.between(0, 10) / 100.0;
        const ProfileResult profile = profile_of(sizes_of(spec));
        if (!profile.profile) continue;
        const double m = spec.module_mm;
        const double root = profile.profile->sizes.root_diameter_mm;
        const double width = m * dice.between(2, 120) / 10.0;
        const double chamfer = m * dice.between(0, 40) / 100.0;
        if (spec.internal)
            return RingShape{*profile.profile,
                             width,
                             chamfer,
                             root + m * dice.between(-10, 120) / 10.0,
                             dice.between(0, 16),
                             m * dice.between(0, 20) / 10.0,
                             root + m * dice.between(0, 80) / 10.0,
                             dice.chance(80)};
        const auto share_of_root = [&] { return root * dice.between(0, 110) / 100.0; };
        GearShape gear{*profile.profile, width, chamfer, share_of_root() / 2.0, m * dice.between(0, 20) / 10.0};
        gear.web_mm = width * dice.between(0, 11) / 10.0;
        gear.hub_mm = share_of_root();
        gear.rim_mm = share_of_root();
        gear.holes = dice.between(0, 9);
        gear.hole_mm = share_of_root() / 4.0;
        gear.hole_circle_mm = share_of_root();
        gear.marked = dice.chance(80);
        return gear;
    }
}

TEST(SolidOf, AnyToothedPartIsClosedAndFacesOutwards) {
    Dice dice(20);
    for (int round = 0; round < 400; ++round) {
        const Shape shape = random_toothed(dice);
        const double tolerance = dice.pick(std::vector<double>{0.003, 0.02, 0.1, 0.4, 2.0});
        const Solid solid = solid_of(shape, tolerance);
        ASSERT_TRUE(is_closed(solid)) << round << " at " << tolerance;
        EXPECT_GT(worst_facing(solid), 0.0) << round << " at " << tolerance;
    }
}

TEST(SolidOf, AnyPlainGearHoldsItsOutline) {
    Dice dice(21);
    for (int round = 0; round < 300; ++round) {
        Shape shape = random_toothed(dice);
        double exact = 0.0;
        double most = 0.0;
        const double tolerance = 0.01;
        if (auto* gear = std::get_if<GearShape>(&shape)) {
            *gear = {gear->profile, gear->face_width_mm};
            const Outline outline = gear_polygon(gear->profile, 1e-3);
            exact = area(outline) * gear->face_width_mm;
            most = 1.1 * tolerance * perimeter(outline) * gear->face_width_mm;
        } else if (auto* ring = std::get_if<RingShape>(&shape)) {
            *ring = {ring->profile, ring->face_width_mm};
            const double outside = 2.0 * extent_of(shape).radius_mm;
            const Outline outline = gear_polygon(ring->profile, 1e-3);
            exact = (kPi * outside * outside / 4.0 - area(outline)) * ring->face_width_mm;
            most = 1.1 * tolerance * (perimeter(outline) + kPi * outside) * ring->face_width_mm;
        }
        EXPECT_NEAR(volume_mm3(solid_of(shape, tolerance)), exact, most) << round;
    }
}

TEST(PlateSolid, OfAnyDiscsAndHolesIsClosed) {
    Dice dice(22);
    for (int round = 0; round < 300; ++round) {
        PlateShape plate;
        plate.thickness_mm = dice.between(1, 100) / 10.0;
        plate.chamfer_mm = dice.between(0, 30) / 10.0;
        for (int k = dice.between(1, 7); k > 0; --k)
            plate.lobes.push_back(
                {{dice.between(-60, 60) * 1.0, dice.between(-60, 60) * 1.0}, dice.between(1, 40) * 1.0});
        for (const Hole& lobe : plate.lobes)
            if (dice.chance(70)) plate.holes.push_back({lobe.centre, lobe.diameter_mm * dice.between(1, 12) / 10.0});
        const double tolerance = dice.pick(std::vector<double>{0.005, 0.05, 0.5, 5.0});
        const Solid solid = solid_of(plate, tolerance);
        ASSERT_TRUE(is_closed(solid)) << round << " at " << tolerance;
        EXPECT_GT(worst_facing(solid), 0.2) << round << " at " << tolerance;
    }
}

}  // namespace
}  // namespace couplet
