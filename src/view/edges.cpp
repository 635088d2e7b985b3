#include "view/edges.hpp"

#include <cmath>
#include <map>
#include <utility>

namespace couplet {

namespace {

using Point = std::array<float, 3>;

Point flat_normal(const Point& a, const Point& b, const Point& c) {
    const Point u = {b[0] - a[0], b[1] - a[1], b[2] - a[2]};
    const Point v = {c[0] - a[0], c[1] - a[1], c[2] - a[2]};
    const Point n = {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
    const float length = std::sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
    return length > 0 ? Point{n[0] / length, n[1] / length, n[2] / length} : Point{};
}

constexpr float kSamePlane = 0.9995F;  // cosine

}  // namespace

std::vector<SolidEdge> edges_of(const Solid& solid) {
    // The first triangle along an edge waits here for the second.
    std::map<std::pair<Point, Point>, Point> waiting;
    std::vector<SolidEdge> edges;
    for (const auto& triangle : solid.triangles) {
        const std::array<Point, 3> p = {solid.vertices[triangle[0]].position_mm,
                                        solid.vertices[triangle[1]].position_mm,
                                        solid.vertices[triangle[2]].position_mm};
        const Point normal = flat_normal(p[0], p[1], p[2]);
        for (std::size_t i = 0; i < 3; ++i) {
            const Point& from = p[i];
            const Point& to = p[(i + 1) % 3];
            const auto other = waiting.find({to, from});
            if (other == waiting.end()) {
                waiting.emplace(std::pair{from, to}, normal);
                continue;
            }
            const Point& second = other->second;
            const float cosine = normal[0] * second[0] + normal[1] * second[1] + normal[2] * second[2];
            if (cosine < kSamePlane) edges.push_back({from, to, normal, second});
            waiting.erase(other);
        }
    }
    return edges;
}

}  // namespace couplet
