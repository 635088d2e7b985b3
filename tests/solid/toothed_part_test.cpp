#include "solid/toothed_part.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solid/solid_measure.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

Loop circle_at(double radius, double z) {
    return placed(circle_contour({0, 0}, radius, 60, true), z, 0.0);
}

TEST(ToothedPart, TwistsByItsHelixWithItsHand) {
    // Turning by face width x tan(beta) / (d/2) over the face, counter-clockwise going up for a right-handed gear, as
    // for a right-handed screw (ISO 1122-1, from memory).
    for (const double helix_deg : {20.0, -12.0}) {
        const ToothedPart part = toothed_part(profile_for(gear_a(2.0, 25, 0.0, helix_deg)), 30.0, 0.2, true, 0.02);
        Solid solid;
        const ToothedEnds ends = add_teeth(solid, part);
        const double pitch_radius = 25 * 2.0 / std::cos(helix_deg * kDegree) / 2.0;
        const double expected = 30.0 * std::tan(helix_deg * kDegree) / pitch_radius;
        EXPECT_NEAR(ends.top.turned_rad - ends.bottom.turned_rad, expected, 1e-12);
        EXPECT_NEAR(ends.top.turned_rad, -ends.bottom.turned_rad, 1e-12);
        const auto angle = [](const Position& p) {
            return std::atan2(static_cast<double>(p[1]), static_cast<double>(p[0]));
        };
        EXPECT_NEAR(std::remainder(angle(ends.top.teeth[3]) - angle(ends.bottom.teeth[3]), 2.0 * kPi), expected, 1e-5);
    }
}

TEST(ToothedPart, SlicesATwistIntoStepsOfEightDegreesAtMost) {
    const ToothedPart part = toothed_part(profile_for(gear_a(2.0, 25, 0.0, 30.0)), 40.0, 0.0, false, 100.0);
    const double twist_deg = 40.0 * part.twist.rad_per_mm / kDegree;
    EXPECT_GT(twist_deg, 40.0);
    EXPECT_EQ(part.twist.slices, static_cast<int>(std::ceil(twist_deg / 8.0)));
    EXPECT_EQ(toothed_part(profile_for(gear_a(2.0, 25, 0.0)), 40.0, 0.0, false, 0.001).twist.slices, 1);
}

TEST(ToothedPart, LessensAChamferThatItsTipsHaveNoRoomFor) {
    const ToothProfile profile = profile_for(gear_a(2.0, 12, 0.5));
    const ToothedPart part = toothed_part(profile, 30.0, 2.0, false, 0.01);
    EXPECT_GT(part.chamfer_mm, 0.0);
    EXPECT_LT(part.chamfer_mm, profile.sizes.tip_thickness_mm);
    EXPECT_EQ(toothed_part(profile, 30.0, 0.2, false, 0.01).chamfer_mm, 0.2);
}

TEST(ToothedFace, HasTheAreaOfTheOutlineLessTheBore) {
    for (const GearSpec& spec : {gear_a(3.0, 24, 0.0), gear_a(2.0, 9, 0.4), gear_a(2.0, 25, 0.0, 25.0)})
        for (const bool marked : {true, false})
            for (const bool up : {true, false}) {
                const ToothedPart part = toothed_part(profile_for(spec), 12.0, 0.0, marked, 0.01);
                Solid walls;
                const ToothedEnds ends = add_teeth(walls, part);
                Solid face;
                add_toothed_face(face, part, up ? ends.top : ends.bottom, up, circle_at(3.0, up ? 12.0 : 0.0));
                Outline outline;
                for (const ContourPoint& p : part.outline.contour.points) outline.push_back(p.at);
                const double hole = 60.0 / 2.0 * 9.0 * std::sin(2.0 * kPi / 60.0);
                EXPECT_NEAR(area_mm2(face, [](const SolidVertex&) { return true; }), area(outline) - hole, 0.01);
                EXPECT_GT(worst_facing(face), 0.999);
            }
}

TEST(ToothedFace, LeavesOutOneToothOfATurnedSurfaceForItsMark) {
    const ToothProfile profile = profile_for(gear_a(3.0, 24, 0.0));
    const ToothedPart part = toothed_part(profile, 12.0, 0.2, true, 0.02);
    ASSERT_TRUE(part.mark);
    Solid walls;
    const ToothedEnds ends = add_teeth(walls, part);
    Solid face;
    add_toothed_face(face, part, ends.top, true, circle_at(8.0, 12.0));
    const double length = part.mark->tip_mm - part.mark->root_mm;
    const double width = 2.0 * part.mark->half_width_mm;
    const double area = area_mm2(face, [](const SolidVertex& vertex) { return vertex.surface == Surface::mark; });
    EXPECT_NEAR(area, length * width + kPi * width * width / 4.0, 0.03 * area);
}

}  // namespace
}  // namespace couplet
