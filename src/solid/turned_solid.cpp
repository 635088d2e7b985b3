#include <algorithm>
#include <cmath>
#include <numbers>

#include "solid/by_shape.hpp"
#include "solid/contour.hpp"

namespace couplet {

namespace {

using Corner = TurnedShape::Corner;

// As floats have them: a corner within their reach of the one before is the same, or of the axis on it.
std::vector<Corner> sound_outline(const TurnedShape& turned) {
    double size = 0.0;
    for (const Corner& corner : turned.outline)
        size = std::max({size, std::abs(corner.radius_mm), std::abs(corner.z_mm)});
    const double same_mm = 1e-6 * size;
    const auto is_same = [same_mm](const Corner& a, const Corner& b) {
        return std::hypot(a.radius_mm - b.radius_mm, a.z_mm - b.z_mm) <= same_mm;
    };
    std::vector<Corner> outline;
    for (const Corner& corner : turned.outline) {
        const Corner sound{corner.radius_mm <= same_mm ? 0.0 : corner.radius_mm, corner.z_mm};
        if (outline.empty() || !is_same(sound, outline.back())) outline.push_back(sound);
    }
    while (outline.size() > 1 && is_same(outline.front(), outline.back())) outline.pop_back();
    return outline;
}

// One surface of revolution between two corners, each side with the normals of its middle where it is a point.
void add_band(Solid& solid, const Corner& from, const Corner& to, const std::vector<PlanePoint>& directions) {
    const double length = std::hypot(to.radius_mm - from.radius_mm, to.z_mm - from.z_mm);
    const double outwards = (to.z_mm - from.z_mm) / length;
    const auto up = static_cast<float>((from.radius_mm - to.radius_mm) / length);
    const auto n = static_cast<std::uint32_t>(directions.size());
    const auto first = static_cast<std::uint32_t>(solid.vertices.size());
    // On the axis a zero must not have the sign of its direction.
    const auto across = [](double radius_mm, double share) {
        return radius_mm > 0.0 ? static_cast<float>(radius_mm * share) : 0.0F;
    };
    for (const Corner& corner : {from, to})
        for (const PlanePoint& d : directions)
            solid.vertices.push_back(
                {{across(corner.radius_mm, d.x_mm), across(corner.radius_mm, d.y_mm), static_cast<float>(corner.z_mm)},
                 {static_cast<float>(outwards * d.x_mm), static_cast<float>(outwards * d.y_mm), up},
                 Surface::turned});
    for (std::uint32_t i = 0; i < n; ++i) {
        const std::uint32_t next = i + 1 == n ? 0 : i + 1;
        if (from.radius_mm > 0.0) solid.triangles.push_back({first + i, first + next, first + n + i});
        if (to.radius_mm > 0.0) solid.triangles.push_back({first + next, first + n + next, first + n + i});
    }
}

}  // namespace

Solid turned_solid(const TurnedShape& turned, double tolerance_mm) {
    Solid solid;
    const std::vector<Corner> outline = sound_outline(turned);
    if (outline.size() < 3) return solid;
    double largest = 0.0;
    for (const Corner& corner : outline) largest = std::max(largest, corner.radius_mm);
    if (largest <= 0.0) return solid;
    const int sides = circle_sides(largest, tolerance_mm);
    std::vector<PlanePoint> directions;
    directions.reserve(static_cast<std::size_t>(sides));
    for (int i = 0; i < sides; ++i) directions.push_back(direction_at(2.0 * std::numbers::pi * i / sides));
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Corner& to = outline[i + 1 == outline.size() ? 0 : i + 1];
        // A line on the axis has no surface.
        if (outline[i].radius_mm > 0.0 || to.radius_mm > 0.0) add_band(solid, outline[i], to, directions);
    }
    return solid;
}

}  // namespace couplet
