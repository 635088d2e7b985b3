#include "solid/flat_face.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solid/solid_measure.hpp"
#include "support/dice.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr PlanePoint kMiddle{0.0, 0.0};

Loop circle(const PlanePoint& centre, double radius, int sides, double turned_rad = 0.0) {
    const Loop loop = placed(circle_contour({0, 0}, radius, sides, false), 0.0, turned_rad);
    Loop moved;
    for (const Position& p : loop)
        moved.push_back({p[0] + static_cast<float>(centre.x_mm), p[1] + static_cast<float>(centre.y_mm), p[2]});
    return moved;
}

double polygon_area(double radius, int sides) {
    return radius * radius * sides / 2.0 * std::sin(2.0 * kPi / sides);
}

// Facing alike everywhere, the triangles' areas add up to the face's only if they lie side by side.
void expect_face(const Solid& solid, double expected_area, bool up) {
    EXPECT_NEAR(area_mm2(solid, [](const SolidVertex&) { return true; }), expected_area, 1e-4 * expected_area);
    EXPECT_GT(worst_facing(solid), 0.999);
    for (const SolidVertex& vertex : solid.vertices) EXPECT_EQ(vertex.normal[2], up ? 1.0F : -1.0F);
}

TEST(FlatFace, FillsAStripBetweenMirroredSides) {
    for (const bool up : {true, false})
        for (const int sides : {4, 5, 12, 31}) {
            Solid solid;
            FlatFace face(solid, up, Surface::mark);
            face.fill_strip(face.add(circle(kMiddle, 3.0, sides)));
            expect_face(solid, polygon_area(3.0, sides), up);
            EXPECT_EQ(solid.triangles.size(), static_cast<std::size_t>(sides) - 2);
        }
}

TEST(FlatFace, FillsAFanToAPointOnItsLeft) {
    Solid solid;
    FlatFace face(solid, true, Surface::turned);
    const Chain round = face.add(circle(kMiddle, 3.0, 8));
    const Chain middle = face.add({{0.0F, 0.0F, 0.0F}});
    face.fill_fan(std::span(round).first(5), middle[0]);
    expect_face(solid, polygon_area(3.0, 8) / 2.0, true);
}

TEST(FlatFace, FillsBetweenChainsThatGoOnAlongADirection) {
    // Zigzags that no walk from side to side could fill; along +X, then turned.
    Dice dice(3);
    for (int round = 0; round < 300; ++round) {
        const double turn = dice.between(0, 359) * kPi / 180.0;
        double twice = 0.0;
        const auto chain = [&](double side) {
            std::vector<PlanePoint> points;
            double x = 0.5;
            for (int k = dice.between(2, 20); k > 0; --k, x += dice.between(1, 30) / 10.0)
                points.push_back({x, side * dice.between(1, 60) / 10.0});
            return points;
        };
        std::vector<PlanePoint> right = chain(-1.0);
        right.insert(right.begin(), {0.0, 0.0});
        const std::vector<PlanePoint> left = chain(1.0);
        right.push_back({std::max(left.back().x_mm, right.back().x_mm) + 1.0, 0.0});
        std::vector<PlanePoint> closed = right;
        closed.insert(closed.end(), left.rbegin(), left.rend());
        for (std::size_t i = 0; i < closed.size(); ++i) twice += cross(closed[i], closed[(i + 1) % closed.size()]);
        const auto loop_of = [&](const std::vector<PlanePoint>& points) {
            Loop loop;
            for (const PlanePoint& p : points) {
                const PlanePoint q = turned_by(p, turn);
                loop.push_back({static_cast<float>(q.x_mm), static_cast<float>(q.y_mm), 0.0F});
            }
            return loop;
        };
        Solid solid;
        FlatFace face(solid, round % 2 == 0, Surface::turned);
        const Chain on_right = face.add(loop_of(right));
        face.fill_monotone(on_right, face.add(loop_of(left)), direction_at(turn));
        expect_face(solid, twice / 2.0, round % 2 == 0);
        EXPECT_EQ(solid.triangles.size(), closed.size() - 2);
    }
}

TEST(FlatFace, FillsABandBetweenLoopsOfAnyCounts) {
    for (const int outer : {12, 17, 200})
        for (const int inner : {12, 31, 150})
            for (const double turn : {0.0, 0.3}) {
                Solid solid;
                FlatFace face(solid, true, Surface::turned);
                const Chain round = face.add(circle(kMiddle, 10.0, outer));
                face.fill_band(round, face.add(circle(kMiddle, 6.0, inner, turn)), kMiddle, {});
                expect_face(solid, polygon_area(10.0, outer) - polygon_area(6.0, inner), true);
                EXPECT_EQ(solid.triangles.size(), static_cast<std::size_t>(outer + inner));
            }
}

TEST(FlatFace, FillsADiscRoundASinglePoint) {
    Solid solid;
    FlatFace face(solid, true, Surface::turned);
    const Chain round = face.add(circle(kMiddle, 10.0, 20));
    face.fill_band(round, face.add({{0.0F, 0.0F, 0.0F}}), kMiddle, {});
    expect_face(solid, polygon_area(10.0, 20), true);
}

TEST(FlatFace, LeavesOpeningsOpen) {
    for (const int holes : {1, 2, 3, 8}) {
        const Loop outer = circle(kMiddle, 30.0, 96);
        const Loop inner = circle(kMiddle, 12.0, 48);
        FaceBand band(outer, inner, kMiddle);
        std::vector<Opening> openings;
        for (int k = 0; k < holes; ++k) {
            const PlanePoint direction = direction_at(0.2 + 2.0 * kPi * k / holes);
            const Hole hole{{21.0 * direction.x_mm, 21.0 * direction.y_mm}, 7.0};
            const auto sector = band.sector_round(hole, kPi / holes);
            ASSERT_TRUE(sector);
            band.take(*sector);
            openings.push_back({*sector, hole.centre, circle(hole.centre, 3.5, 16)});
        }
        Solid solid;
        FlatFace face(solid, false, Surface::turned);
        const Chain round = face.add(outer);
        face.fill_band(round, face.add(inner), kMiddle, openings);
        expect_face(solid, polygon_area(30.0, 96) - polygon_area(12.0, 48) - holes * polygon_area(3.5, 16), false);
    }
}

TEST(FlatFace, FillsWhatAnEvenWalkWouldFold) {
    // A coarse square round a fine circle off its middle: seen from the middle, corners and circle keep uneven step.
    Dice dice(5);
    for (int round = 0; round < 200; ++round) {
        Solid solid;
        FlatFace face(solid, true, Surface::turned);
        const int sides = dice.between(3, 60);
        const PlanePoint aside{dice.between(-25, 25) / 10.0, dice.between(-25, 25) / 10.0};
        const Chain corners = face.add(circle(kMiddle, 10.0, 4, dice.between(0, 90) * kPi / 180.0));
        face.fill_band(corners, face.add(circle(aside, 3.0, sides)), kMiddle, {});
        expect_face(solid, 200.0 - polygon_area(3.0, sides), true);
    }
}

TEST(FaceBand, HasNoSectorForAHoleThatTouchesALoop) {
    const Loop outer = circle(kMiddle, 30.0, 96);
    const Loop inner = circle(kMiddle, 12.0, 48);
    const FaceBand band(outer, inner, kMiddle);
    EXPECT_FALSE(band.sector_round({{27.0, 0.0}, 7.0}, 1.0));
    EXPECT_FALSE(band.sector_round({{15.0, 0.0}, 7.0}, 1.0));
    EXPECT_FALSE(band.sector_round({{21.0, 0.0}, 20.0}, 1.0));
    EXPECT_TRUE(band.sector_round({{21.0, 0.0}, 7.0}, 1.0));
    // Nor between cuts closer than the hole is wide.
    EXPECT_FALSE(band.sector_round({{21.0, 0.0}, 7.0}, 0.1));
}

TEST(FaceBand, GivesNoSectorTwice) {
    const Loop outer = circle(kMiddle, 30.0, 96);
    const Loop inner = circle(kMiddle, 12.0, 48);
    FaceBand band(outer, inner, kMiddle);
    const Hole hole{{21.0, 0.0}, 7.0};
    band.take(*band.sector_round(hole, 0.5));
    EXPECT_FALSE(band.sector_round(hole, 0.5));
    EXPECT_TRUE(band.sector_round({{-21.0, 0.0}, 7.0}, 0.5));
}

TEST(FaceBand, BoundsASectorCounterClockwise) {
    const Loop outer = circle(kMiddle, 30.0, 96);
    const Loop inner = circle(kMiddle, 12.0, 48);
    const FaceBand band(outer, inner, kMiddle);
    const std::vector<PlanePoint> boundary = band.boundary_of(*band.sector_round({{21.0, 0.0}, 7.0}, 0.5));
    double twice = 0.0;
    for (std::size_t i = 0; i < boundary.size(); ++i) twice += cross(boundary[i], boundary[(i + 1) % boundary.size()]);
    EXPECT_GT(twice, 0.0);
}

}  // namespace
}  // namespace couplet
