#include "solid/shape.hpp"

#include <algorithm>
#include <cmath>

#include "solid/by_shape.hpp"

namespace couplet {

namespace {

struct MakeSolid {
    double tolerance_mm;

    Solid operator()(const GearShape& shape) const { return gear_solid(shape, tolerance_mm); }
    Solid operator()(const RingShape& shape) const { return ring_solid(shape, tolerance_mm); }
    Solid operator()(const PlateShape& shape) const { return plate_solid(shape, tolerance_mm); }
    Solid operator()(const TurnedShape& shape) const { return turned_solid(shape, tolerance_mm); }
    Solid operator()(const BarShape& shape) const { return bar_solid(shape, tolerance_mm); }
};

struct FindExtent {
    Extent operator()(const GearShape& shape) const {
        return {shape.profile.sizes.tip_diameter_mm / 2.0, 0.0, shape.face_width_mm};
    }
    Extent operator()(const RingShape& shape) const { return {outside_of(shape) / 2.0, 0.0, shape.face_width_mm}; }
    Extent operator()(const PlateShape& shape) const {
        double radius = 0.0;
        for (const Hole& disc : shape.lobes)
            radius = std::max(radius, std::hypot(disc.centre.x_mm, disc.centre.y_mm) + disc.diameter_mm / 2.0);
        return {radius, 0.0, shape.thickness_mm};
    }
    Extent operator()(const TurnedShape& shape) const {
        if (shape.outline.empty()) return {0.0, 0.0, 0.0};
        Extent extent{0.0, shape.outline.front().z_mm, shape.outline.front().z_mm};
        for (const TurnedShape::Corner& corner : shape.outline)
            extent = {std::max(extent.radius_mm, corner.radius_mm), std::min(extent.bottom_mm, corner.z_mm),
                      std::max(extent.top_mm, corner.z_mm)};
        return extent;
    }
    Extent operator()(const BarShape& shape) const {
        const auto farther = [&](std::size_t k) {
            return std::max(std::abs(shape.from_mm[k]), std::abs(shape.to_mm[k]));
        };
        return {std::hypot(farther(0), farther(1)), std::min(shape.from_mm[2], shape.to_mm[2]),
                std::max(shape.from_mm[2], shape.to_mm[2])};
    }
};

}  // namespace

double chamfer_for(double wished_mm, double thickness_mm, double tolerance_mm) {
    constexpr double kMostOfThickness = 0.3;
    return wished_mm > 2.0 * tolerance_mm ? std::min(wished_mm, kMostOfThickness * thickness_mm) : 0.0;
}

Solid solid_of(const Shape& shape, double tolerance_mm) {
    // Vertices are floats, with seven digits.
    constexpr double kFinest = 1e-6;
    const Extent extent = extent_of(shape);
    const double size = std::max({extent.radius_mm, std::abs(extent.bottom_mm), std::abs(extent.top_mm)});
    return std::visit(MakeSolid{std::max(tolerance_mm, kFinest * size)}, shape);
}

Extent extent_of(const Shape& shape) {
    return std::visit(FindExtent{}, shape);
}

}  // namespace couplet
