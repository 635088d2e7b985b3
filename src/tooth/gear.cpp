#include "tooth/gear.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "tooth/involute.hpp"

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

constexpr std::array kPreferredModules = {1.0, 1.25, 1.5,  2.0,  2.5,  3.0,  4.0,  5.0,  6.0,
                                          8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0};
constexpr std::array kSecondModules = {1.125, 1.375, 1.75, 2.25, 2.75, 3.5,  4.5,  5.5,  6.5,
                                       7.0,   9.0,   11.0, 14.0, 18.0, 22.0, 28.0, 36.0, 45.0};

// Half the angle that the convex side of the involute fills at a circle: the tooth of an external gear, the space of an
// internal one. It narrows outwards in both.
double half_convex_angle_at(const GearSizes& gear, double diameter_mm) {
    const double at_pitch = gear.pitch_thickness_mm / gear.pitch_diameter_mm;
    const double convex = gear.spec.internal ? kPi / gear.spec.teeth - at_pitch : at_pitch;
    return convex + involute(gear.transverse_angle_rad) - involute(pressure_angle_at(gear, diameter_mm));
}

}  // namespace

GearSizes sizes_of(const GearSpec& spec) {
    GearSizes gear{};
    gear.spec = spec;
    const double m = spec.module_mm;
    const double cos_helix = std::cos(spec.helix_angle_rad);
    const double outward = spec.internal ? -1.0 : 1.0;
    gear.transverse_module_mm = m / cos_helix;
    gear.transverse_angle_rad = std::atan(std::tan(spec.rack.pressure_angle_rad) / cos_helix);
    gear.base_helix_rad = std::asin(std::sin(spec.helix_angle_rad) * std::cos(spec.rack.pressure_angle_rad));
    gear.pitch_diameter_mm = spec.teeth * gear.transverse_module_mm;
    gear.base_diameter_mm = gear.pitch_diameter_mm * std::cos(gear.transverse_angle_rad);
    gear.tip_diameter_mm =
        gear.pitch_diameter_mm + 2.0 * m * (outward * (spec.rack.addendum + spec.tip_change) + spec.shift);
    gear.root_diameter_mm = gear.pitch_diameter_mm + 2.0 * m * (-outward * spec.rack.dedendum + spec.shift);
    const double widening = outward * 2.0 * spec.shift * std::tan(spec.rack.pressure_angle_rad);
    gear.pitch_thickness_mm = m * (kPi / 2 + widening) / cos_helix - spec.thinning_mm;
    gear.tip_thickness_mm = half_tooth_angle_at(gear, gear.tip_diameter_mm) * gear.tip_diameter_mm;
    return gear;
}

double pressure_angle_at(const GearSizes& gear, double diameter_mm) {
    return diameter_mm > gear.base_diameter_mm ? std::acos(gear.base_diameter_mm / diameter_mm) : 0.0;
}

double tangent_length_mm(const GearSizes& gear, double diameter_mm) {
    const double square = diameter_mm * diameter_mm - gear.base_diameter_mm * gear.base_diameter_mm;
    return diameter_mm > gear.base_diameter_mm ? std::sqrt(square) / 2.0 : 0.0;
}

double half_tooth_angle_at(const GearSizes& gear, double diameter_mm) {
    const double convex = half_convex_angle_at(gear, diameter_mm);
    return gear.spec.internal ? kPi / gear.spec.teeth - convex : convex;
}

double pointed_diameter(const GearSizes& gear) {
    const double at_base = std::max(0.0, half_convex_angle_at(gear, gear.base_diameter_mm));
    return gear.base_diameter_mm / std::cos(inverse_involute(at_base));
}

UndercutLimit undercut_limit(const GearSpec& spec) {
    const double cos_helix = std::cos(spec.helix_angle_rad);
    const double angle_t = std::atan(std::tan(spec.rack.pressure_angle_rad) / cos_helix);
    const double sin_squared = std::sin(angle_t) * std::sin(angle_t);
    const double straight = spec.rack.dedendum - spec.rack.root_radius * (1.0 - std::sin(spec.rack.pressure_angle_rad));
    return {2.0 * (straight - spec.shift) * cos_helix / sin_squared,
            straight - spec.teeth * sin_squared / (2.0 * cos_helix)};
}

ModuleSeries iso_54_series(double module_mm) {
    const auto is = [module_mm](double listed) { return std::abs(module_mm - listed) < 1e-9 * listed; };
    if (std::ranges::any_of(kPreferredModules, is)) return ModuleSeries::preferred;
    return std::ranges::any_of(kSecondModules, is) ? ModuleSeries::second_choice : ModuleSeries::none;
}

double nearest_iso_54_module(double module_mm) {
    double nearest = kPreferredModules.front();
    const auto consider = [&](double listed) {
        if (std::abs(std::log(module_mm / listed)) < std::abs(std::log(module_mm / nearest))) nearest = listed;
    };
    std::ranges::for_each(kPreferredModules, consider);
    std::ranges::for_each(kSecondModules, consider);
    return nearest;
}

}  // namespace couplet
