#include "solid/holes.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solid/solid_measure.hpp"

namespace couplet {
namespace {

constexpr PlanePoint kMiddle{0.0, 0.0};

TEST(HoleCircle, SpacesItsHolesFromTheFirstOn) {
    const std::vector<Hole> holes = hole_circle(4, 5.0, 40.0, std::numbers::pi / 4);
    ASSERT_EQ(holes.size(), 4U);
    EXPECT_NEAR(holes[0].centre.x_mm, 20.0 * std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(holes[1].centre.x_mm, -20.0 * std::sqrt(0.5), 1e-12);
    EXPECT_EQ(holes[2].diameter_mm, 5.0);
    EXPECT_TRUE(hole_circle(-3, 5.0, 40.0, 0.0).empty());
    EXPECT_TRUE(hole_circle(4, 0.0, 40.0, 0.0).empty());
}

TEST(HoleCircle, FindsCornersOfACircleOnBothSidesOfEachHole) {
    EXPECT_EQ(corners_for_holes(6), 12);
    EXPECT_EQ(corners_for_holes(0), 1);
    EXPECT_EQ(corners_for_holes(-2), 1);
}

TEST(Holes, AreMadeWhereBothFacesHaveRoomAndOpenBoth) {
    const Loop outer = placed(circle_contour(kMiddle, 30.0, 96, false), 0.0, 0.0);
    const Loop inner = placed(circle_contour(kMiddle, 12.0, 48, true), 0.0, 0.0);
    const Loop top_outer = placed(circle_contour(kMiddle, 30.0, 96, false), 5.0, 0.0);
    // On top the bore is wider: there only the holes farther out have room.
    const Loop top_inner = placed(circle_contour(kMiddle, 17.0, 48, true), 5.0, 0.0);
    const std::vector<Hole> holes{{{20.0, 0.0}, 8.0}, {{-23.0, 0.0}, 8.0}};
    Solid solid;
    const HoleOpenings openings =
        add_holes(solid, holes, FaceBand(outer, inner, kMiddle), FaceBand(top_outer, top_inner, kMiddle), 0.001);
    ASSERT_EQ(openings.bottom.size(), 1U);
    ASSERT_EQ(openings.top.size(), 1U);
    EXPECT_EQ(openings.bottom[0].centre.x_mm, -23.0);
    EXPECT_EQ(openings.bottom[0].edge[0][2], 0.0F);
    EXPECT_EQ(openings.top[0].edge[0][2], 5.0F);
    EXPECT_NEAR(area_mm2(solid, [](const SolidVertex&) { return true; }), std::numbers::pi * 8.0 * 5.0, 0.1);
    // The wall looks into the hole.
    EXPECT_GT(worst_facing(solid), 0.99);
    for (const SolidVertex& vertex : solid.vertices)
        EXPECT_LT((vertex.position_mm[0] + 23.0F) * vertex.normal[0] + vertex.position_mm[1] * vertex.normal[1], 0.0F);
}

}  // namespace
}  // namespace couplet
