// Exact profile: how far points lie from a gear's exact outline, and its area, for tests of flat exports.
//
// By polygons a thousand times as fine as what is tested, from tooth/profile.hpp and by none of the arcs.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "place/outline.hpp"
#include "tooth/profile.hpp"

namespace couplet {

inline constexpr double kExactly_mm = 1e-6;

[[nodiscard]] inline double polygon_area(const std::vector<PlanePoint>& polygon) {
    double twice = 0.0;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const PlanePoint& a = polygon[i];
        const PlanePoint& b = polygon[(i + 1) % polygon.size()];
        twice += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    }
    return twice / 2.0;
}

[[nodiscard]] inline double exact_area_mm2(const ToothProfile& profile) {
    return polygon_area(gear_polygon(profile, kExactly_mm));
}

[[nodiscard]] inline double exact_length_mm(const ToothProfile& profile) {
    const std::vector<PlanePoint> polygon = gear_polygon(profile, 1e-3);
    double length = 0.0;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const PlanePoint& next = polygon[(i + 1) % polygon.size()];
        length += std::hypot(next.x_mm - polygon[i].x_mm, next.y_mm - polygon[i].y_mm);
    }
    return length;
}

// The gear stands on the origin with a tooth on +X.
class ExactProfile {
  public:
    explicit ExactProfile(const ToothProfile& profile) : pitch_rad_(2.0 * std::numbers::pi / profile.sizes.spec.teeth) {
        const std::vector<PlanePoint> tooth = tooth_polygon(profile, kExactly_mm);
        // One tooth, and the beginning of the next.
        for (std::size_t i = 1; i < tooth.size(); ++i) edges_.push_back({tooth[i - 1], tooth[i]});
        edges_.push_back({tooth.back(), {tooth.front().x_mm, -tooth.front().y_mm}});
        std::ranges::sort(edges_, {}, [](const Edge& edge) { return std::min(edge.from.y_mm, edge.to.y_mm); });
        longest_mm_ = longest_rise(edges_);
    }

    [[nodiscard]] double distance_mm(const PlanePoint& point) const {
        const double angle = std::atan2(point.y_mm, point.x_mm);
        const double turn = -pitch_rad_ * std::round(angle / pitch_rad_);
        const PlanePoint folded{point.x_mm * std::cos(turn) - point.y_mm * std::sin(turn),
                                point.x_mm * std::sin(turn) + point.y_mm * std::cos(turn)};
        return distance_to_sorted(folded, edges_, longest_mm_, 1e3);
    }

  private:
    double pitch_rad_;
    std::vector<Edge> edges_;
    double longest_mm_ = 0.0;
};

}  // namespace couplet
