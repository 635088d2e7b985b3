#include "solid/solid_measure.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

namespace couplet {

namespace {

using Bits = std::array<std::uint32_t, 3>;

Bits bits_of(const SolidVertex& vertex) {
    return {std::bit_cast<std::uint32_t>(vertex.position_mm[0]), std::bit_cast<std::uint32_t>(vertex.position_mm[1]),
            std::bit_cast<std::uint32_t>(vertex.position_mm[2])};
}

double length3(const Point3& v) {
    return std::sqrt(dot3(v, v));
}

Point3 between(const Point3& from, const Point3& to) {
    return {to[0] - from[0], to[1] - from[1], to[2] - from[2]};
}

}  // namespace

double dot3(const Point3& a, const Point3& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Point3 position_of(const SolidVertex& vertex) {
    return {static_cast<double>(vertex.position_mm[0]), static_cast<double>(vertex.position_mm[1]),
            static_cast<double>(vertex.position_mm[2])};
}

Point3 normal_of(const SolidVertex& vertex) {
    return {static_cast<double>(vertex.normal[0]), static_cast<double>(vertex.normal[1]),
            static_cast<double>(vertex.normal[2])};
}

Triangle3 corners_of(const Solid& solid, std::size_t triangle) {
    const auto& t = solid.triangles[triangle];
    return {position_of(solid.vertices[t[0]]), position_of(solid.vertices[t[1]]), position_of(solid.vertices[t[2]])};
}

Point3 winding_of(const Triangle3& triangle) {
    const Point3 u = between(triangle[0], triangle[1]);
    const Point3 v = between(triangle[0], triangle[2]);
    return {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
}

bool is_closed(const Solid& solid) {
    std::vector<std::pair<Bits, Bits>> edges;
    std::vector<std::pair<Bits, Bits>> reverses;
    for (const auto& t : solid.triangles)
        for (std::size_t k = 0; k < 3; ++k) {
            const Bits from = bits_of(solid.vertices[t[k]]);
            const Bits to = bits_of(solid.vertices[t[(k + 1) % 3]]);
            if (from == to) return false;
            edges.emplace_back(from, to);
            reverses.emplace_back(to, from);
        }
    std::ranges::sort(edges);
    std::ranges::sort(reverses);
    return edges == reverses && std::ranges::adjacent_find(edges) == edges.end();
}

double volume_mm3(const Solid& solid) {
    double six_times = 0.0;
    for (std::size_t i = 0; i < solid.triangles.size(); ++i) {
        const Triangle3 triangle = corners_of(solid, i);
        six_times += dot3(triangle[0], winding_of(triangle));
    }
    return six_times / 6.0;
}

double worst_facing(const Solid& solid) {
    const std::array<double, 3> reach = reach_of(solid);
    const double thinnest = 1e-6 * std::max({reach[0], std::abs(reach[1]), std::abs(reach[2])});
    double worst = 1.0;
    for (std::size_t i = 0; i < solid.triangles.size(); ++i) {
        const Triangle3 triangle = corners_of(solid, i);
        const Point3 winding = winding_of(triangle);
        const double longest =
            std::max({length3(between(triangle[0], triangle[1])), length3(between(triangle[1], triangle[2])),
                      length3(between(triangle[2], triangle[0]))});
        if (length3(winding) < thinnest * longest) continue;
        for (const std::uint32_t v : solid.triangles[i])
            worst = std::min(worst, dot3(winding, normal_of(solid.vertices[v])) / length3(winding));
    }
    return worst;
}

double area_mm2(const Solid& solid, const std::function<bool(const SolidVertex&)>& wanted) {
    double twice = 0.0;
    for (std::size_t i = 0; i < solid.triangles.size(); ++i)
        if (wanted(solid.vertices[solid.triangles[i][0]])) twice += length3(winding_of(corners_of(solid, i)));
    return twice / 2.0;
}

PlanePoint mark_middle(const Solid& solid, bool up) {
    PlanePoint sum{0.0, 0.0};
    double area = 0.0;
    for (std::size_t i = 0; i < solid.triangles.size(); ++i) {
        const SolidVertex& vertex = solid.vertices[solid.triangles[i][0]];
        if (vertex.surface != Surface::mark || (vertex.normal[2] > 0.0F) != up) continue;
        const Triangle3 triangle = corners_of(solid, i);
        const double share = length3(winding_of(triangle));
        for (const Point3& p : triangle) sum = {sum.x_mm + share * p[0] / 3.0, sum.y_mm + share * p[1] / 3.0};
        area += share;
    }
    return {sum.x_mm / area, sum.y_mm / area};
}

std::array<double, 3> reach_of(const Solid& solid) {
    std::array<double, 3> reach{0.0, std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    for (const SolidVertex& vertex : solid.vertices) {
        const Point3 p = position_of(vertex);
        reach = {std::max(reach[0], std::hypot(p[0], p[1])), std::min(reach[1], p[2]), std::max(reach[2], p[2])};
    }
    return reach;
}

}  // namespace couplet
