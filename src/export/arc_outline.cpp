#include "export/arc_outline.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kSame_mm = 1e-9;
constexpr double kSame_rad = 1e-12;

PlanePoint operator+(const PlanePoint& a, const PlanePoint& b) {
    return {a.x_mm + b.x_mm, a.y_mm + b.y_mm};
}
PlanePoint operator-(const PlanePoint& a, const PlanePoint& b) {
    return {a.x_mm - b.x_mm, a.y_mm - b.y_mm};
}
PlanePoint operator*(const PlanePoint& a, double factor) {
    return {a.x_mm * factor, a.y_mm * factor};
}
double dot(const PlanePoint& a, const PlanePoint& b) {
    return a.x_mm * b.x_mm + a.y_mm * b.y_mm;
}
double cross(const PlanePoint& a, const PlanePoint& b) {
    return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}
double length(const PlanePoint& a) {
    return std::hypot(a.x_mm, a.y_mm);
}
double angle_from(const PlanePoint& a, const PlanePoint& b) {
    return std::atan2(cross(a, b), dot(a, b));
}
PlanePoint direction(double angle_rad) {
    return {std::cos(angle_rad), std::sin(angle_rad)};
}

// Of an arc that turns by so much.
double bulge_of(double angle_rad) {
    return std::tan(angle_rad / 4.0);
}

// Two arcs: from `start` to the joint, and on to the end.
struct Biarc {
    ArcCorner start;
    ArcCorner joint;
};

// Arms of length d along the tangents t0 and t1 end at points that lie 2 d apart, the joint in their middle:
// |v - d (t0 + t1)| = 2 d, v being the way from end to end.
Biarc biarc(const PlanePoint& p0, const PlanePoint& t0, const PlanePoint& p1, const PlanePoint& t1) {
    const PlanePoint v = p1 - p0;
    const double along = dot(v, t0 + t1);
    const double square = dot(v, v);
    const double d = square / (along + std::sqrt(along * along + 2.0 * (1.0 - dot(t0, t1)) * square));
    const PlanePoint joint = (p0 + p1 + (t0 - t1) * d) * 0.5;
    return {{p0, bulge_of(2.0 * angle_from(t0, joint - p0))}, {joint, bulge_of(2.0 * angle_from(p1 - joint, t1))}};
}

// A smooth curve by a parameter; the tangent, of length 1, points where the parameter goes from `from` to `to`.
template <class PointAt, class TangentAt>
class Fit {
  public:
    Fit(PointAt point_at, TangentAt tangent_at, double tolerance_mm, ArcLoop& chain)
        : point_at_(point_at), tangent_at_(tangent_at), tolerance_mm_(tolerance_mm), chain_(chain) {}

    // Each pair of arcs goes as far as the tolerance lets it, so that there are few. Leaves the end out.
    void add(double from, double to) {
        while (!add_piece(from, to)) from = farthest(from, to);
    }

  private:
    // False, and nothing added, where the pair of arcs is not close.
    bool add_piece(double from, double to) {
        const PlanePoint end = point_at_(to);
        // So short that a line does, even into a cusp, where no tangent could be told.
        if (const PlanePoint start = point_at_(from); length(end - start) < tolerance_mm_ / 2.0) {
            chain_.push_back({start, 0.0});
            return true;
        }
        const Biarc pair = pair_of(from, to);
        if (!is_close(pair, end, from, to)) return false;
        chain_.push_back(pair.start);
        chain_.push_back(pair.joint);
        return true;
    }

    [[nodiscard]] Biarc pair_of(double from, double to) const {
        return biarc(point_at_(from), tangent_at_(from), point_at_(to), tangent_at_(to));
    }

    // Adds the longest piece that is close, and returns where it ends. Where none is, the curve has a cusp, and a line
    // over it is short.
    double farthest(double from, double to) {
        constexpr int kSearches = 12;
        double close = 0.0;
        double far = 1.0;
        for (int i = 0; i < kSearches; ++i) {
            const double middle = (close + far) / 2.0;
            const double there = from + (to - from) * middle;
            (is_close(pair_of(from, there), point_at_(there), from, there) ? close : far) = middle;
        }
        const double end = from + (to - from) * (close > 0.0 ? close : far);
        if (close == 0.0)
            chain_.push_back({point_at_(from), 0.0});
        else
            add_piece(from, end);
        return end;
    }

    [[nodiscard]] bool is_close(const Biarc& pair, const PlanePoint& end, double from, double to) const {
        constexpr int kLooks = 31;
        // Between the points that look, the largest distance may hide a little more.
        const double most_mm = 0.98 * tolerance_mm_;
        if (!std::isfinite(pair.start.bulge) || !std::isfinite(pair.joint.bulge)) return false;
        for (int i = 1; i < kLooks; ++i) {
            const PlanePoint point = point_at_(from + (to - from) * i / kLooks);
            if (std::min(distance_to_arc_mm(point, pair.start, pair.joint.at),
                         distance_to_arc_mm(point, pair.joint, end)) > most_mm)
                return false;
        }
        return true;
    }

    PointAt point_at_;
    TangentAt tangent_at_;
    double tolerance_mm_;
    ArcLoop& chain_;
};

double half_pitch_rad(const ToothProfile& profile) {
    return kPi / profile.sizes.spec.teeth;
}

void add_flank(ArcLoop& chain, const ToothProfile& profile, double from_roll, double to_roll, double tolerance_mm) {
    const double sense = to_roll < from_roll ? -1.0 : 1.0;
    // P'(t) = r_b t e(c - t), the sum of two terms that cancel but for this one.
    const auto tangent = [&](double roll) {
        const double convex = profile.flank.origin_rad - roll;
        return direction(profile.sizes.spec.internal ? half_pitch_rad(profile) - convex : convex) * sense;
    };
    Fit([&](double roll) { return flank_point(profile, roll); }, tangent, tolerance_mm, chain).add(from_roll, to_roll);
}

// From the flank to the root; an internal gear's is an arc already.
void add_fillet(ArcLoop& chain, const ToothProfile& profile, double tolerance_mm) {
    const double end = profile.fillet_end_rad;
    const auto point = [&](double corner_rad) { return fillet_point(profile, corner_rad); };
    if (length(point(end) - point(0.0)) < kSame_mm) return;
    if (profile.sizes.spec.internal) {
        const double side = cross(point(end / 2.0) - point(end), point(0.0) - point(end / 2.0));
        chain.push_back({point(end), std::copysign(bulge_of(end), side)});
        return;
    }
    const auto tangent = [&](double corner_rad) {
        const double step = 1e-5 * end;
        const PlanePoint way = point(corner_rad - step) - point(corner_rad + step);
        return way * (1.0 / length(way));
    };
    Fit(point, tangent, tolerance_mm, chain).add(end, 0.0);
}

// The side of a tooth above +X, from the tip circle to the root circle, both ends counted; the last bulge is unused.
ArcLoop upper_side(const ToothProfile& profile, double tolerance_mm) {
    const bool internal = profile.sizes.spec.internal;
    const double tip_roll = internal ? profile.flank.inner_roll : profile.flank.outer_roll;
    const double root_roll = internal ? profile.flank.outer_roll : profile.flank.inner_roll;
    ArcLoop chain;
    // A tip inside the base circle is reached along the radius.
    if (internal && profile.sizes.tip_diameter_mm < profile.sizes.base_diameter_mm) {
        const PlanePoint base = flank_point(profile, tip_roll);
        chain.push_back({base * (profile.sizes.tip_diameter_mm / 2.0 / length(base)), 0.0});
    }
    add_flank(chain, profile, tip_roll, root_roll, tolerance_mm);
    add_fillet(chain, profile, tolerance_mm);
    chain.push_back({fillet_point(profile, 0.0), 0.0});
    return chain;
}

double angle_of(const PlanePoint& point) {
    return std::atan2(point.y_mm, point.x_mm);
}

// From the lower foot over the tip to the upper foot, whose bulge leads along the root to the next tooth. A space
// without a bottom has one foot for both teeth.
ArcLoop tooth_arcs(const ToothProfile& profile, double tolerance_mm) {
    const ArcLoop upper = upper_side(profile, tolerance_mm);
    ArcLoop tooth;
    const auto mirrored = [](const PlanePoint& p) { return PlanePoint{p.x_mm, -p.y_mm}; };
    for (std::size_t i = upper.size(); i-- > 1;) tooth.push_back({mirrored(upper[i].at), upper[i - 1].bulge});
    tooth.push_back({mirrored(upper.front().at), bulge_of(2.0 * angle_of(upper.front().at))});
    tooth.insert(tooth.end(), upper.begin(), upper.end());
    const double root_rad = 2.0 * (half_pitch_rad(profile) - angle_of(upper.back().at));
    if (root_rad < kSame_rad)
        tooth.pop_back();
    else
        tooth.back().bulge = bulge_of(root_rad);
    return tooth;
}

}  // namespace

ArcLoop gear_arcs(const ToothProfile& profile, double tolerance_mm) {
    const ArcLoop tooth = tooth_arcs(profile, tolerance_mm);
    const int teeth = profile.sizes.spec.teeth;
    ArcLoop loop;
    loop.reserve(tooth.size() * static_cast<std::size_t>(teeth));
    for (int k = 0; k < teeth; ++k) {
        const ArcLoop turned = turned_and_moved(tooth, 2.0 * kPi * k / teeth, {0.0, 0.0});
        loop.insert(loop.end(), turned.begin(), turned.end());
    }
    return loop;
}

ArcLoop turned_and_moved(const ArcLoop& loop, double turned_rad, const PlanePoint& to) {
    const double cosine = std::cos(turned_rad);
    const double sine = std::sin(turned_rad);
    ArcLoop result;
    result.reserve(loop.size());
    for (const ArcCorner& corner : loop)
        result.push_back({{to.x_mm + corner.at.x_mm * cosine - corner.at.y_mm * sine,
                           to.y_mm + corner.at.x_mm * sine + corner.at.y_mm * cosine},
                          corner.bulge});
    return result;
}

double distance_to_arc_mm(const PlanePoint& point, const ArcCorner& from, const PlanePoint& to) {
    constexpr double kStraight = 1e-9;
    const PlanePoint chord = to - from.at;
    const PlanePoint way = point - from.at;
    const double square = dot(chord, chord);
    if (square == 0.0) return length(way);
    if (std::abs(from.bulge) < kStraight) return length(way - chord * std::clamp(dot(way, chord) / square, 0.0, 1.0));
    // The centre lies beside the chord's middle, by half the chord times the cotangent of half the arc's angle.
    const double height = (1.0 - from.bulge * from.bulge) / (4.0 * from.bulge);
    const PlanePoint centre = from.at + chord * 0.5 + PlanePoint{-chord.y_mm, chord.x_mm} * height;
    const PlanePoint ray = point - centre;
    const double sense = from.bulge < 0.0 ? -1.0 : 1.0;
    const double begins = cross(from.at - centre, ray) * sense;
    const double ends = cross(ray, to - centre) * sense;
    // More than half a turn is what lies outside of the lesser rest.
    const bool beside = std::abs(from.bulge) <= 1.0 ? begins >= 0.0 && ends >= 0.0 : begins >= 0.0 || ends >= 0.0;
    if (beside) return std::abs(length(ray) - length(from.at - centre));
    return std::min(length(way), length(point - to));
}

}  // namespace couplet
