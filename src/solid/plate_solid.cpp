#include <algorithm>
#include <cmath>

#include "solid/by_shape.hpp"
#include "solid/holes.hpp"

namespace couplet {

namespace {

bool is_inside(const Contour& convex, const PlanePoint& p) {
    for (std::size_t i = 0; i < convex.points.size(); ++i) {
        const PlanePoint& a = convex.points[i].at;
        const PlanePoint& b = convex.points[i + 1 == convex.points.size() ? 0 : i + 1].at;
        if (cross({b.x_mm - a.x_mm, b.y_mm - a.y_mm}, {p.x_mm - a.x_mm, p.y_mm - a.y_mm}) <= 0.0) return false;
    }
    return true;
}

PlanePoint mean_of(const Contour& contour) {
    PlanePoint sum{0.0, 0.0};
    for (const ContourPoint& p : contour.points) sum = {sum.x_mm + p.at.x_mm, sum.y_mm + p.at.y_mm};
    const auto n = static_cast<double>(contour.points.size());
    return {sum.x_mm / n, sum.y_mm / n};
}

// What the plate's sectors are laid out about: a hole in the middle, or the axis, or any point within.
struct Middle {
    PlanePoint at;
    std::optional<Hole> hole;
};

Middle middle_of(const PlateShape& plate, const Contour& face) {
    const PlanePoint at = is_inside(face, {0.0, 0.0}) ? PlanePoint{0.0, 0.0} : mean_of(face);
    for (const Hole& hole : plate.holes) {
        const double apart = std::hypot(hole.centre.x_mm - at.x_mm, hole.centre.y_mm - at.y_mm);
        if (apart <= hole.diameter_mm / 2.0) return {hole.centre, hole};
    }
    return {at, std::nullopt};
}

std::vector<Hole> holes_around(const PlateShape& plate, const Middle& middle) {
    std::vector<Hole> around;
    for (const Hole& hole : plate.holes)
        if (hole.diameter_mm > 0.0 && !(middle.hole && hole == *middle.hole)) around.push_back(hole);
    return around;
}

// The middle's edges: of its hole, where that stays within the hull, or one point.
WallEnds add_middle(Solid& solid, const PlateShape& plate, const Middle& middle, double room_mm, double tolerance_mm) {
    constexpr double kLeastWall = 1e-3;
    const double height = plate.thickness_mm;
    const double radius = middle.hole ? middle.hole->diameter_mm / 2.0 : 0.0;
    const double room = (1.0 - kLeastWall) * room_mm;
    if (radius <= 0.0 || radius >= room) {
        const auto x = static_cast<float>(middle.at.x_mm);
        const auto y = static_cast<float>(middle.at.y_mm);
        return {{{x, y, 0.0F}}, {{x, y, static_cast<float>(height)}}};
    }
    const double chamfer = chamfer_for(plate.chamfer_mm, height, tolerance_mm);
    const double broken = radius + chamfer < room ? chamfer : 0.0;
    return add_wall(solid, circle_contour(middle.at, radius, circle_sides(radius, tolerance_mm), true),
                    {0.0, height, broken, broken});
}

}  // namespace

Solid plate_solid(const PlateShape& plate, double tolerance_mm) {
    Solid solid;
    if (plate.thickness_mm <= 0.0) return solid;
    const Contour hull = hull_contour(plate.lobes, tolerance_mm);
    if (hull.points.size() < 3) return solid;
    const double broken = inset_with_room(hull, chamfer_for(plate.chamfer_mm, plate.thickness_mm, tolerance_mm));
    const Middle middle = middle_of(plate, inset(hull, broken));
    const WallEnds outer = add_wall(solid, hull, {0.0, plate.thickness_mm, broken, broken});
    const WallEnds inner = add_middle(solid, plate, middle, nearest_reach(outer.top, middle.at), tolerance_mm);
    const FaceBand below(outer.bottom, inner.bottom, middle.at);
    const FaceBand above(outer.top, inner.top, middle.at);
    HoleOpenings holes = add_holes(solid, holes_around(plate, middle), below, above, tolerance_mm);
    add_band_face(solid, false, Surface::milled, below, std::move(holes.bottom));
    add_band_face(solid, true, Surface::milled, above, std::move(holes.top));
    return solid;
}

}  // namespace couplet
