// SVG: the toothed profiles of a train at true scale, for programs that cut or engrave.
//
// The layers of flat_drawing.hpp: a group for each member, its id the layer's name; each gear a path of arcs, filled
// even-odd with its circle as a hole (or, round an internal gear, as the outside), each axis a cross. Width and height
// are in mm or inches, and the viewBox counts in the same unit, so that a unit of the file is one on the material. The
// frame's +Y points up: heights are written negative.
//
// Source: SVG 1.1, W3C Recommendation 2011, 7.2, 7.7 and 8.3 (from memory; files are checked by librsvg).
#pragma once

#include <string>

#include "export/flat_drawing.hpp"

namespace couplet {

// Room that is left round the drawing.
inline constexpr double kSvgMargin_mm = 2.0;

// Throws what flat_drawing throws.
[[nodiscard]] std::string svg_of(const ExportModel& model, const FlatOptions& options);

}  // namespace couplet
