#include "place/outline.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "support/dice.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

ToothProfile profile(int teeth, bool internal) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.internal = internal;
    spec.module_mm = 2.0;
    spec.rack = iso_53_rack('A').value();
    return profile_of(sizes_of(spec)).profile.value();
}

std::vector<Edge> all_edges(const ToothOutline& outline) {
    std::vector<Edge> edges;
    outline.add_edges(edges, {0, 0}, 0.0, 0.0, kTurn, [](const PlanePoint&) { return true; });
    return edges;
}

// Even-odd rule over the whole outline.
bool inside_by_crossings(const std::vector<Edge>& edges, const PlanePoint& p) {
    bool inside = false;
    for (const Edge& edge : edges) {
        if ((edge.from.y_mm > p.y_mm) == (edge.to.y_mm > p.y_mm)) continue;
        const double part = (p.y_mm - edge.from.y_mm) / (edge.to.y_mm - edge.from.y_mm);
        if (p.x_mm < edge.from.x_mm + part * (edge.to.x_mm - edge.from.x_mm)) inside = !inside;
    }
    return inside;
}

TEST(Outline, TellsMetalFromSpaceAsTheWholePolygonDoes) {
    Dice dice(7);
    for (const bool internal : {false, true}) {
        const ToothOutline outline(profile(30, internal), 1e-4);
        std::vector<Edge> edges;
        outline.add_edges(edges, {0, 0}, 0.1, 0.0, kTurn, [](const PlanePoint&) { return true; });
        int metal = 0;
        for (int trial = 0; trial < 2000; ++trial) {
            const double radius = dice.between(2700, 3300) / 100.0;
            const double turn = dice.between(0, 359999) / 1000.0 * kTurn / 360.0;
            const PlanePoint p{radius * std::cos(turn), radius * std::sin(turn)};
            double nearest = 1.0;
            for (const Edge& edge : edges) nearest = std::min(nearest, distance_to_edge(p, edge));
            if (nearest < 1e-3) continue;
            // Inside the ring's outline there is space.
            EXPECT_EQ(outline.is_metal(p, 0.1), inside_by_crossings(edges, p) != internal);
            metal += outline.is_metal(p, 0.1) ? 1 : 0;
        }
        EXPECT_GT(metal, 300);
    }
}

TEST(Outline, KeepsTheTeethNearTheDirection) {
    const ToothOutline outline(profile(30, false), 1e-3);
    std::vector<Edge> near;
    outline.add_edges(near, {0, 0}, 0.0, 0.0, kTurn / 30 * 1.2, [](const PlanePoint&) { return true; });
    EXPECT_EQ(near.size() * 10, all_edges(outline).size());
}

TEST(ClosestWithin, FindsWhatEveryPairOfEdgesWould) {
    Dice dice(3);
    const auto point = [&] { return PlanePoint{dice.between(0, 1000) / 10.0, dice.between(0, 1000) / 10.0}; };
    int found = 0;
    for (int trial = 0; trial < 300; ++trial) {
        const auto edges = [&] {
            std::vector<Edge> made;
            for (int i = 0; i < 6; ++i) {
                const PlanePoint from = point();
                made.push_back(
                    {from, {from.x_mm + dice.between(-30, 30) / 10.0, from.y_mm + dice.between(-30, 30) / 10.0}});
            }
            return made;
        };
        std::vector<Edge> a = edges();
        std::vector<Edge> b = edges();
        double nearest = 1e9;
        for (const Edge& one : a)
            for (const Edge& other : b)
                nearest = std::min({nearest, distance_to_edge(one.from, other), distance_to_edge(one.to, other),
                                    distance_to_edge(other.from, one), distance_to_edge(other.to, one)});
        const std::optional<ClosestEdges> closest = closest_within(a, b, 10.0);
        if (closest && closest->crossing) continue;
        ASSERT_EQ(closest.has_value(), nearest < 10.0);
        if (!closest) continue;
        EXPECT_DOUBLE_EQ(closest->distance_mm, nearest);
        ++found;
    }
    EXPECT_GT(found, 100);
}

TEST(ClosestWithin, SaysWhenEdgesCross) {
    std::vector<Edge> a = {{{0, 0}, {2, 2}}};
    std::vector<Edge> b = {{{0, 2}, {2, 0}}};
    EXPECT_TRUE(closest_within(a, b, 0.5).value().crossing);
}

TEST(DistanceToSorted, FindsTheClosestOfAllEdges) {
    const ToothOutline outline(profile(30, false), 1e-3);
    std::vector<Edge> edges = all_edges(outline);
    std::vector<Edge> far = {{{500, 0}, {501, 0}}};
    EXPECT_FALSE(closest_within(edges, far, 1.0));
    Dice dice(5);
    for (int trial = 0; trial < 300; ++trial) {
        const PlanePoint p{dice.between(-350, 350) / 10.0, dice.between(-350, 350) / 10.0};
        double nearest = 6.0;
        for (const Edge& edge : edges) nearest = std::min(nearest, distance_to_edge(p, edge));
        EXPECT_DOUBLE_EQ(distance_to_sorted(p, edges, longest_rise(edges), 6.0), nearest);
    }
}

TEST(DistanceToEdge, EndsAtTheEnds) {
    const Edge edge{{0, 0}, {4, 0}};
    EXPECT_DOUBLE_EQ(distance_to_edge({2, 3}, edge), 3.0);
    EXPECT_DOUBLE_EQ(distance_to_edge({7, 4}, edge), 5.0);
    EXPECT_DOUBLE_EQ(distance_to_edge({3, 4}, {{0, 0}, {0, 0}}), 5.0);
}

}  // namespace
}  // namespace couplet
