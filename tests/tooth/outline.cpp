#include "tooth/outline.hpp"

#include <algorithm>
#include <stdexcept>

namespace couplet {

namespace {

double turn_of(const PlanePoint& a, const PlanePoint& b, const PlanePoint& c) {
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

PlanePoint between(const PlanePoint& a, const PlanePoint& b, double t) {
    return {a.x_mm + (b.x_mm - a.x_mm) * t, a.y_mm + (b.y_mm - a.y_mm) * t};
}

double distance_to_segment(const PlanePoint& p, const PlanePoint& a, const PlanePoint& b) {
    const double dx = b.x_mm - a.x_mm;
    const double dy = b.y_mm - a.y_mm;
    const double square = dx * dx + dy * dy;
    const double t = square > 0.0 ? ((p.x_mm - a.x_mm) * dx + (p.y_mm - a.y_mm) * dy) / square : 0.0;
    const PlanePoint nearest = between(a, b, std::clamp(t, 0.0, 1.0));
    return std::hypot(p.x_mm - nearest.x_mm, p.y_mm - nearest.y_mm);
}

}  // namespace

GearSpec gear_a(double module_mm, int teeth, double shift, double helix_deg) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.module_mm = module_mm;
    spec.rack = *iso_53_rack('A');
    spec.helix_angle_rad = helix_deg * kDegree;
    spec.shift = shift;
    spec.face_width_mm = 10.0 * module_mm;
    return spec;
}

GearSpec ring_a(double module_mm, int teeth, double shift, double helix_deg) {
    GearSpec spec = gear_a(module_mm, teeth, shift, helix_deg);
    spec.internal = true;
    return spec;
}

ToothProfile profile_for(const GearSpec& spec) {
    const ProfileResult result = profile_of(sizes_of(spec));
    if (!result.profile) throw std::logic_error("the gear has no profile");
    return *result.profile;
}

PlanePoint turned(const PlanePoint& p, double angle_rad) {
    const double cosine = std::cos(angle_rad);
    const double sine = std::sin(angle_rad);
    return {p.x_mm * cosine - p.y_mm * sine, p.x_mm * sine + p.y_mm * cosine};
}

Outline turned(const Outline& outline, double angle_rad) {
    Outline result;
    for (const PlanePoint& p : outline) result.push_back(turned(p, angle_rad));
    return result;
}

Outline moved(const Outline& outline, double x_mm, double y_mm) {
    Outline result;
    for (const PlanePoint& p : outline) result.push_back({p.x_mm + x_mm, p.y_mm + y_mm});
    return result;
}

Outline open_tooth(const ToothProfile& profile, double tolerance_mm) {
    Outline tooth = tooth_polygon(profile, tolerance_mm);
    tooth.push_back(turned(tooth.front(), 2.0 * std::numbers::pi / profile.sizes.spec.teeth));
    return tooth;
}

double area(const Outline& closed) {
    double twice = 0.0;
    for (std::size_t i = 0; i < closed.size(); ++i)
        twice += turn_of({0.0, 0.0}, closed[i], closed[(i + 1) % closed.size()]);
    return twice / 2.0;
}

double perimeter(const Outline& closed) {
    double sum = 0.0;
    for (std::size_t i = 0; i < closed.size(); ++i) {
        const PlanePoint& next = closed[(i + 1) % closed.size()];
        sum += std::hypot(next.x_mm - closed[i].x_mm, next.y_mm - closed[i].y_mm);
    }
    return sum;
}

bool is_inside(const PlanePoint& p, const Outline& closed) {
    bool inside = false;
    for (std::size_t i = 0; i < closed.size(); ++i) {
        const PlanePoint& a = closed[i];
        const PlanePoint& b = closed[(i + 1) % closed.size()];
        if ((a.y_mm > p.y_mm) == (b.y_mm > p.y_mm)) continue;
        if (p.x_mm < a.x_mm + (b.x_mm - a.x_mm) * (p.y_mm - a.y_mm) / (b.y_mm - a.y_mm)) inside = !inside;
    }
    return inside;
}

double distance_to(const PlanePoint& p, const Outline& chain) {
    double least = distance_to_segment(p, chain.front(), chain.front());
    for (std::size_t i = 0; i + 1 < chain.size(); ++i)
        least = std::min(least, distance_to_segment(p, chain[i], chain[i + 1]));
    return least;
}

bool crosses_itself(const Outline& closed) {
    const std::size_t n = closed.size();
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 2; j < n && (i > 0 || j + 1 < n); ++j) {
            const PlanePoint& a = closed[i];
            const PlanePoint& b = closed[i + 1];
            const PlanePoint& c = closed[j];
            const PlanePoint& d = closed[(j + 1) % n];
            if (turn_of(a, b, c) * turn_of(a, b, d) < 0.0 && turn_of(c, d, a) * turn_of(c, d, b) < 0.0) return true;
        }
    }
    return false;
}

std::vector<double> crossings(const Outline& chain, const PlanePoint& from, double direction_rad) {
    const PlanePoint ahead{from.x_mm + std::cos(direction_rad), from.y_mm + std::sin(direction_rad)};
    std::vector<double> found;
    for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
        const double a = turn_of(from, ahead, chain[i]);
        const double b = turn_of(from, ahead, chain[i + 1]);
        if ((a > 0.0) == (b > 0.0)) continue;
        const PlanePoint p = between(chain[i], chain[i + 1], a / (a - b));
        found.push_back((p.x_mm - from.x_mm) * std::cos(direction_rad) +
                        (p.y_mm - from.y_mm) * std::sin(direction_rad));
    }
    return found;
}

std::optional<double> upper_angle_at(const Outline& chain, double radius_mm) {
    std::optional<double> largest;
    const auto beyond = [&](const PlanePoint& p) { return std::hypot(p.x_mm, p.y_mm) - radius_mm; };
    for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
        const double a = beyond(chain[i]);
        const double b = beyond(chain[i + 1]);
        if ((a > 0.0) == (b > 0.0)) continue;
        const PlanePoint p = between(chain[i], chain[i + 1], a / (a - b));
        const double angle = std::atan2(p.y_mm, p.x_mm);
        if (!largest || angle > *largest) largest = angle;
    }
    return largest;
}

}  // namespace couplet
