#include "solid/by_shape.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solid/shapes.hpp"

namespace couplet {
namespace {

TEST(Chamfer, IsLeftOutWhereTheToleranceAllowsIt) {
    EXPECT_EQ(chamfer_for(0.3, 10.0, 0.02), 0.3);
    EXPECT_EQ(chamfer_for(0.3, 10.0, 0.15), 0.0);
    EXPECT_EQ(chamfer_for(0.0, 10.0, 0.02), 0.0);
    EXPECT_EQ(chamfer_for(-1.0, 10.0, 0.02), 0.0);
}

TEST(Chamfer, LeavesMetalBetweenBothEdges) {
    EXPECT_LT(2.0 * chamfer_for(50.0, 10.0, 0.02), 10.0);
}

TEST(RingsOutside, IsItsOwnWhereTheTeethHaveARim) {
    RingShape ring = full_ring(69);
    EXPECT_EQ(outside_of(ring), ring.outside_mm);
    for (const double too_small : {0.0, ring.profile.sizes.root_diameter_mm, ring.profile.sizes.tip_diameter_mm}) {
        ring.outside_mm = too_small;
        EXPECT_GT(outside_of(ring), ring.profile.sizes.root_diameter_mm + 3.0);
    }
}

TEST(BarSolid, HasTwelveTrianglesOrTwentySixFaces) {
    BarShape bar{{1.0, -2.0, 0.0}, {11.0, 2.0, 6.0}, 0.0};
    EXPECT_EQ(bar_solid(bar, 0.01).triangles.size(), 12U);
    bar.chamfer_mm = 0.5;
    // 6 faces and 12 edges of two triangles, 8 corners of one.
    EXPECT_EQ(bar_solid(bar, 0.01).triangles.size(), 44U);
}

TEST(TurnedSolid, HasNoTrianglesOnItsAxis) {
    // A cylinder of 12 sides: two ends of 12 triangles, a side of 24.
    const TurnedShape pin{{{0.0, 0.0}, {2.0, 0.0}, {2.0, 9.0}, {0.0, 9.0}}, 0.0};
    EXPECT_EQ(turned_solid(pin, 10.0).triangles.size(), 48U);
}

TEST(Solids, AreEmptyWhereThereIsNoMetal) {
    EXPECT_TRUE(gear_solid({}, 0.01).triangles.empty());
    EXPECT_TRUE(ring_solid({}, 0.01).triangles.empty());
    EXPECT_TRUE(plate_solid({}, 0.01).triangles.empty());
    EXPECT_TRUE(turned_solid({}, 0.01).triangles.empty());
    EXPECT_TRUE(bar_solid({{0, 0, 0}, {1, 0, 1}, 0.1}, 0.01).triangles.empty());
    PlateShape thin = lobed_plate(3);
    thin.thickness_mm = 0.0;
    EXPECT_TRUE(plate_solid(thin, 0.01).triangles.empty());
    EXPECT_TRUE(turned_solid({{{0.0, 0.0}, {0.0, 9.0}, {0.0, 3.0}}, 0.0}, 0.01).triangles.empty());
}

}  // namespace
}  // namespace couplet
