#include "place/layout.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// Axes of members 0, 1, ... on the frame with meshes (first, second, distance).
struct Asked {
    int first;
    int second;
    double distance_mm;
};

struct Laid {
    CarrierLayout layout;
    std::vector<double> directions;
    std::vector<Finding> findings;
};

Laid laid(const Train& train, const std::vector<Asked>& meshes) {
    Laid result;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
        LaidAxis& axis = result.layout.axes.emplace_back();
        axis.members = {{m}};
        axis.copies = train.members[static_cast<std::size_t>(m)].copies;
        axis.reach_mm = 1.0;
    }
    for (const Asked& mesh : meshes)
        result.layout.meshes.push_back({{}, mesh.first + 1, mesh.second + 1, mesh.distance_mm, false, {}});
    lay_out(train, result.layout, result.directions, result.findings);
    return result;
}

Train three_members() {
    return train_from("a 20 x b 20; b 20 x c 20");
}

TEST(Layout, ClosesATriangleCounterClockwise) {
    // 3, 4, 5: the right angle is at b.
    const Laid result = laid(three_members(), {{0, 1, 3.0}, {1, 2, 4.0}, {0, 2, 5.0}});
    const PlanePoint c = result.layout.axes[3].position_mm;
    EXPECT_NEAR(c.x_mm, 3.0, 1e-12);
    EXPECT_NEAR(c.y_mm, 4.0, 1e-12);
    EXPECT_TRUE(result.findings.empty());
    // The right angle is exact, the other two are symbols.
    EXPECT_EQ(result.layout.meshes[1].direction, exact_angle(Ratio(1, 4)));
    EXPECT_FALSE(result.layout.meshes[2].direction.is_exact());
}

TEST(Layout, KnowsTheAnglesOfAnEquilateralTriangle) {
    const Laid result = laid(three_members(), {{0, 1, 2.0}, {1, 2, 2.0}, {0, 2, 2.0}});
    EXPECT_EQ(result.layout.meshes[2].direction, exact_angle(Ratio(1, 6)));
    EXPECT_EQ(result.layout.meshes[1].direction, exact_angle(Ratio(1, 3)));
    EXPECT_TRUE(result.directions.empty());
}

TEST(Layout, ReportsATriangleThatCannotClose) {
    const Laid result = laid(three_members(), {{0, 1, 1.0}, {1, 2, 1.0}, {0, 2, 5.0}});
    ASSERT_EQ(result.findings.size(), 1U);
    EXPECT_EQ(result.findings[0].rule, "triangle of axes");
    EXPECT_TRUE(std::isfinite(result.layout.axes[3].position_mm.x_mm));
}

TEST(Layout, PutsStrangersBesideEachOther) {
    const Laid result = laid(three_members(), {{0, 1, 3.0}});
    // The pair reaches to x = 4; the third, of radius 1, stands clear of that.
    EXPECT_GT(result.layout.axes[3].position_mm.x_mm - 1.0, 4.0);
    EXPECT_DOUBLE_EQ(result.layout.axes[1].position_mm.x_mm, 0.0);
}

TEST(Layout, ReachesToItsFarthestPart) {
    const Laid result = laid(three_members(), {{0, 1, 3.0}, {1, 2, 4.0}});
    EXPECT_DOUBLE_EQ(reach_of(result.layout), 8.0);
    EXPECT_DOUBLE_EQ(position_of(three_members(), result.layout, 3, 0).x_mm, 7.0);
}

}  // namespace
}  // namespace couplet
