#include <algorithm>
#include <cmath>

#include "solid/by_shape.hpp"

namespace couplet {

namespace {

using Vector = std::array<double, 3>;

// A corner of the bar by the sides it lies on: -1 or +1 for each axis.
using Sides = std::array<int, 3>;

struct Bar {
    Vector middle;
    Vector half;
    double chamfer_mm;
};

// Where the face across `axis` ends near a corner: the chamfers take their share along the other two.
std::array<float, 3> point_of(const Bar& bar, const Sides& corner, std::size_t axis) {
    std::array<float, 3> p{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double reach = bar.half[k] - (k == axis ? 0.0 : bar.chamfer_mm);
        p[k] = static_cast<float>(bar.middle[k] + corner[k] * reach);
    }
    return p;
}

// A flat polygon given in either sense, turned so that it faces along its normal.
void add_polygon(Solid& solid, std::vector<std::array<float, 3>> points, const Vector& normal, Surface surface) {
    const auto along = [&](std::size_t i, std::size_t k) {
        return static_cast<double>(points[i][k]) - static_cast<double>(points[0][k]);
    };
    double facing = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const std::size_t l = (k + 1) % 3;
        const std::size_t m = (k + 2) % 3;
        facing += normal[k] * (along(1, l) * along(2, m) - along(1, m) * along(2, l));
    }
    if (facing < 0.0) std::reverse(points.begin(), points.end());
    const double length = std::hypot(normal[0], normal[1], normal[2]);
    const auto first = static_cast<std::uint32_t>(solid.vertices.size());
    for (const auto& p : points)
        solid.vertices.push_back({p,
                                  {static_cast<float>(normal[0] / length), static_cast<float>(normal[1] / length),
                                   static_cast<float>(normal[2] / length)},
                                  surface});
    for (std::uint32_t i = 2; i < points.size(); ++i) solid.triangles.push_back({first, first + i - 1, first + i});
}

Sides corner_at(std::size_t axis, int on_axis, int on_next, int on_last) {
    Sides corner{};
    corner[axis] = on_axis;
    corner[(axis + 1) % 3] = on_next;
    corner[(axis + 2) % 3] = on_last;
    return corner;
}

void add_face(Solid& solid, const Bar& bar, std::size_t axis, int side) {
    Vector normal{};
    normal[axis] = side;
    add_polygon(solid,
                {point_of(bar, corner_at(axis, side, -1, -1), axis), point_of(bar, corner_at(axis, side, 1, -1), axis),
                 point_of(bar, corner_at(axis, side, 1, 1), axis), point_of(bar, corner_at(axis, side, -1, 1), axis)},
                normal, Surface::milled);
}

// Along `axis`, between the faces across the other two.
void add_edge_chamfer(Solid& solid, const Bar& bar, std::size_t axis, int next_side, int last_side) {
    const Sides low = corner_at(axis, -1, next_side, last_side);
    const Sides high = corner_at(axis, 1, next_side, last_side);
    Vector normal{};
    normal[(axis + 1) % 3] = next_side;
    normal[(axis + 2) % 3] = last_side;
    add_polygon(solid,
                {point_of(bar, low, (axis + 1) % 3), point_of(bar, high, (axis + 1) % 3),
                 point_of(bar, high, (axis + 2) % 3), point_of(bar, low, (axis + 2) % 3)},
                normal, Surface::ground);
}

void add_corner_chamfer(Solid& solid, const Bar& bar, const Sides& corner) {
    add_polygon(solid, {point_of(bar, corner, 0), point_of(bar, corner, 1), point_of(bar, corner, 2)},
                {static_cast<double>(corner[0]), static_cast<double>(corner[1]), static_cast<double>(corner[2])},
                Surface::ground);
}

Bar sound_bar(const BarShape& shape, double tolerance_mm) {
    Bar bar{};
    for (std::size_t k = 0; k < 3; ++k) {
        bar.middle[k] = (shape.from_mm[k] + shape.to_mm[k]) / 2.0;
        bar.half[k] = std::abs(shape.to_mm[k] - shape.from_mm[k]) / 2.0;
    }
    bar.chamfer_mm = chamfer_for(shape.chamfer_mm, 2.0 * *std::ranges::min_element(bar.half), tolerance_mm);
    return bar;
}

}  // namespace

Solid bar_solid(const BarShape& shape, double tolerance_mm) {
    Solid solid;
    const Bar bar = sound_bar(shape, tolerance_mm);
    if (*std::ranges::min_element(bar.half) <= 0.0) return solid;
    for (std::size_t axis = 0; axis < 3; ++axis)
        for (const int side : {-1, 1}) add_face(solid, bar, axis, side);
    if (bar.chamfer_mm <= 0.0) return solid;
    for (const int a : {-1, 1})
        for (const int b : {-1, 1}) {
            for (std::size_t axis = 0; axis < 3; ++axis) add_edge_chamfer(solid, bar, axis, a, b);
            for (const int c : {-1, 1}) add_corner_chamfer(solid, bar, {a, b, c});
        }
    return solid;
}

}  // namespace couplet
