// DXF: the toothed profiles of a train to model from, as an ASCII drawing of the edition of 2000 (AC1015).
//
// The layers of flat_drawing.hpp: each gear a closed polyline with arcs as bulges (LWPOLYLINE), each hole and rim a
// circle, each axis a point. The unit is in the header ($INSUNITS, $MEASUREMENT), and the file's numbers are in it.
//
// Written here because the two writers that Debian has, dxflib and libdxfrw, are under a licence that would bind this
// program, and write into named files only; what is needed of the format is a page of fixed text and three entities.
//
// Source: the format's published reference, edition of 2000 (from memory); files are read back by ezdxf and its audit.
#pragma once

#include <string>

#include "export/flat_drawing.hpp"

namespace couplet {

// Throws what flat_drawing throws.
[[nodiscard]] std::string dxf_of(const ExportModel& model, const FlatOptions& options);

}  // namespace couplet
