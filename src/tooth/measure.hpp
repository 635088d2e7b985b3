// Measure: what a caliper or a micrometer over pins should read on a finished gear.
//
// Lengths in mm. Span measurement W over k teeth, along the base tangent in the normal section; measurement over pins
// (external) or between pins (internal), in opposite spaces, or the nearest to opposite where the count is odd (of a
// helical gear with an odd count: balls, in one transverse plane); chordal thickness by a tooth caliper. All see the
// thinned tooth. Formulas of the printed handbooks (from memory; numbers checked in tests/published, and against
// circles and tangents put to the sampled outline in tests/tooth).
#pragma once

#include <optional>

#include "tooth/gear.hpp"

namespace couplet {

struct SpanMeasurement {
    int teeth;
    double span_mm;
};

// Over the number of teeth that touches nearest to the middle of the flank, d + 2 x m. Nothing where no caliper can: an
// internal gear, a helical face too narrow for both jaws, flanks too short, or no profile at all.
[[nodiscard]] std::optional<SpanMeasurement> span_of(const GearSizes& gear);
[[nodiscard]] double span_over(const GearSizes& gear, int teeth);

struct PinMeasurement {
    double pin_mm;
    double over_pins_mm;
};

// With pins of 1.728 modules outside and 1.44 inside (the classic wire sizes), or where those would not touch the
// involutes, not stand proud of the tip or touch the root, with the size that touches near d + 2 x m. Nothing where
// that one cannot either.
[[nodiscard]] std::optional<PinMeasurement> over_pins_of(const GearSizes& gear);
// NaN where such a pin rests on no involute.
[[nodiscard]] double over_pins(const GearSizes& gear, double pin_mm);

// Of the tooth at the reference circle in the normal section, and how deep below the tip circle it is measured.
struct ChordalThickness {
    double half_angle_rad;  // half the tooth, seen from the centre of the section's curvature
    double chord_mm;
    double height_mm;
};
[[nodiscard]] ChordalThickness chordal_thickness_of(const GearSizes& gear);

}  // namespace couplet
