#include "tooth/gear_pair.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tooth/involute.hpp"

namespace couplet {

namespace {

double transverse_angle(const GearSpec& spec) {
    return std::atan(std::tan(spec.rack.pressure_angle_rad) / std::cos(spec.helix_angle_rad));
}

// z1 + z2, or z2 - z1 for an internal pair.
double tooth_sum(const GearSpec& first, const GearSpec& second) {
    return second.internal ? second.teeth - first.teeth : first.teeth + second.teeth;
}

double shift_sum(const GearSpec& first, const GearSpec& second) {
    return second.internal ? second.shift - first.shift : first.shift + second.shift;
}

double reference_centre(const GearSpec& first, const GearSpec& second) {
    return first.module_mm / std::cos(first.helix_angle_rad) * tooth_sum(first, second) / 2.0;
}

}  // namespace

std::optional<double> operating_angle_of(const GearSpec& first, const GearSpec& second) {
    const double teeth = tooth_sum(first, second);
    if (!(teeth > 0.0)) return std::nullopt;
    const double value = involute(transverse_angle(first)) +
                         2.0 * std::tan(first.rack.pressure_angle_rad) * shift_sum(first, second) / teeth;
    const double angle = inverse_involute(value);
    if (!std::isfinite(angle)) return std::nullopt;
    return angle;
}

double base_distance_mm(const GearSizes& first, const GearSizes& second) {
    const double sense = second.spec.internal ? -1.0 : 1.0;
    return (second.base_diameter_mm + sense * first.base_diameter_mm) / 2.0;
}

double centre_distance_at(const GearSpec& first, const GearSpec& second, double operating_angle_rad) {
    return reference_centre(first, second) * std::cos(transverse_angle(first)) / std::cos(operating_angle_rad);
}

std::optional<double> operating_angle_at(const GearSpec& first, const GearSpec& second, double centre_distance_mm) {
    const double cosine = reference_centre(first, second) * std::cos(transverse_angle(first)) / centre_distance_mm;
    if (!(cosine > 0.0 && cosine <= 1.0)) return std::nullopt;
    return std::acos(cosine);
}

double shift_sum_for(const GearSpec& first, const GearSpec& second, double operating_angle_rad) {
    return (involute(operating_angle_rad) - involute(transverse_angle(first))) * tooth_sum(first, second) /
           (2.0 * std::tan(first.rack.pressure_angle_rad));
}

double tip_change_for(const GearSpec& first, const GearSpec& second, double operating_angle_rad) {
    if (second.internal) return 0.0;
    const double moved = centre_distance_at(first, second, operating_angle_rad) - reference_centre(first, second);
    return std::min(0.0, moved / first.module_mm - shift_sum(first, second));
}

PairSizes pair_sizes(const GearSizes& first, const GearSizes& second, double operating_angle_rad) {
    const bool internal = second.spec.internal;
    const double sense = internal ? -1.0 : 1.0;
    PairSizes pair{};
    pair.reference_centre_mm = reference_centre(first.spec, second.spec);
    pair.centre_distance_mm = centre_distance_at(first.spec, second.spec, operating_angle_rad);
    pair.operating_angle_rad = operating_angle_rad;
    pair.first_operating_diameter_mm = first.base_diameter_mm / std::cos(operating_angle_rad);
    pair.second_operating_diameter_mm = second.base_diameter_mm / std::cos(operating_angle_rad);

    const double first_to_pitch = tangent_length_mm(first, pair.first_operating_diameter_mm);
    const double second_to_pitch = tangent_length_mm(second, pair.second_operating_diameter_mm);
    pair.path_end_mm = tangent_length_mm(first, first.tip_diameter_mm) - first_to_pitch;
    pair.path_start_mm = -sense * (tangent_length_mm(second, second.tip_diameter_mm) - second_to_pitch);
    const double base_pitch_mm = std::numbers::pi * first.base_diameter_mm / first.spec.teeth;
    pair.transverse_contact_ratio = (pair.path_end_mm - pair.path_start_mm) / base_pitch_mm;
    const double face_mm = std::min(first.spec.face_width_mm, second.spec.face_width_mm);
    pair.overlap_ratio =
        face_mm * std::abs(std::sin(first.spec.helix_angle_rad)) / (std::numbers::pi * first.spec.module_mm);

    const auto thickness = [&](const GearSizes& gear, double diameter_mm) {
        return half_tooth_angle_at(gear, diameter_mm) * diameter_mm;
    };
    const double pitch_mm = std::numbers::pi * pair.first_operating_diameter_mm / first.spec.teeth;
    pair.circular_backlash_mm = pitch_mm - thickness(first, pair.first_operating_diameter_mm) -
                                thickness(second, pair.second_operating_diameter_mm);
    pair.normal_backlash_mm =
        pair.circular_backlash_mm * std::cos(operating_angle_rad) * std::cos(first.base_helix_rad);
    pair.first_backlash_rad = 2.0 * pair.circular_backlash_mm / pair.first_operating_diameter_mm;
    pair.second_backlash_rad = 2.0 * pair.circular_backlash_mm / pair.second_operating_diameter_mm;

    const double a = pair.centre_distance_mm;
    pair.first_root_clearance_mm = internal ? second.tip_diameter_mm / 2.0 - a - first.root_diameter_mm / 2.0
                                            : a - second.tip_diameter_mm / 2.0 - first.root_diameter_mm / 2.0;
    pair.second_root_clearance_mm = internal ? second.root_diameter_mm / 2.0 - a - first.tip_diameter_mm / 2.0
                                             : a - first.tip_diameter_mm / 2.0 - second.root_diameter_mm / 2.0;
    return pair;
}

}  // namespace couplet
