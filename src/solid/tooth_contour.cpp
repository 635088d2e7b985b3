#include "solid/tooth_contour.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

PlanePoint mirrored(const PlanePoint& p) {
    return {p.x_mm, -p.y_mm};
}

ContourPoint mirrored(const ContourPoint& p) {
    return {mirrored(p.at), mirrored(p.before), mirrored(p.after)};
}

ContourPoint turned_by(const ContourPoint& p, const PlanePoint& x) {
    const auto turn = [&](const PlanePoint& v) {
        return PlanePoint{v.x_mm * x.x_mm - v.y_mm * x.y_mm, v.x_mm * x.y_mm + v.y_mm * x.x_mm};
    };
    return {turn(p.at), turn(p.before), turn(p.after)};
}

double angle_of(const PlanePoint& p) {
    return std::atan2(p.y_mm, p.x_mm);
}

// Out of the metal at the tip and the root.
PlanePoint circle_normal(const ToothProfile& profile, double angle_rad) {
    return direction_at(profile.sizes.spec.internal ? angle_rad + kPi : angle_rad);
}

// The involute's normals touch the base circle, where its thread leaves it.
PlanePoint flank_normal(const ToothProfile& profile, double roll) {
    const double thread_rad = profile.flank.origin_rad - roll;
    const bool internal = profile.sizes.spec.internal;
    return direction_at(kPi / 2 + (internal ? kPi / profile.sizes.spec.teeth - thread_rad : thread_rad));
}

// The fillet's normal above +X, square to the line between two points close by; from the root to the flank the metal of
// an external tooth lies on the right.
PlanePoint fillet_normal(const ToothProfile& profile, double corner_rad) {
    const double step = 1e-4 * profile.fillet_end_rad;
    const PlanePoint a = fillet_point(profile, std::max(0.0, corner_rad - step));
    const PlanePoint b = fillet_point(profile, std::min(profile.fillet_end_rad, corner_rad + step));
    const double length = std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm) * (profile.sizes.spec.internal ? -1.0 : 1.0);
    return {(a.y_mm - b.y_mm) / length, (b.x_mm - a.x_mm) / length};
}

// What an outline is sampled with.
struct Fineness {
    double tolerance_mm;
    double same_mm;  // points nearer than this are one
};

// Steps so that no chord leaves its curve by more than a small part of the tolerance, if it bends evenly.
int fine_steps(double length_mm, double bend_rad, double tolerance_mm) {
    constexpr double kParts = 40.0;
    constexpr double kMost = 2000.0;
    return static_cast<int>(std::clamp(std::sqrt(length_mm * bend_rad * kParts / 8.0 / tolerance_mm), 8.0, kMost));
}

double tooth_depth_mm(const GearSizes& sizes) {
    return std::abs(sizes.tip_diameter_mm - sizes.root_diameter_mm) / 2.0;
}

void add_point(std::vector<ContourPoint>& curve, const ContourPoint& p, double same_mm) {
    if (!curve.empty() && std::hypot(p.at.x_mm - curve.back().at.x_mm, p.at.y_mm - curve.back().at.y_mm) < same_mm)
        curve.back() = {p.at, curve.back().before, p.after};
    else
        curve.push_back(p);
}

void add_fillet(std::vector<ContourPoint>& curve, const ToothProfile& profile, const Fineness& fineness) {
    const double end = profile.fillet_end_rad;
    const PlanePoint foot = fillet_point(profile, 0.0);
    const PlanePoint top = fillet_point(profile, end);
    if (end <= 0.0 || std::hypot(top.x_mm - foot.x_mm, top.y_mm - foot.y_mm) < fineness.same_mm) return;
    const int steps = fine_steps(tooth_depth_mm(profile.sizes) / 2.0, kPi / 2, fineness.tolerance_mm);
    for (int i = 0; i <= steps; ++i) {
        const double corner = end * i / steps;
        const PlanePoint normal = fillet_normal(profile, corner);
        add_point(curve, {fillet_point(profile, corner), normal, normal}, fineness.same_mm);
    }
}

void add_flank(std::vector<ContourPoint>& curve, const ToothProfile& profile, const Fineness& fineness) {
    const GearSizes& sizes = profile.sizes;
    const bool internal = sizes.spec.internal;
    const double from = internal ? profile.flank.outer_roll : profile.flank.inner_roll;
    const double to = internal ? profile.flank.inner_roll : profile.flank.outer_roll;
    const int steps = fine_steps(tooth_depth_mm(sizes), std::abs(to - from), fineness.tolerance_mm);
    for (int i = 0; i <= steps; ++i) {
        const double roll = from + (to - from) * i / steps;
        const PlanePoint normal = flank_normal(profile, roll);
        add_point(curve, {flank_point(profile, roll), normal, normal}, fineness.same_mm);
    }
    if (!internal || sizes.tip_diameter_mm >= sizes.base_diameter_mm) return;
    // A tip inside the base circle is reached along the radius.
    const PlanePoint normal = flank_normal(profile, 0.0);
    const PlanePoint radial = direction_at(angle_of(curve.back().at));
    const double tip = sizes.tip_diameter_mm / 2.0;
    add_point(curve, {{tip * radial.x_mm, tip * radial.y_mm}, normal, normal}, fineness.same_mm);
}

// Whether one line may stand for the curve from one point to another: within the tolerance, without a corner on the
// way, and without bending so far that a shaded surface could not follow.
bool is_straight(const std::vector<ContourPoint>& curve, std::size_t from, std::size_t to, double tolerance_mm) {
    constexpr double kCosMostBend = 0.26;  // 75 degrees
    if (dot(curve[from].after, curve[to].before) < kCosMostBend) return false;
    for (std::size_t i = from + 1; i < to; ++i) {
        if (dot(curve[i].before, curve[i].after) < 1.0 - 1e-4) return false;
        if (distance_to_segment(curve[i].at, curve[from].at, curve[to].at) > tolerance_mm) return false;
    }
    return true;
}

// As few of the points as will do.
std::vector<ContourPoint> thinned(const std::vector<ContourPoint>& curve, double tolerance_mm) {
    // The finely sampled curve leaves the true one by a fortieth at most where it bends evenly.
    const double most = 0.93 * tolerance_mm;
    std::vector<ContourPoint> few{curve.front()};
    std::size_t at = 0;
    while (at + 1 < curve.size()) {
        std::size_t next = at + 1;
        while (next + 1 < curve.size() && is_straight(curve, at, next + 1, most)) ++next;
        few.push_back(curve[next]);
        at = next;
    }
    return few;
}

// The flank above +X from the root circle to the tip circle, its fillet included.
std::vector<ContourPoint> upper_flank(const ToothProfile& profile, const Fineness& fineness) {
    std::vector<ContourPoint> curve;
    add_fillet(curve, profile, fineness);
    add_flank(curve, profile, fineness);
    return thinned(curve, fineness.tolerance_mm);
}

// Points within an arc of a circle about the axis, its ends left out.
void add_arc_within(std::vector<ContourPoint>& points, const ToothProfile& profile, double radius_mm, double from_rad,
                    double to_rad, double tolerance_mm) {
    const int steps = static_cast<int>(std::ceil((to_rad - from_rad) / chord_angle(radius_mm, tolerance_mm) - 1e-9));
    for (int i = 1; i < steps; ++i) {
        const double angle = from_rad + (to_rad - from_rad) * i / steps;
        const PlanePoint on_circle = direction_at(angle);
        const PlanePoint normal = circle_normal(profile, angle);
        points.push_back({{radius_mm * on_circle.x_mm, radius_mm * on_circle.y_mm}, normal, normal});
    }
}

struct Pitch {
    std::vector<ContourPoint> points;  // from the root below +X to the next tooth, whose first is left out
    std::size_t tooth_points;
    std::size_t flank_points;
};

Pitch one_pitch(const ToothProfile& profile, const Fineness& fineness) {
    const double half_pitch = kPi / profile.sizes.spec.teeth;
    const double tip_radius = profile.sizes.tip_diameter_mm / 2.0;
    const double root_radius = profile.sizes.root_diameter_mm / 2.0;
    std::vector<ContourPoint> upper = upper_flank(profile, fineness);
    const double tip_rad = angle_of(upper.back().at);
    const double root_rad = angle_of(upper.front().at);
    const bool pointed = tip_rad * tip_radius < fineness.same_mm;
    const bool no_root = (half_pitch - root_rad) * root_radius < fineness.same_mm;
    if (pointed) upper.back().at = {tip_radius, 0.0};
    if (no_root) upper.front().at = couplet::turned_by({root_radius, 0.0}, half_pitch);
    // What the next tooth's root, or its fillet, has there.
    upper.front().before = no_root ? couplet::turned_by(mirrored(upper.front().after), 2.0 * half_pitch)
                                   : circle_normal(profile, root_rad);
    upper.back().after = pointed ? mirrored(upper.back().before) : circle_normal(profile, tip_rad);

    Pitch pitch{};
    for (const ContourPoint& p : upper) pitch.points.push_back(mirrored(p));
    if (!pointed) add_arc_within(pitch.points, profile, tip_radius, -tip_rad, tip_rad, fineness.tolerance_mm);
    for (std::size_t i = pointed ? upper.size() - 1 : upper.size(); i-- > 0;)
        pitch.points.push_back({upper[i].at, upper[i].after, upper[i].before});
    pitch.tooth_points = pitch.points.size();
    pitch.flank_points = upper.size();
    if (no_root)
        pitch.points.pop_back();
    else
        add_arc_within(pitch.points, profile, root_radius, root_rad, 2.0 * half_pitch - root_rad,
                       fineness.tolerance_mm);
    for (ContourPoint& p : pitch.points) p = corner_of(p.at, p.before, p.after);
    return pitch;
}

}  // namespace

ToothContour tooth_contour(const ToothProfile& profile, double tolerance_mm) {
    const GearSizes& sizes = profile.sizes;
    const double size = std::max(sizes.tip_diameter_mm, sizes.root_diameter_mm) / 2.0;
    // Vertices will be floats, with seven digits.
    const Fineness fineness{tolerance_mm, 2e-6 * size};
    const Pitch pitch = one_pitch(profile, fineness);
    const auto teeth = static_cast<std::size_t>(sizes.spec.teeth);
    ToothContour made{{{}, sizes.spec.internal}, teeth, pitch.points.size(), pitch.tooth_points, pitch.flank_points};
    made.contour.points.reserve(teeth * pitch.points.size());
    for (std::size_t k = 0; k < teeth; ++k) {
        const PlanePoint x = direction_at(2.0 * kPi * static_cast<double>(k) / static_cast<double>(teeth));
        for (const ContourPoint& p : pitch.points) made.contour.points.push_back(turned_by(p, x));
    }
    return made;
}

}  // namespace couplet
