#include "tooth/measure.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tooth/involute.hpp"
#include "tooth/profile.hpp"

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

double outward(const GearSizes& gear) {
    return gear.spec.internal ? -1.0 : 1.0;
}

// Where both measurements should touch: the middle of the flank, near enough.
double middle_diameter(const GearSizes& gear) {
    return std::max(gear.pitch_diameter_mm + 2.0 * gear.spec.shift * gear.spec.module_mm,
                    gear.base_diameter_mm * 1.0001);
}

// Half the angle of the space where its involutes begin, from the middle of the space. Taken as negative for an
// internal gear, whose space narrows outwards: its formulas then are those of the external gear with the senses turned
// round.
double half_space_at_base(const GearSizes& gear) {
    const double at_pitch = kPi / gear.spec.teeth - gear.pitch_thickness_mm / gear.pitch_diameter_mm;
    return outward(gear) * at_pitch - involute(gear.transverse_angle_rad);
}

double base_normal(const GearSizes& gear) {
    return gear.base_diameter_mm * std::cos(gear.base_helix_rad);
}

// The diameter on which the centres of the pins lie; NaN where a pin is too small (external) or too large (internal) to
// rest on involutes.
double pin_circle(const GearSizes& gear, double pin_mm) {
    const double value = outward(gear) * pin_mm / base_normal(gear) - half_space_at_base(gear);
    return gear.base_diameter_mm / std::cos(inverse_involute(value));
}

// The pin that touches a spur gear at a diameter: from there its centre lies half a pin along the normal. One for a
// helical gear touches a little off.
double pin_touching_at(const GearSizes& gear, double diameter_mm) {
    const double roll = std::tan(pressure_angle_at(gear, diameter_mm));
    const double centre_angle = roll + half_space_at_base(gear);
    return base_normal(gear) * outward(gear) * (std::tan(centre_angle) - roll);
}

bool is_on_involutes(const ToothProfile& profile, double diameter_mm) {
    return diameter_mm > profile.inner_form_diameter_mm() && diameter_mm < profile.outer_form_diameter_mm();
}

// Touches both involutes, stands proud of the tip and leaves the root alone.
bool can_measure(const ToothProfile& profile, double pin_mm) {
    const GearSizes& gear = profile.sizes;
    const double centres = pin_circle(gear, pin_mm);
    if (!(pin_mm > 0.0) || !std::isfinite(centres)) return false;
    const double out = outward(gear);
    const double along_tangent = tangent_length_mm(gear, centres) - out * pin_mm / 2.0 * std::cos(gear.base_helix_rad);
    if (along_tangent <= 0.0) return false;
    const bool proud = out * (centres + out * pin_mm - gear.tip_diameter_mm) > 0.0;
    const bool clear = out * (centres - out * pin_mm - gear.root_diameter_mm) > 0.0;
    return proud && clear && is_on_involutes(profile, std::hypot(gear.base_diameter_mm, 2.0 * along_tangent));
}

// The diameter at which the caliper touches, both sides alike.
double span_touches_at(const GearSizes& gear, double span_mm) {
    return std::hypot(gear.base_diameter_mm, span_mm * std::cos(gear.base_helix_rad));
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
    const std::optional<ToothProfile> profile = profile_of(gear).profile;
    if (!profile) return std::nullopt;
    const double middle = middle_diameter(gear);
    const auto miss = [&](int teeth) { return std::abs(span_touches_at(gear, span_over(gear, teeth)) - middle); };
    int best = 1;
    while (best < gear.spec.teeth && miss(best + 1) < miss(best)) ++best;
    const double span = span_over(gear, best);
    const bool fits_face = span * std::abs(std::sin(gear.base_helix_rad)) <= gear.spec.face_width_mm;
    if (!fits_face || !is_on_involutes(*profile, span_touches_at(gear, span))) return std::nullopt;
    return SpanMeasurement{best, span};
}

double over_pins(const GearSizes& gear, double pin_mm) {
    const bool opposite = gear.spec.teeth % 2 == 0;
    const double centres = pin_circle(gear, pin_mm) * (opposite ? 1.0 : std::cos(kPi / 2 / gear.spec.teeth));
    return centres + outward(gear) * pin_mm;
}

std::optional<PinMeasurement> over_pins_of(const GearSizes& gear) {
    const std::optional<ToothProfile> profile = profile_of(gear).profile;
    if (!profile) return std::nullopt;
    const double classic = (gear.spec.internal ? 1.44 : 1.728) * gear.spec.module_mm;
    for (const double pin : {classic, pin_touching_at(gear, middle_diameter(gear))})
        if (can_measure(*profile, pin)) return PinMeasurement{pin, over_pins(gear, pin)};
    return std::nullopt;
}

ChordalThickness chordal_thickness_of(const GearSizes& gear) {
    const double cos_helix = std::cos(gear.spec.helix_angle_rad);
    // The normal section curves there like a circle of this diameter.
    const double diameter = gear.pitch_diameter_mm / (cos_helix * cos_helix);
    const double half_angle = gear.pitch_thickness_mm * cos_helix / diameter;
    const double addendum = outward(gear) * (gear.tip_diameter_mm - gear.pitch_diameter_mm) / 2.0;
    return {half_angle, diameter * std::sin(half_angle),
            addendum + outward(gear) * diameter / 2.0 * (1.0 - std::cos(half_angle))};
}

}  // namespace couplet
