// Mesh checks: the design rules for teeth, each looked at in every place of a train.
//
// Per gear: module, profile, undercut, tip thickness, an internal gear's tip against its base circle. Per mesh:
// operating angle, backlash, contact ratio, tip clearance at both roots, contact above the fillet of both gears; of an
// internal mesh also involute, trochoid and trimming interference. Per carried member, and per two members with several
// meshes: whether the centre distances of its meshes agree. Figures and limits are always numbers; where a rule's
// formula has no value, the rule fails, with the figure that left it without one. Sources stand in each finding; the
// interference formulas are from memory, and checked in tests against outlines that move.
#pragma once

#include <string>
#include <vector>

#include "tooth/train_teeth.hpp"
#include "train/finding.hpp"

namespace couplet {

// Gears in the train's order, then meshes, then members. `teeth` are those of the train.
[[nodiscard]] std::vector<Finding> mesh_findings(const Train& train, const TrainTeeth& teeth);

// What findings call the two axes that a mesh joins, "planet on drum": all meshes of both share one centre distance.
[[nodiscard]] std::string axes_where(const Train& train, const Mesh& mesh);

}  // namespace couplet
