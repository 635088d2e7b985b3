// Flat drawing: the toothed profiles of a train as layers of arcs, the same for every kind of flat file.
//
// One layer for each member, in the order of the train, under a plain name (plain_names.hpp). Every gear is a closed
// chain of arcs in the transverse plane; the hole that the scene gives it, or a ring's outside with the recommended
// rim, is a circle. Every axis is a point, also that of a member without gears. Frame: the train's own in the start
// pose, or for DrawnAt::origin each gear's own, once whatever its copies, with a tooth on +X.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "export/arc_outline.hpp"
#include "export/export_model.hpp"

namespace couplet {

enum class DrawnAt { place, origin };
enum class LengthUnit { mm, inch };

struct FlatOptions {
    double tolerance_mm = 0.005;  // how far an arc may leave the exact profile; above 0
    DrawnAt at = DrawnAt::place;
    LengthUnit unit = LengthUnit::mm;  // of the file; the drawing itself is in mm
};

struct FlatGear {
    ArcLoop teeth;
    PlanePoint centre{};
    std::optional<double> circle_mm;  // diameter
    double reach_mm = 0.0;            // from the centre
};

struct FlatLayer {
    std::string name;
    std::vector<FlatGear> gears;  // by place, then by gear
    std::vector<PlanePoint> axes;
};

struct FlatBox {
    PlanePoint low;
    PlanePoint high;
};

// ExportRefused where a gear's teeth have no profile.
[[nodiscard]] std::vector<FlatLayer> flat_drawing(const ExportModel& model, const FlatOptions& options);

// Round the circles that the gears fill, and the axes; the origin alone where nothing is drawn.
[[nodiscard]] FlatBox box_of(const std::vector<FlatLayer>& layers);

// A length in the file's unit, to 9 decimals.
[[nodiscard]] std::string length_text(double mm, LengthUnit unit);

}  // namespace couplet
