#include "solid/contour.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

PlanePoint difference(const PlanePoint& a, const PlanePoint& b) {
    return {a.x_mm - b.x_mm, a.y_mm - b.y_mm};
}

PlanePoint along(const PlanePoint& from, double distance_mm, const PlanePoint& direction) {
    return {from.x_mm + distance_mm * direction.x_mm, from.y_mm + distance_mm * direction.y_mm};
}

// The lines on both sides move by the distance, so their corner moves along the mean normal, and farther.
PlanePoint inset_point(const ContourPoint& p, double distance_mm) {
    constexpr double kSharpest = 0.1;
    const PlanePoint sum{p.before.x_mm + p.after.x_mm, p.before.y_mm + p.after.y_mm};
    return along(p.at, -distance_mm / std::max(kSharpest, 1.0 + dot(p.before, p.after)), sum);
}

bool runs_on(const Contour& contour, const Contour& moved) {
    constexpr double kLeastShare = 0.1;  // of a line that is left
    const std::size_t n = contour.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = i + 1 == n ? 0 : i + 1;
        const PlanePoint line = difference(contour.points[next].at, contour.points[i].at);
        if (dot(line, difference(moved.points[next].at, moved.points[i].at)) < kLeastShare * dot(line, line))
            return false;
    }
    return true;
}

// Where the support of disc `next` overtakes that of `disc`, as an angle from `from_rad` on; nothing where it never
// does. The support of a disc is its centre along the direction, and its radius more.
double overtaken_after(const Hole& disc, const Hole& next, double from_rad) {
    const PlanePoint apart = difference(next.centre, disc.centre);
    const double distance = std::hypot(apart.x_mm, apart.y_mm);
    const double lead = (disc.diameter_mm - next.diameter_mm) / 2.0;
    if (distance <= std::abs(lead)) return std::numeric_limits<double>::infinity();
    const double at = std::atan2(apart.y_mm, apart.x_mm) - std::acos(lead / distance);
    const double after = std::remainder(at - from_rad, 2.0 * kPi);
    constexpr double kSame = 1e-9;  // several discs may touch one line
    return after < -kSame ? after + 2.0 * kPi : std::max(0.0, after);
}

struct Overtaking {
    double after_rad;
    std::size_t disc;
};

// The next disc on the hull; of those on one line, the farthest.
Overtaking next_on_hull(std::span<const Hole> discs, std::size_t current, double from_rad) {
    constexpr double kSame = 1e-9;
    Overtaking best{std::numeric_limits<double>::infinity(), current};
    double best_distance = 0.0;
    for (std::size_t i = 0; i < discs.size(); ++i) {
        if (i == current) continue;
        const double after = overtaken_after(discs[current], discs[i], from_rad);
        const PlanePoint apart = difference(discs[i].centre, discs[current].centre);
        const double distance = std::hypot(apart.x_mm, apart.y_mm);
        if (after < best.after_rad - kSame || (after < best.after_rad + kSame && distance > best_distance)) {
            best = {after, i};
            best_distance = distance;
        }
    }
    return best;
}

// The disc that reaches farthest along +X; of several the highest, which stays ahead.
std::size_t first_on_hull(std::span<const Hole> discs) {
    const auto reach = [](const Hole& disc) { return disc.centre.x_mm + disc.diameter_mm / 2.0; };
    std::size_t first = 0;
    for (std::size_t i = 1; i < discs.size(); ++i) {
        const double more = reach(discs[i]) - reach(discs[first]);
        if (more > 0.0 || (more == 0.0 && discs[i].centre.y_mm > discs[first].centre.y_mm)) first = i;
    }
    return first;
}

// Points at one place become one.
void add_hull_point(std::vector<ContourPoint>& points, const PlanePoint& at, const PlanePoint& normal, double same_mm) {
    if (!points.empty() && std::hypot(at.x_mm - points.back().at.x_mm, at.y_mm - points.back().at.y_mm) < same_mm) {
        points.back().after = normal;
        return;
    }
    points.push_back({at, normal, normal});
}

void add_hull_arc(std::vector<ContourPoint>& points, const Hole& disc, double from_rad, double span_rad,
                  double tolerance_mm, double same_mm) {
    const double radius = disc.diameter_mm / 2.0;
    const int steps = std::max(1, static_cast<int>(std::ceil(span_rad / chord_angle(radius, tolerance_mm))));
    for (int i = 0; i <= steps; ++i) {
        const PlanePoint normal = direction_at(from_rad + span_rad * i / steps);
        add_hull_point(points, along(disc.centre, radius, normal), normal, same_mm);
    }
}

void join_ends(std::vector<ContourPoint>& points, double same_mm) {
    const PlanePoint gap = difference(points.back().at, points.front().at);
    if (points.size() < 2 || std::hypot(gap.x_mm, gap.y_mm) >= same_mm) return;
    points.front().before = points.back().before;
    points.pop_back();
}

}  // namespace

PlanePoint direction_at(double angle_rad) {
    return {std::cos(angle_rad), std::sin(angle_rad)};
}

PlanePoint turned_by(const PlanePoint& p, double angle_rad) {
    const PlanePoint x = direction_at(angle_rad);
    return {p.x_mm * x.x_mm - p.y_mm * x.y_mm, p.x_mm * x.y_mm + p.y_mm * x.x_mm};
}

double cross(const PlanePoint& a, const PlanePoint& b) {
    return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}

double dot(const PlanePoint& a, const PlanePoint& b) {
    return a.x_mm * b.x_mm + a.y_mm * b.y_mm;
}

double distance_to_segment(const PlanePoint& p, const PlanePoint& a, const PlanePoint& b) {
    const PlanePoint line = difference(b, a);
    const double square = dot(line, line);
    const double share = square > 0.0 ? std::clamp(dot(difference(p, a), line) / square, 0.0, 1.0) : 0.0;
    const PlanePoint apart = difference(p, along(a, share, line));
    return std::sqrt(dot(apart, apart));
}

ContourPoint corner_of(const PlanePoint& at, const PlanePoint& before, const PlanePoint& after) {
    constexpr double kCosSharp = 0.8660254;  // 30 degrees
    if (dot(before, after) < kCosSharp) return {at, before, after};
    const PlanePoint sum{before.x_mm + after.x_mm, before.y_mm + after.y_mm};
    const double length = std::hypot(sum.x_mm, sum.y_mm);
    const PlanePoint mean{sum.x_mm / length, sum.y_mm / length};
    return {at, mean, mean};
}

double chord_angle(double radius_mm, double tolerance_mm) {
    constexpr double kWidest = kPi / 6.0;
    if (tolerance_mm >= radius_mm) return kWidest;
    return std::min(kWidest, 2.0 * std::acos(1.0 - tolerance_mm / radius_mm));
}

int circle_sides(double radius_mm, double tolerance_mm, int multiple) {
    // 12 chords of 30 degrees are 12, whatever rounding says.
    const double sides = std::ceil(2.0 * kPi / chord_angle(radius_mm, tolerance_mm) - 1e-9);
    return multiple * static_cast<int>(std::ceil(sides / multiple));
}

Contour circle_contour(const PlanePoint& centre, double radius_mm, int sides, bool hole) {
    Contour contour{{}, hole};
    contour.points.reserve(static_cast<std::size_t>(sides));
    for (int i = 0; i < sides; ++i) {
        const PlanePoint outwards = direction_at(2.0 * kPi * i / sides);
        const PlanePoint normal = hole ? PlanePoint{-outwards.x_mm, -outwards.y_mm} : outwards;
        contour.points.push_back({along(centre, radius_mm, outwards), normal, normal});
    }
    return contour;
}

Contour keyed_bore(double radius_mm, double key_width_mm, double tolerance_mm) {
    const double half = key_width_mm / 2.0;
    const double bottom = radius_mm + half;
    const double edge_rad = std::asin(half / radius_mm);
    const double span = 2.0 * (kPi - edge_rad);
    const int sides = static_cast<int>(std::ceil(span / chord_angle(radius_mm, tolerance_mm)));
    Contour contour{{{{bottom, -half}, {0.0, 1.0}, {-1.0, 0.0}}, {{bottom, half}, {-1.0, 0.0}, {0.0, -1.0}}}, true};
    for (int i = 0; i <= sides; ++i) {
        const PlanePoint outwards = direction_at(edge_rad + span * i / sides);
        const PlanePoint inwards{-outwards.x_mm, -outwards.y_mm};
        const PlanePoint at{radius_mm * outwards.x_mm, radius_mm * outwards.y_mm};
        contour.points.push_back(
            {at, i == 0 ? PlanePoint{0.0, -1.0} : inwards, i == sides ? PlanePoint{0.0, 1.0} : inwards});
    }
    return contour;
}

Contour hull_contour(std::span<const Hole> discs, double tolerance_mm) {
    double size = 0.0;
    for (const Hole& disc : discs)
        size = std::max(size, std::hypot(disc.centre.x_mm, disc.centre.y_mm) + disc.diameter_mm / 2.0);
    const double same_mm = 1e-6 * size;
    Contour contour;
    std::size_t current = first_on_hull(discs);
    double at_rad = 0.0;
    // Every disc may come more than once: a large one between small ones.
    for (std::size_t arcs = 0; arcs < 4 * discs.size() && at_rad < 2.0 * kPi; ++arcs) {
        const Overtaking next = next_on_hull(discs, current, at_rad);
        const double span = std::min(next.after_rad, 2.0 * kPi - at_rad);
        add_hull_arc(contour.points, discs[current], at_rad, span, tolerance_mm, same_mm);
        at_rad += span;
        current = next.disc;
    }
    join_ends(contour.points, same_mm);
    for (ContourPoint& p : contour.points) p = corner_of(p.at, p.before, p.after);
    return contour;
}

Contour inset(const Contour& contour, double distance_mm) {
    Contour moved = contour;
    for (ContourPoint& p : moved.points) p.at = inset_point(p, distance_mm);
    return moved;
}

double inset_with_room(const Contour& contour, double wished_mm) {
    constexpr int kTries = 8;
    double distance = wished_mm;
    for (int i = 0; i < kTries; ++i, distance *= 0.7)
        if (runs_on(contour, inset(contour, distance))) return distance;
    return 0.0;
}

Loop placed(const Contour& contour, double z_mm, double turned_rad) {
    const PlanePoint x = direction_at(turned_rad);
    const auto z = static_cast<float>(z_mm);
    Loop loop;
    loop.reserve(contour.points.size());
    for (const ContourPoint& p : contour.points)
        loop.push_back({static_cast<float>(p.at.x_mm * x.x_mm - p.at.y_mm * x.y_mm),
                        static_cast<float>(p.at.x_mm * x.y_mm + p.at.y_mm * x.x_mm), z});
    return loop;
}

PlanePoint in_plane(const Position& p) {
    return {static_cast<double>(p[0]), static_cast<double>(p[1])};
}

double nearest_reach(const Loop& loop, const PlanePoint& from) {
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < loop.size(); ++i)
        nearest = std::min(
            nearest, distance_to_segment(from, in_plane(loop[i]), in_plane(loop[i + 1 == loop.size() ? 0 : i + 1])));
    return nearest;
}

double farthest_reach(const Loop& loop, const PlanePoint& from) {
    double farthest = 0.0;
    for (const Position& p : loop)
        farthest = std::max(farthest, std::hypot(in_plane(p).x_mm - from.x_mm, in_plane(p).y_mm - from.y_mm));
    return farthest;
}

}  // namespace couplet
