// Size sheet: how big each gear is, and whether it can be cut and meshed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/format.hpp"
#include "sheet/quantity.hpp"
#include "tooth/train_teeth.hpp"
#include "train/finding.hpp"

namespace couplet {

// What the sheet is made from: a train without faults and what the tooth room says of it.
struct TrainSizes {
    Train train;
    TrainTeeth teeth;
    std::vector<Finding> findings;
    std::optional<std::vector<MatchedShift>> shifts;  // nothing: not asked for
};

// Solves shifts first where `match`. TeethError as teeth_of and match_shifts.
[[nodiscard]] TrainSizes train_sizes(Train train, bool match);

// Every figure of a gear, and of a mesh with its gears in the order written.
[[nodiscard]] std::vector<Quantity> gear_quantities(const Train& train, const TrainTeeth& teeth, GearIndex gear);
[[nodiscard]] std::vector<Quantity> mesh_quantities(const Train& train, const TrainTeeth& teeth, MeshIndex mesh);

[[nodiscard]] std::string size_sheet(const TrainSizes& sizes, Format format);

}  // namespace couplet
