#include "solid/wall.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solid/solid_measure.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

Contour unit_square(bool hole) {
    Contour square = hull_contour(std::vector<Hole>{{{1, 1}, 0}, {{-1, 1}, 0}, {{-1, -1}, 0}, {{1, -1}, 0}}, 1.0);
    if (!hole) return square;
    square.hole = true;
    for (ContourPoint& p : square.points) p = {p.at, {-p.before.x_mm, -p.before.y_mm}, {-p.after.x_mm, -p.after.y_mm}};
    return square;
}

TEST(Wall, OfASquareHasItsAreaAndFacesOutwards) {
    for (const bool hole : {false, true}) {
        Solid solid;
        add_wall(solid, unit_square(hole), {1.0, 4.0});
        EXPECT_NEAR(area_mm2(solid, [](const SolidVertex&) { return true; }), 4 * 2.0 * 3.0, 1e-5);
        EXPECT_NEAR(worst_facing(solid), 1.0, 1e-6);
        EXPECT_EQ(solid.triangles.size(), 8U);
    }
}

TEST(Wall, EndsWhereItsFacesBegin) {
    Solid solid;
    const WallEnds ends = add_wall(solid, unit_square(false), {1.0, 4.0, 0.25, 0.0});
    for (const Position& p : ends.bottom) EXPECT_EQ(std::abs(p[0]), 0.75F);
    for (const Position& p : ends.bottom) EXPECT_EQ(p[2], 1.0F);
    for (const Position& p : ends.top) EXPECT_EQ(std::abs(p[0]), 1.0F);
    for (const Position& p : ends.top) EXPECT_EQ(p[2], 4.0F);
    // The chamfer slopes by 45 degrees, flat across.
    for (const SolidVertex& vertex : solid.vertices)
        if (vertex.normal[2] != 0.0F) {
            EXPECT_NEAR(vertex.normal[2], -std::sqrt(0.5F), 1e-6);
        }
    EXPECT_NEAR(worst_facing(solid), 1.0, 1e-6);
}

TEST(Wall, TwistsAboutTheAxisFromItsLevel) {
    Solid solid;
    const Contour disc = circle_contour({5.0, 0.0}, 1.0, 24, false);
    const WallEnds ends = add_wall(solid, disc, {0.0, 10.0}, {0.02, 2.5, 8});
    EXPECT_NEAR(std::atan2(ends.bottom[0][1], ends.bottom[0][0]), -0.05, 1e-6);
    EXPECT_NEAR(std::atan2(ends.top[0][1], ends.top[0][0]), 0.15, 1e-6);
}

TEST(Wall, NormalsStandSquareToATwistedSurface) {
    // On a steep twist, against the triangles: a normal left in the plane would be off by twist x radius = 0.5.
    Solid solid;
    add_wall(solid, circle_contour({8.0, 0.0}, 2.0, 200, false), {0.0, 10.0}, {0.05, 5.0, 200});
    EXPECT_GT(worst_facing(solid), 0.998);
}

TEST(Wall, KeepsItsVolumeWhenTwisted) {
    Solid straight;
    Solid twisted;
    add_wall(straight, circle_contour({8.0, 0.0}, 2.0, 60, false), {0.0, 10.0});
    add_wall(twisted, circle_contour({8.0, 0.0}, 2.0, 60, false), {0.0, 10.0}, {0.01, 5.0, 40});
    // Flat ends at z = 0 add nothing to the integral, those at the top their area times the height: alike in both.
    EXPECT_NEAR(volume_mm3(twisted), volume_mm3(straight), 1e-3 * kPi * 4.0 * 10.0);
}

}  // namespace
}  // namespace couplet
