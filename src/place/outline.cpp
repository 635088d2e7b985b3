#include "place/outline.hpp"

#include <algorithm>
#include <numbers>

namespace couplet {

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

double lower_end(const Edge& edge) {
    return std::min(edge.from.y_mm, edge.to.y_mm);
}
double upper_end(const Edge& edge) {
    return std::max(edge.from.y_mm, edge.to.y_mm);
}

PlanePoint closest_on(const PlanePoint& p, const Edge& edge) {
    const double x = edge.to.x_mm - edge.from.x_mm;
    const double y = edge.to.y_mm - edge.from.y_mm;
    const double square = x * x + y * y;
    const double part = square > 0.0 ? ((p.x_mm - edge.from.x_mm) * x + (p.y_mm - edge.from.y_mm) * y) / square : 0.0;
    const double at = std::clamp(part, 0.0, 1.0);
    return {edge.from.x_mm + at * x, edge.from.y_mm + at * y};
}

double side_of(const Edge& edge, const PlanePoint& p) {
    return (edge.to.x_mm - edge.from.x_mm) * (p.y_mm - edge.from.y_mm) -
           (edge.to.y_mm - edge.from.y_mm) * (p.x_mm - edge.from.x_mm);
}

bool cross(const Edge& a, const Edge& b) {
    return side_of(a, b.from) * side_of(a, b.to) < 0.0 && side_of(b, a.from) * side_of(b, a.to) < 0.0;
}

void take_closer(ClosestEdges& closest, const PlanePoint& point, const Edge& edge) {
    const PlanePoint on = closest_on(point, edge);
    const double distance = std::hypot(on.x_mm - point.x_mm, on.y_mm - point.y_mm);
    if (distance >= closest.distance_mm) return;
    closest.distance_mm = distance;
    closest.between = {(on.x_mm + point.x_mm) / 2.0, (on.y_mm + point.y_mm) / 2.0};
}

bool apart_sideways(const Edge& a, const Edge& b, double by_mm) {
    return std::max(a.from.x_mm, a.to.x_mm) + by_mm < std::min(b.from.x_mm, b.to.x_mm) ||
           std::max(b.from.x_mm, b.to.x_mm) + by_mm < std::min(a.from.x_mm, a.to.x_mm);
}

}  // namespace

ToothOutline::ToothOutline(const ToothProfile& profile, double tolerance_mm)
    : points_(tooth_polygon(profile, tolerance_mm)),
      pitch_rad_(kTurn / profile.sizes.spec.teeth),
      tip_radius_mm_(profile.sizes.tip_diameter_mm / 2.0),
      internal_(profile.sizes.spec.internal) {
    const double root_radius_mm = profile.sizes.root_diameter_mm / 2.0;
    const double rounding_mm = 1e-9 * root_radius_mm;
    for (std::size_t i = points_.size() / 2; i < points_.size(); ++i) {
        const Halfway half{std::hypot(points_[i].x_mm, points_[i].y_mm), std::atan2(points_[i].y_mm, points_[i].x_mm)};
        const bool on_root = std::abs(half.radius_mm - root_radius_mm) < rounding_mm;
        // Of an arc only the end where the flank begins says how wide the metal is.
        if (!halves_.empty() && std::abs(half.radius_mm - halves_.back().radius_mm) < rounding_mm) {
            if (on_root) continue;
            halves_.pop_back();
        }
        halves_.push_back(half);
    }
    if (!internal_) std::ranges::reverse(halves_);
    const PlanePoint& first = points_.front();
    points_.push_back({first.x_mm, -first.y_mm});
}

bool ToothOutline::is_metal(const PlanePoint& from_centre, double tooth_rad) const {
    const double radius = std::hypot(from_centre.x_mm, from_centre.y_mm);
    if (radius <= halves_.front().radius_mm) return !internal_;
    if (radius >= halves_.back().radius_mm) return internal_;
    const auto above = std::ranges::lower_bound(halves_, radius, {}, &Halfway::radius_mm);
    const auto below = above - 1;
    const double part = (radius - below->radius_mm) / (above->radius_mm - below->radius_mm);
    const double half = below->half_angle_rad + part * (above->half_angle_rad - below->half_angle_rad);
    const double turn = std::atan2(from_centre.y_mm, from_centre.x_mm) - tooth_rad;
    return std::abs(turn - pitch_rad_ * std::round(turn / pitch_rad_)) < half;
}

std::vector<double> ToothOutline::tooth_directions(double tooth_rad, double middle_rad, double half_width_rad) const {
    const double width = std::min(half_width_rad, kTurn / 2.0);
    const double first = std::ceil((middle_rad - width - tooth_rad) / pitch_rad_ - 0.5);
    const double all = std::round(kTurn / pitch_rad_);
    const double last = std::min(first + all - 1.0, std::floor((middle_rad + width - tooth_rad) / pitch_rad_ + 0.5));
    const int count = static_cast<int>(last - first) + 1;
    std::vector<double> directions;
    directions.reserve(static_cast<std::size_t>(std::max(count, 0)));
    for (int k = 0; k < count; ++k) directions.push_back(tooth_rad + (first + k) * pitch_rad_);
    return directions;
}

std::optional<ClosestEdges> closest_within(std::vector<Edge>& a, std::vector<Edge>& b, double within_mm) {
    const auto by_lower_end = [](const Edge& one, const Edge& other) { return lower_end(one) < lower_end(other); };
    std::ranges::sort(a, by_lower_end);
    std::ranges::sort(b, by_lower_end);
    const double longest = longest_rise(b);
    ClosestEdges closest{within_mm, {}, false};
    std::size_t begin = 0;
    for (const Edge& edge : a) {
        const double low = lower_end(edge) - closest.distance_mm;
        while (begin < b.size() && lower_end(b[begin]) < low - longest) ++begin;
        const double high = upper_end(edge) + closest.distance_mm;
        for (std::size_t i = begin; i < b.size() && lower_end(b[i]) <= high; ++i) {
            if (upper_end(b[i]) < low || apart_sideways(edge, b[i], closest.distance_mm)) continue;
            if (cross(edge, b[i])) return ClosestEdges{0.0, edge.from, true};
            take_closer(closest, edge.from, b[i]);
            take_closer(closest, edge.to, b[i]);
            take_closer(closest, b[i].from, edge);
            take_closer(closest, b[i].to, edge);
        }
    }
    if (closest.distance_mm >= within_mm) return std::nullopt;
    return closest;
}

double longest_rise(const std::vector<Edge>& edges) {
    double longest = 0.0;
    for (const Edge& edge : edges) longest = std::max(longest, upper_end(edge) - lower_end(edge));
    return longest;
}

double distance_to_sorted(const PlanePoint& point, const std::vector<Edge>& sorted, double longest_mm,
                          double within_mm) {
    double distance = within_mm;
    const auto above = std::ranges::lower_bound(sorted, point.y_mm, {}, lower_end);
    for (auto edge = above; edge != sorted.end() && lower_end(*edge) <= point.y_mm + distance; ++edge)
        distance = std::min(distance, distance_to_edge(point, *edge));
    for (auto edge = above; edge != sorted.begin() && lower_end(*(edge - 1)) >= point.y_mm - distance - longest_mm;
         --edge)
        distance = std::min(distance, distance_to_edge(point, *(edge - 1)));
    return distance;
}

double distance_to_edge(const PlanePoint& point, const Edge& edge) {
    const PlanePoint on = closest_on(point, edge);
    return std::hypot(on.x_mm - point.x_mm, on.y_mm - point.y_mm);
}

}  // namespace couplet
