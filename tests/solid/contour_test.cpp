#include "solid/contour.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/dice.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

Outline outline_of(const Contour& contour) {
    Outline outline;
    for (const ContourPoint& p : contour.points) outline.push_back(p.at);
    return outline;
}

TEST(CircleSides, KeepTheChordWithinTheToleranceAndNeverFallBelowTwelve) {
    for (const double radius : {0.5, 10.0, 1000.0})
        for (const double tolerance : {0.001, 0.02, 5.0}) {
            const int sides = circle_sides(radius, tolerance);
            EXPECT_GE(sides, 12);
            EXPECT_LE(radius * (1.0 - std::cos(kPi / sides)), std::max(tolerance, radius * (1.0 - std::cos(kPi / 12))));
            if (sides > 12) {
                EXPECT_GT(radius * (1.0 - std::cos(kPi / (sides - 1))), tolerance);
            }
        }
    EXPECT_EQ(circle_sides(10.0, 0.02, 16) % 16, 0);
}

TEST(KeyedBore, IsTheCircleAndASlotHalfAsDeepAsWide) {
    const Contour bore = keyed_bore(10.0, 6.0, 1e-5);
    // What the slot adds to the circle: its rectangle from the chord on, less the segment over the chord. Derived.
    const double chord = std::sqrt(100.0 - 9.0);
    const double half_angle = std::asin(0.3);
    const double segment = 100.0 * (half_angle - std::sin(half_angle) * std::cos(half_angle));
    EXPECT_NEAR(area(outline_of(bore)), kPi * 100.0 + 6.0 * (13.0 - chord) - segment, 0.01);
    EXPECT_TRUE(bore.hole);
}

TEST(HullContour, OfOneDiscIsItsCircle) {
    const std::vector<Hole> disc{{{3.0, -2.0}, 8.0}};
    const Contour hull = hull_contour(disc, 0.001);
    EXPECT_EQ(hull.points.size(), static_cast<std::size_t>(circle_sides(4.0, 0.001)));
    for (const ContourPoint& p : hull.points) EXPECT_NEAR(std::hypot(p.at.x_mm - 3.0, p.at.y_mm + 2.0), 4.0, 1e-9);
}

TEST(HullContour, OfThreeEqualDiscsIsTheirTriangleWithAWideBorder) {
    // A convex body of area A and perimeter L widened by r has A + L r + pi r^2 (Steiner's formula; any text).
    std::vector<Hole> discs;
    for (int k = 0; k < 3; ++k) discs.push_back({turned({20.0, 0.0}, 2.0 * kPi * k / 3), 10.0});
    const double side = 20.0 * std::sqrt(3.0);
    EXPECT_NEAR(area(outline_of(hull_contour(discs, 1e-6))),
                side * side * std::sqrt(3.0) / 4.0 + 3.0 * side * 5.0 + kPi * 25.0, 1e-3);
}

TEST(HullContour, GoesStraightPastDiscsInARowAndDiscsWithin) {
    const std::vector<Hole> row{{{0.0, 0.0}, 6.0}, {{20.0, 0.0}, 6.0}, {{10.0, 0.0}, 6.0}, {{15.0, 1.0}, 1.0}};
    EXPECT_NEAR(area(outline_of(hull_contour(row, 1e-6))), 20.0 * 6.0 + kPi * 9.0, 1e-3);
}

TEST(HullContour, OfPointsIsTheirPolygonWithSharpCorners) {
    const std::vector<Hole> square{{{0, 0}, 0.0}, {{4, 0}, 0.0}, {{4, 4}, 0.0}, {{0, 4}, 0.0}, {{2, 2}, 0.0}};
    const Contour hull = hull_contour(square, 0.01);
    ASSERT_EQ(hull.points.size(), 4U);
    EXPECT_NEAR(area(outline_of(hull)), 16.0, 1e-12);
    for (const ContourPoint& p : hull.points) EXPECT_TRUE(p.is_sharp());
}

TEST(HullContour, HoldsEveryDiscAndIsConvexWhateverTheDiscs) {
    Dice dice(11);
    for (int round = 0; round < 300; ++round) {
        std::vector<Hole> discs;
        for (int k = dice.between(1, 9); k > 0; --k)
            discs.push_back({{dice.between(-50, 50) * 1.0, dice.between(-50, 50) * 1.0}, dice.between(1, 40) * 1.0});
        const Contour hull = hull_contour(discs, 0.001);
        const Outline outline = outline_of(hull);
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const PlanePoint& a = outline[i];
            const PlanePoint& b = outline[(i + 1) % outline.size()];
            const PlanePoint& c = outline[(i + 2) % outline.size()];
            const PlanePoint side{b.x_mm - a.x_mm, b.y_mm - a.y_mm};
            EXPECT_GT(cross(side, {c.x_mm - b.x_mm, c.y_mm - b.y_mm}), -1e-6) << round;
            for (const Hole& disc : discs)
                EXPECT_GT(cross(side, {disc.centre.x_mm - a.x_mm, disc.centre.y_mm - a.y_mm}) /
                              std::hypot(side.x_mm, side.y_mm),
                          disc.diameter_mm / 2.0 - 0.0011)
                    << round;
        }
        EXPECT_FALSE(crosses_itself(outline)) << round;
    }
}

TEST(Inset, LeavesADistanceToEveryLine) {
    const std::vector<Hole> discs{{{0, 0}, 10.0}, {{30, 0}, 16.0}, {{10, 25}, 0.0}};
    const Contour hull = hull_contour(discs, 0.001);
    Outline closed = outline_of(hull);
    closed.push_back(closed.front());
    for (const ContourPoint& p : inset(hull, 0.5).points) EXPECT_NEAR(distance_to(p.at, closed), 0.5, 0.002);
}

TEST(Inset, OfAHoleGoesOutwards) {
    for (const ContourPoint& p : inset(circle_contour({0, 0}, 5.0, 30, true), 0.5).points)
        EXPECT_NEAR(std::hypot(p.at.x_mm, p.at.y_mm), 5.5, 1e-12);
}

TEST(InsetWithRoom, StopsBeforeALineTurnsRound) {
    const Contour circle = circle_contour({0, 0}, 5.0, 30, false);
    EXPECT_EQ(inset_with_room(circle, 1.0), 1.0);
    const double most = inset_with_room(circle, 20.0);
    EXPECT_GT(most, 1.0);
    EXPECT_LT(most, 5.0);
}

TEST(Reach, IsOfTheFlatsAndOfTheCorners) {
    const Loop square =
        placed(hull_contour(std::vector<Hole>{{{1, 1}, 0}, {{-1, 1}, 0}, {{-1, -1}, 0}, {{1, -1}, 0}}, 1.0), 2.0, 0.0);
    EXPECT_NEAR(nearest_reach(square, {0, 0}), 1.0, 1e-6);
    EXPECT_NEAR(farthest_reach(square, {0, 0}), std::sqrt(2.0), 1e-6);
    EXPECT_EQ(square.front()[2], 2.0F);
}

}  // namespace
}  // namespace couplet
