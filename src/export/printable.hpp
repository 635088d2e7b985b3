// Printable: a machine's parts changed so that each member can be printed in one piece and turns when put together.
//
// - Fasteners (keys, nuts, screws) are left out: a printed member has no need of them.
// - What sits tight (a gear or a plate on its own member's shaft) reaches a little into the shaft instead of only
//   touching it, so that their shells are one solid to a program that takes what lies in either.
// - What turns (a bore round another member's shaft) is widened by the clearance all round.
// - Flanks are moved in by the clearance, measured along their normals: each tooth is thinned, as for backlash, and its
//   flanks stay true involutes.
//
// Derivation: an involute moved along its normals by c in the normal section is the same involute turned, by
// c / cos(base helix) / base radius, so a tooth loses 2 c / (cos(transverse angle) cos(base helix)) of its arc at the
// reference circle.
#pragma once

#include "export/export_model.hpp"

namespace couplet {

// The machine without fasteners; its list of shapes keeps its order. Clearance in mm, 0 or more; ExportRefused where a
// tooth or a wall has no room for it.
[[nodiscard]] Machine printable(const ExportModel& model, double clearance_mm);

}  // namespace couplet
