#include "place/contacts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// Seen from the first gear's axis; a ring's axis lies behind the pitch point.
double to_pitch_point_rad(const MeshStanding& standing, bool second_is_internal) {
    const double away = std::atan2(standing.second_centre_mm.y_mm - standing.first_centre_mm.y_mm,
                                   standing.second_centre_mm.x_mm - standing.first_centre_mm.x_mm);
    return second_is_internal ? away + std::numbers::pi : away;
}

}  // namespace

// ALPHABET  r_b base radius of the first gear, a the operating angle, psi where the line of action touches its base
//           circle, c where a flank's involute begins seen from its tooth, t the roll angle: a flank's point is on the
//           line when the involute's own tangent point is there, c + tooth - t = psi, and then lies r_b t along it.
// Counted for flanks ahead; those behind are the mirror image in the line of centres.
std::vector<PlanePoint> contact_points(const ToothProfile& first, const MeshSizes& mesh, bool second_is_internal,
                                       const MeshStanding& standing, FlankSide side) {
    std::vector<PlanePoint> points;
    if (!mesh.pair || !mesh.active) return points;
    const double sense = side == FlankSide::ahead ? 1.0 : -1.0;
    const double to_pitch_point = to_pitch_point_rad(standing, second_is_internal);
    const double r_b = first.flank.base_radius_mm;
    const double a = mesh.pair->operating_angle_rad;
    const double pitch = kTurn / first.sizes.spec.teeth;
    const double tooth = sense * (standing.first_tooth_rad - to_pitch_point);
    const double to_pitch_point_mm = r_b * std::tan(a);
    const double shortest_roll = (to_pitch_point_mm + mesh.active->start_mm) / r_b;
    const double longest_roll = (to_pitch_point_mm + mesh.active->end_mm) / r_b;
    const double psi = -a;
    const double roll = first.flank.origin_rad + tooth - psi;
    const double first_roll = roll - pitch * std::floor((roll - shortest_roll) / pitch);
    const int count = static_cast<int>(std::floor((longest_roll - first_roll) / pitch)) + 1;
    for (int i = 0; i < count; ++i) {
        // An involute moved along its normals is the same involute rolled on.
        const double t = first_roll + i * pitch + standing.play_mm / 2.0 / r_b;
        const double x = r_b * (std::cos(psi) - t * std::sin(psi));
        const double y = sense * r_b * (std::sin(psi) + t * std::cos(psi));
        const double cosine = std::cos(to_pitch_point);
        const double sine = std::sin(to_pitch_point);
        points.push_back({standing.first_centre_mm.x_mm + x * cosine - y * sine,
                          standing.first_centre_mm.y_mm + x * sine + y * cosine});
    }
    return points;
}

std::optional<PlanePoint> middle_contact(const ToothProfile& first, const MeshSizes& mesh, bool second_is_internal,
                                         const MeshStanding& standing, FlankSide side) {
    const std::vector<PlanePoint> points = contact_points(first, mesh, second_is_internal, standing, side);
    if (points.empty()) return std::nullopt;
    const double direction = to_pitch_point_rad(standing, second_is_internal);
    const double radius_mm = mesh.pair->first_operating_diameter_mm / 2.0;
    const PlanePoint pitch_point{standing.first_centre_mm.x_mm + radius_mm * std::cos(direction),
                                 standing.first_centre_mm.y_mm + radius_mm * std::sin(direction)};
    return *std::ranges::min_element(points, {}, [&](const PlanePoint& p) {
        return std::hypot(p.x_mm - pitch_point.x_mm, p.y_mm - pitch_point.y_mm);
    });
}

}  // namespace couplet
