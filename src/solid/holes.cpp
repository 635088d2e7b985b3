#include "solid/holes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

constexpr int kMostHoles = 180;

double direction_of(const Hole& hole, const PlanePoint& middle) {
    return std::atan2(hole.centre.y_mm - middle.y_mm, hole.centre.x_mm - middle.x_mm);
}

// To both sides, halfway to the nearest neighbour; never so far that a sector could not be seen from its hole.
double half_room_rad(std::span<const Hole> holes, std::size_t hole, const PlanePoint& middle) {
    constexpr double kMost = 1.4;
    double half = kMost;
    for (std::size_t i = 0; i < holes.size(); ++i) {
        if (i == hole) continue;
        const double apart = direction_of(holes[i], middle) - direction_of(holes[hole], middle);
        half = std::min(half, std::abs(std::remainder(apart, 2.0 * std::numbers::pi)) / 2.0);
    }
    return half;
}

double height_of(const FaceBand& band) {
    return static_cast<double>(band.outer().front()[2]);
}

}  // namespace

HoleOpenings add_holes(Solid& solid, std::span<const Hole> holes, FaceBand bottom, FaceBand top, double tolerance_mm) {
    HoleOpenings openings;
    for (std::size_t i = 0; i < holes.size(); ++i) {
        const double half = half_room_rad(holes, i, bottom.middle());
        const auto below = bottom.sector_round(holes[i], half);
        const auto above = top.sector_round(holes[i], half);
        if (!below || !above) continue;
        bottom.take(*below);
        top.take(*above);
        const double radius = holes[i].diameter_mm / 2.0;
        const int sides = circle_sides(radius, tolerance_mm);
        WallEnds ends =
            add_wall(solid, circle_contour(holes[i].centre, radius, sides, true), {height_of(bottom), height_of(top)});
        openings.bottom.push_back({*below, holes[i].centre, std::move(ends.bottom)});
        openings.top.push_back({*above, holes[i].centre, std::move(ends.top)});
    }
    return openings;
}

std::vector<Hole> hole_circle(int count, double diameter_mm, double circle_mm, double first_rad) {
    std::vector<Hole> holes;
    if (count > kMostHoles || diameter_mm <= 0.0 || circle_mm <= 0.0) return holes;
    for (int k = 0; k < count; ++k) {
        const PlanePoint along = direction_at(first_rad + 2.0 * std::numbers::pi * k / count);
        holes.push_back({{circle_mm / 2.0 * along.x_mm, circle_mm / 2.0 * along.y_mm}, diameter_mm});
    }
    return holes;
}

int corners_for_holes(int count) {
    return count > 0 && count <= kMostHoles ? 2 * count : 1;
}

}  // namespace couplet
