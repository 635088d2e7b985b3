// Measure: what a caliper or a micrometer over pins should read on a finished gear.
//
// Lengths in mm. Span measurement W over k teeth, along the base tangent in the normal section; measurement over pins
// (external) or between pins (internal), in opposite spaces, or the nearest to opposite where the count is odd. Both see
// the thinned tooth. Formulas of the printed handbooks (from memory; numbers checked in tests/published).
#pragma once

#include <optional>

#include "tooth/gear.hpp"

namespace couplet {

struct SpanMeasurement {
    int teeth;
    double span_mm;
};

// Over the number of teeth that touches nearest to the middle of the flank, d + 2 x m. Nothing for an internal gear,
// which no caliper spans.
[[nodiscard]] std::optional<SpanMeasurement> span_of(const GearSizes& gear);
[[nodiscard]] double span_over(const GearSizes& gear, int teeth);

struct PinMeasurement {
    double pin_mm;
    double over_pins_mm;
};

// With pins of 1.728 modules outside and 1.44 inside (the classic wire sizes), or where those would not touch the flank
// or not stand proud of the tip, with the size that touches at d + 2 x m. Nothing where no pin can.
[[nodiscard]] std::optional<PinMeasurement> over_pins_of(const GearSizes& gear);
// NaN where the pin is too small to touch the involutes.
[[nodiscard]] double over_pins(const GearSizes& gear, double pin_mm);

}  // namespace couplet
