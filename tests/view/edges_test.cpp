#include "view/edges.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "view/shown_scene.hpp"

namespace couplet {
namespace {

using Point = std::array<float, 3>;

double dot(const Point& a, const Point& b) {
    return static_cast<double>(a[0]) * b[0] + static_cast<double>(a[1]) * b[1] + static_cast<double>(a[2]) * b[2];
}

double length(const SolidEdge& edge) {
    const Point run = {edge.to_mm[0] - edge.from_mm[0], edge.to_mm[1] - edge.from_mm[1],
                       edge.to_mm[2] - edge.from_mm[2]};
    return std::sqrt(dot(run, run));
}

TEST(EdgesOf, ABoxAreItsTwelve) {
    const std::vector<SolidEdge> edges = edges_of(solid_of(BarShape{{1, 2, 3}, {11, 7, 6}, 0.0}, 0.1));
    ASSERT_EQ(edges.size(), 12U);
    std::map<long, int> lengths;
    for (const SolidEdge& edge : edges) {
        ++lengths[std::lround(length(edge))];
        EXPECT_NEAR(dot(edge.first_normal, edge.second_normal), 0.0, 1e-6);
        EXPECT_NEAR(dot(edge.first_normal, edge.first_normal), 1.0, 1e-6);
        EXPECT_NEAR(dot(edge.second_normal, edge.second_normal), 1.0, 1e-6);
    }
    EXPECT_EQ(lengths, (std::map<long, int>{{10, 4}, {5, 4}, {3, 4}}));
}

// A finely rounded side has no edges; the two rims are circles.
TEST(EdgesOf, ARoundBarAreItsRims) {
    const std::vector<SolidEdge> edges =
        edges_of(solid_of(TurnedShape{{{0, 0}, {10, 0}, {10, 30}, {0, 30}}, 0.0}, 0.0005));
    double around = 0.0;
    for (const SolidEdge& edge : edges) {
        EXPECT_EQ(edge.from_mm[2], edge.to_mm[2]);
        EXPECT_NEAR(std::hypot(edge.from_mm[0], edge.from_mm[1]), 10.0, 1e-3);
        around += length(edge);
    }
    EXPECT_NEAR(around, 2 * 2 * std::numbers::pi * 10.0, 0.1);
}

TEST(EdgesOf, AToothedWheelRunUpEachTooth) {
    const ShownScene scene = shown_scene("harbour_capstan");
    const Shape& sharp = (*scene.stage.shapes[4])[0];
    const auto& gear = std::get<GearShape>(sharp);
    std::size_t upright = 0;
    for (const SolidEdge& edge : edges_of(solid_of(sharp, 0.01))) {
        const double radius = std::hypot(edge.from_mm[0], edge.from_mm[1]);
        const bool along = edge.from_mm[0] == edge.to_mm[0] && edge.from_mm[1] == edge.to_mm[1];
        if (along && std::abs(radius - 0.5 * gear.profile.sizes.tip_diameter_mm) < 1e-3) ++upright;
    }
    EXPECT_EQ(upright, 2U * static_cast<std::size_t>(gear.profile.sizes.spec.teeth)) << "both corners of every tip";
}

TEST(EdgesOf, NothingAreNone) {
    EXPECT_TRUE(edges_of(Solid{}).empty());
}

}  // namespace
}  // namespace couplet
