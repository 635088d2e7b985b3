#include "tooth/profile.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tooth/involute.hpp"

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

struct Polar {
    double radius_mm;
    double angle_rad;
};

PlanePoint plane(const Polar& p) {
    return {p.radius_mm * std::cos(p.angle_rad), p.radius_mm * std::sin(p.angle_rad)};
}

Polar polar(double along_radius_mm, double across_mm, double direction_rad) {
    return {std::hypot(along_radius_mm, across_mm), direction_rad + std::atan2(across_mm, along_radius_mm)};
}

double roll_at(double base_radius_mm, double radius_mm) {
    const double ratio = radius_mm / base_radius_mm;
    return std::sqrt(std::max(0.0, ratio * ratio - 1.0));
}

double half_pitch_rad(const GearSizes& sizes) {
    return kPi / sizes.spec.teeth;
}

// The involute's angle from the middle of its convex side.
double convex_angle(const FlankCurve& flank, double roll) {
    return flank.origin_rad - (roll - std::atan(roll));
}

// The rack's corner in the transverse plane, beside a space whose middle is at 0: the centre of its ellipse and its
// half axes.
struct Corner {
    double centre_across_mm;
    double centre_height_mm;  // above the pitch line; negative
    double radius_mm;
    double cos_helix;
    double end_rad;  // where the straight flank begins
};

Corner corner_of(const GearSizes& sizes) {
    const GearSpec& spec = sizes.spec;
    const double m = spec.module_mm;
    const double angle = spec.rack.pressure_angle_rad;
    const double cos_helix = std::cos(spec.helix_angle_rad);
    const double radius = spec.rack.root_radius * m;
    const double height = -(spec.rack.dedendum - spec.shift) * m + radius;
    const double half_space_normal = (kPi * sizes.transverse_module_mm - sizes.pitch_thickness_mm) / 2.0 * cos_helix;
    const double across = half_space_normal + height * std::tan(angle) - radius / std::cos(angle);
    return {across / cos_helix, height, radius, cos_helix, kPi / 2 - angle};
}

// What the corner's point at phi leaves on the gear, as an angle from the middle of the space: rolling turns the gear
// until the corner's normal there passes through the pitch point.
Polar trochoid(const GearSizes& sizes, const Corner& corner, double phi) {
    const double pitch_radius = sizes.pitch_diameter_mm / 2.0;
    const double across = corner.centre_across_mm + corner.radius_mm * std::sin(phi) / corner.cos_helix;
    const double height = corner.centre_height_mm - corner.radius_mm * std::cos(phi);
    const double pitch_point = across + height * std::tan(phi) * corner.cos_helix;
    return polar(pitch_radius + height, across - pitch_point, pitch_point / pitch_radius);
}

// How far the trochoid lies inside the metal that the involute would leave, as an angle; negative: in the space.
double cut_beyond_involute(const GearSizes& sizes, const Corner& corner, const FlankCurve& flank, double phi) {
    const Polar point = trochoid(sizes, corner, phi);
    const double involute_from_space =
        half_pitch_rad(sizes) - convex_angle(flank, roll_at(flank.base_radius_mm, point.radius_mm));
    return point.angle_rad - involute_from_space;
}

// An undercut flank ends where the trochoid crosses the involute. From the root it rises inside the base circle or
// inside the metal, comes out once, and ends in the space, on the branch that the involute has beyond its origin.
double undercut_end(const GearSizes& sizes, const Corner& corner, const FlankCurve& flank) {
    double inside = 0.0;
    double outside = corner.end_rad;
    for (int i = 0; i < 60 && outside - inside > 1e-15; ++i) {
        const double middle = (inside + outside) / 2.0;
        const bool beyond = trochoid(sizes, corner, middle).radius_mm < flank.base_radius_mm ||
                            cut_beyond_involute(sizes, corner, flank, middle) >= 0.0;
        (beyond ? inside : outside) = middle;
    }
    return outside;
}

// Whether an undercut goes past the middle of the tooth, where the one from the other side meets it.
bool is_cut_off(const GearSizes& sizes, const Corner& corner, double end_rad) {
    constexpr int kSamples = 64;
    for (int i = 0; i < kSamples; ++i)
        if (trochoid(sizes, corner, end_rad * i / kSamples).angle_rad >= half_pitch_rad(sizes)) return true;
    return false;
}

ProfileResult external_profile(const GearSizes& sizes) {
    const double base_radius = sizes.base_diameter_mm / 2.0;
    const double tip_radius = sizes.tip_diameter_mm / 2.0;
    if (sizes.root_diameter_mm <= 0.0) return {{}, ProfileFault::root_inside_axis};
    if (sizes.spec.rack.root_radius < 0.0) return {{}, ProfileFault::negative_fillet};
    const Corner corner = corner_of(sizes);
    if (corner.centre_across_mm < 0.0) return {{}, ProfileFault::no_room_at_root};

    ToothProfile profile{sizes, {}, corner.end_rad, corner.radius_mm, false, 0.0};
    profile.flank.base_radius_mm = base_radius;
    profile.flank.origin_rad =
        sizes.pitch_thickness_mm / sizes.pitch_diameter_mm + involute(sizes.transverse_angle_rad);
    // The straight flank ends at this height; its contact lies on the line of action.
    const double end_height = corner.centre_height_mm - corner.radius_mm * std::cos(corner.end_rad);
    const double sine = std::sin(sizes.transverse_angle_rad);
    const double tangent_length = sizes.pitch_diameter_mm / 2.0 * sine + end_height / sine;
    if (tangent_length < 0.0) {
        profile.undercut = true;
        profile.undercut_roll = -tangent_length / base_radius;
        profile.fillet_end_rad = undercut_end(sizes, corner, profile.flank);
        profile.flank.inner_roll = roll_at(base_radius, trochoid(sizes, corner, profile.fillet_end_rad).radius_mm);
    } else {
        profile.flank.inner_roll = tangent_length / base_radius;
    }
    profile.flank.outer_roll = roll_at(base_radius, tip_radius);
    if (tip_radius <= base_radius || profile.flank.inner_roll >= profile.flank.outer_roll)
        return {{}, ProfileFault::tip_below_fillet};
    if (convex_angle(profile.flank, profile.flank.outer_roll) <= 0.0) return {{}, ProfileFault::pointed_before_tip};
    if (profile.undercut && is_cut_off(sizes, corner, profile.fillet_end_rad)) return {{}, ProfileFault::cut_off};
    return {profile, {}};
}

// The centre of an internal fillet: at its radius from root circle and flank, as an angle from the middle of the space.
double internal_fillet_centre(const ToothProfile& profile, double fillet_radius_mm) {
    const double root_radius = profile.sizes.root_diameter_mm / 2.0;
    const double roll = roll_at(profile.flank.base_radius_mm, root_radius - fillet_radius_mm);
    return convex_angle(profile.flank, roll) - fillet_radius_mm / profile.flank.base_radius_mm;
}

// The rack's radius, or the one that just fills the space's bottom; never so large that no flank could be tangent to
// it.
double internal_fillet_radius(const ToothProfile& profile) {
    const double wished = std::min(profile.sizes.spec.rack.root_radius * profile.sizes.spec.module_mm,
                                   profile.sizes.root_diameter_mm / 2.0 - profile.flank.base_radius_mm);
    if (internal_fillet_centre(profile, wished) >= 0.0) return wished;
    double fits = 0.0;
    double too_large = wished;
    for (int i = 0; i < 80; ++i) {
        const double middle = (fits + too_large) / 2.0;
        (internal_fillet_centre(profile, middle) >= 0.0 ? fits : too_large) = middle;
    }
    return fits;
}

ProfileResult internal_profile(const GearSizes& sizes) {
    const double base_radius = sizes.base_diameter_mm / 2.0;
    const double tip_radius = sizes.tip_diameter_mm / 2.0;
    const double root_radius = sizes.root_diameter_mm / 2.0;
    if (tip_radius <= 0.0) return {{}, ProfileFault::root_inside_axis};
    if (sizes.spec.rack.root_radius < 0.0) return {{}, ProfileFault::negative_fillet};
    if (root_radius <= base_radius) return {{}, ProfileFault::tip_inside_base};

    ToothProfile profile{sizes, {}, 0.0, 0.0, false, 0.0};
    profile.flank.base_radius_mm = base_radius;
    profile.flank.origin_rad = half_pitch_rad(sizes) - sizes.pitch_thickness_mm / sizes.pitch_diameter_mm +
                               involute(sizes.transverse_angle_rad);
    if (convex_angle(profile.flank, roll_at(base_radius, root_radius)) <= 0.0)
        return {{}, ProfileFault::no_room_at_root};
    profile.root_fillet_radius_mm = internal_fillet_radius(profile);
    const double centre_roll = roll_at(base_radius, root_radius - profile.root_fillet_radius_mm);
    profile.flank.inner_roll = roll_at(base_radius, tip_radius);
    profile.flank.outer_roll = centre_roll + profile.root_fillet_radius_mm / base_radius;
    profile.fillet_end_rad = kPi / 2 - std::atan(centre_roll);
    if (profile.flank.inner_roll >= profile.flank.outer_roll) return {{}, ProfileFault::tip_below_fillet};
    const double tooth_at_tip = half_pitch_rad(sizes) - convex_angle(profile.flank, profile.flank.inner_roll);
    if (tooth_at_tip <= 0.0) return {{}, ProfileFault::pointed_before_tip};
    return {profile, {}};
}

// Nothing for an arc of no length: where fillets meet in the middle of a space there is no root left.
void add_arc(std::vector<PlanePoint>& points, double radius_mm, double from_rad, double to_rad, double tolerance_mm) {
    if (std::abs(to_rad - from_rad) < 1e-12) return;
    const double step = 2.0 * std::acos(std::max(-1.0, 1.0 - tolerance_mm / radius_mm));
    const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(to_rad - from_rad) / step)));
    for (int i = 0; i < steps; ++i) points.push_back(plane({radius_mm, from_rad + (to_rad - from_rad) * i / steps}));
}

// Equal sagitta: with the curvature radius r_b t and the arc r_b t dt it is r_b t dt^2 / 8, so steps are equal in
// t^1.5.
void add_flank(std::vector<PlanePoint>& points, const ToothProfile& profile, double from_roll, double to_roll,
               double tolerance_mm) {
    const double from = std::pow(from_roll, 1.5);
    const double to = std::pow(to_roll, 1.5);
    const double step = 1.5 * std::sqrt(8.0 * tolerance_mm / profile.flank.base_radius_mm);
    const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / step)));
    for (int i = 0; i < steps; ++i)
        points.push_back(flank_point(profile, std::pow(from + (to - from) * i / steps, 2.0 / 3.0)));
}

double distance_to_chord(const PlanePoint& p, const PlanePoint& a, const PlanePoint& b) {
    const double length = std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    if (length == 0.0) return std::hypot(p.x_mm - a.x_mm, p.y_mm - a.y_mm);
    return std::abs((b.x_mm - a.x_mm) * (p.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (p.x_mm - a.x_mm)) / length;
}

bool is_same(const PlanePoint& a, const PlanePoint& b) {
    constexpr double kSame_mm = 1e-12;
    return std::abs(a.x_mm - b.x_mm) < kSame_mm && std::abs(a.y_mm - b.y_mm) < kSame_mm;
}

// How far the fillet leaves the chord between two of its points: the trochoid's parameter is uneven, so three points
// look.
double fillet_sagitta(const ToothProfile& profile, double from, double to) {
    const PlanePoint start = fillet_point(profile, from);
    const PlanePoint end = fillet_point(profile, to);
    double most = 0.0;
    for (const double share : {0.25, 0.5, 0.75})
        most = std::max(most, distance_to_chord(fillet_point(profile, from + share * (to - from)), start, end));
    return most;
}

void add_fillet_piece(std::vector<PlanePoint>& points, const ToothProfile& profile, double from, double to,
                      double tolerance_mm, int halvings) {
    constexpr int kMostHalvings = 12;
    // Between the points that looked, the largest may hide a fifteenth more.
    if (halvings >= kMostHalvings || fillet_sagitta(profile, from, to) <= 0.93 * tolerance_mm) {
        points.push_back(fillet_point(profile, from));
        return;
    }
    const double middle = (from + to) / 2.0;
    add_fillet_piece(points, profile, from, middle, tolerance_mm, halvings + 1);
    add_fillet_piece(points, profile, middle, to, tolerance_mm, halvings + 1);
}

// Nothing for a sharp corner.
void add_fillet(std::vector<PlanePoint>& points, const ToothProfile& profile, double tolerance_mm) {
    const double end = profile.fillet_end_rad;
    if (is_same(fillet_point(profile, end), fillet_point(profile, 0.0))) return;
    add_fillet_piece(points, profile, end, end / 2.0, tolerance_mm, 1);
    add_fillet_piece(points, profile, end / 2.0, 0.0, tolerance_mm, 1);
}

// From the middle of the tooth to the middle of the space above it, the last point left out.
std::vector<PlanePoint> upper_half(const ToothProfile& profile, double tolerance_mm) {
    const GearSizes& sizes = profile.sizes;
    const bool internal = sizes.spec.internal;
    const double tip_roll = internal ? profile.flank.inner_roll : profile.flank.outer_roll;
    const double root_roll = internal ? profile.flank.outer_roll : profile.flank.inner_roll;
    const PlanePoint tip = flank_point(profile, tip_roll);
    const PlanePoint bottom = fillet_point(profile, 0.0);
    std::vector<PlanePoint> points;
    add_arc(points, sizes.tip_diameter_mm / 2.0, 0.0, std::atan2(tip.y_mm, tip.x_mm), tolerance_mm);
    // A tip inside the base circle is reached along the radius.
    if (internal && sizes.tip_diameter_mm < sizes.base_diameter_mm)
        points.push_back(plane({sizes.tip_diameter_mm / 2.0, std::atan2(tip.y_mm, tip.x_mm)}));
    add_flank(points, profile, tip_roll, root_roll, tolerance_mm);
    add_fillet(points, profile, tolerance_mm);
    add_arc(points, sizes.root_diameter_mm / 2.0, std::atan2(bottom.y_mm, bottom.x_mm), half_pitch_rad(sizes),
            tolerance_mm);
    return points;
}

}  // namespace

double ToothProfile::inner_form_diameter_mm() const {
    return 2.0 * flank.base_radius_mm * std::hypot(1.0, flank.inner_roll);
}

double ToothProfile::outer_form_diameter_mm() const {
    return 2.0 * flank.base_radius_mm * std::hypot(1.0, flank.outer_roll);
}

ProfileResult profile_of(const GearSizes& sizes) {
    return sizes.spec.internal ? internal_profile(sizes) : external_profile(sizes);
}

PlanePoint flank_point(const ToothProfile& profile, double roll) {
    const double convex = convex_angle(profile.flank, roll);
    const double angle = profile.sizes.spec.internal ? half_pitch_rad(profile.sizes) - convex : convex;
    return plane({profile.flank.base_radius_mm * std::hypot(1.0, roll), angle});
}

PlanePoint fillet_point(const ToothProfile& profile, double corner_rad) {
    const GearSizes& sizes = profile.sizes;
    if (!sizes.spec.internal) {
        const Polar from_space = trochoid(sizes, corner_of(sizes), corner_rad);
        return plane({from_space.radius_mm, half_pitch_rad(sizes) - from_space.angle_rad});
    }
    const double radius = profile.root_fillet_radius_mm;
    const double centre_angle = internal_fillet_centre(profile, radius);
    const double centre_radius = sizes.root_diameter_mm / 2.0 - radius;
    // From the root circle, straight out, towards the flank.
    const Polar from_space =
        polar(centre_radius + radius * std::cos(corner_rad), radius * std::sin(corner_rad), centre_angle);
    return plane({from_space.radius_mm, half_pitch_rad(sizes) - from_space.angle_rad});
}

std::vector<PlanePoint> tooth_polygon(const ToothProfile& profile, double tolerance_mm) {
    const std::vector<PlanePoint> upper = upper_half(profile, tolerance_mm);
    const double half_pitch = half_pitch_rad(profile.sizes);
    std::vector<PlanePoint> points;
    points.reserve(2 * upper.size());
    points.push_back(plane({profile.sizes.root_diameter_mm / 2.0, -half_pitch}));
    for (std::size_t i = upper.size(); i-- > 1;) points.push_back({upper[i].x_mm, -upper[i].y_mm});
    points.insert(points.end(), upper.begin(), upper.end());
    return points;
}

std::vector<PlanePoint> gear_polygon(const ToothProfile& profile, double tolerance_mm) {
    const std::vector<PlanePoint> tooth = tooth_polygon(profile, tolerance_mm);
    const int teeth = profile.sizes.spec.teeth;
    std::vector<PlanePoint> points;
    points.reserve(tooth.size() * static_cast<std::size_t>(teeth));
    for (int k = 0; k < teeth; ++k) {
        const double turn = 2.0 * kPi * k / teeth;
        const double cosine = std::cos(turn);
        const double sine = std::sin(turn);
        for (const PlanePoint& p : tooth)
            points.push_back({p.x_mm * cosine - p.y_mm * sine, p.x_mm * sine + p.y_mm * cosine});
    }
    return points;
}

}  // namespace couplet
