#include "tooth/measure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tooth/involute.hpp"

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

double middle_diameter(const GearSizes& gear) {
    return gear.pitch_diameter_mm + 2.0 * gear.spec.shift * gear.spec.module_mm;
}

// Half the space's angle where its involutes begin, from the middle of the space; an internal gear's space narrows
// outwards, so that its own half angle there is taken as negative.
double half_space_at_base(const GearSizes& gear) {
    const double half_pitch = kPi / gear.spec.teeth;
    const double at_pitch = gear.pitch_thickness_mm / gear.pitch_diameter_mm;
    const double outside = half_pitch - at_pitch - involute(gear.transverse_angle_rad);
    const double inside = -(half_pitch - at_pitch) - involute(gear.transverse_angle_rad);
    return gear.spec.internal ? inside : outside;
}

double base_normal(const GearSizes& gear) { return gear.base_diameter_mm * std::cos(gear.base_helix_rad); }

// The diameter on which the centres of the pins lie; NaN where there is none.
double pin_circle(const GearSizes& gear, double pin_mm) {
    const double half = pin_mm / base_normal(gear);
    const double value = gear.spec.internal ? -half_space_at_base(gear) - half : half - half_space_at_base(gear);
    return gear.base_diameter_mm / std::cos(inverse_involute(value));
}

double pin_touching_at(const GearSizes& gear, double diameter_mm) {
    const double roll = std::tan(pressure_angle_at(gear, diameter_mm));
    const double space = half_space_at_base(gear);
    const double angle = gear.spec.internal ? roll + space : roll + space;
    const double centre = std::atan(angle);
    (void)centre;
    return base_normal(gear) * std::abs(std::tan(angle) - angle + space);
}

bool touches_and_stands_proud(const GearSizes& gear, double pin_mm) {
    const double centre = pin_circle(gear, pin_mm);
    if (!std::isfinite(centre)) return false;
    const double outward = gear.spec.internal ? -1.0 : 1.0;
    const double proud = outward * (centre + outward * pin_mm - gear.tip_diameter_mm);
    const double contact_length = std::sqrt(std::max(0.0, centre * centre - gear.base_diameter_mm * gear.base_diameter_mm)) / 2.0 -
                                  outward * pin_mm * std::cos(gear.base_helix_rad) / 2.0;
    if (contact_length < 0.0) return false;
    const double contact = std::hypot(gear.base_diameter_mm, 2.0 * contact_length);
    const auto [least, most] = std::minmax(gear.tip_diameter_mm, gear.root_diameter_mm);
    return proud > 0.0 && contact > least && contact < most;
}

}  // namespace

double span_over(const GearSizes& gear, int teeth) {
    const GearSpec& spec = gear.spec;
    const double cosine = std::cos(spec.rack.pressure_angle_rad);
    const double thinned = spec.thinning_mm * std::cos(spec.helix_angle_rad) * cosine;
    return spec.module_mm * cosine * (kPi * (teeth - 0.5) + spec.teeth * involute(gear.transverse_angle_rad)) +
           2.0 * spec.shift * spec.module_mm * std::sin(spec.rack.pressure_angle_rad) - thinned;
}

std::optional<SpanMeasurement> span_of(const GearSizes& gear) {
    if (gear.spec.internal) return std::nullopt;
    const double middle = std::max(middle_diameter(gear), gear.base_diameter_mm);
    const auto miss = [&](int teeth) {
        const double touching = std::hypot(gear.base_diameter_mm, span_over(gear, teeth) * std::cos(gear.base_helix_rad));
        return std::abs(touching - middle);
    };
    int best = 1;
    while (best < gear.spec.teeth && miss(best + 1) < miss(best)) ++best;
    return SpanMeasurement{best, span_over(gear, best)};
}

double over_pins(const GearSizes& gear, double pin_mm) {
    const double centres = pin_circle(gear, pin_mm) * (gear.spec.teeth % 2 == 0 ? 1.0 : std::cos(kPi / 2 / gear.spec.teeth));
    return gear.spec.internal ? centres - pin_mm : centres + pin_mm;
}

std::optional<PinMeasurement> over_pins_of(const GearSizes& gear) {
    const double classic = (gear.spec.internal ? 1.44 : 1.728) * gear.spec.module_mm;
    const double middle = std::max(middle_diameter(gear), gear.base_diameter_mm * 1.0001);
    for (const double pin : {classic, pin_touching_at(gear, middle)})
        if (std::isfinite(pin) && touches_and_stands_proud(gear, pin)) return PinMeasurement{pin, over_pins(gear, pin)};
    return std::nullopt;
}

}  // namespace couplet
