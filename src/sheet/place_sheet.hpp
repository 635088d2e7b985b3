// Place sheet: where each part goes, by how much it is turned, and the proof that its teeth mesh.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "place/assembly.hpp"
#include "place/mesh_proof.hpp"
#include "place/placement.hpp"
#include "place/starting_rotation.hpp"
#include "sheet/format.hpp"
#include "sheet/page.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

// What the sheet is made from: a train without faults and what the place room says of it.
struct TrainPlaces {
    Train train;
    TrainTeeth teeth;
    std::optional<std::vector<MatchedShift>> shifts;  // nothing: not asked for
    StartOptions options;
    Placement placement;
    StartingRotations rotations;
    Assembly assembly;
    std::optional<Setting> setting;  // whose driver instants are counted by; nothing: the scene has none
    std::optional<Motion> motion;
    MeshProof proof;
};

// Solves shifts first where `match`. TeethError as teeth_of and match_shifts.
[[nodiscard]] TrainPlaces train_places(Train train, bool match, const StartOptions& options,
                                       const std::optional<Setting>& setting);

// Of the assembly, then of the proof.
[[nodiscard]] std::vector<Finding> findings_of(const TrainPlaces& places);

// False where a copy cannot be put in or a finding of the proof fails.
[[nodiscard]] bool meshes(const TrainPlaces& places);

// Positions of the axes and starting rotations, in the order in which a modeller needs them, as a part of another page.
void add_places(Page& page, const TrainPlaces& places);

[[nodiscard]] std::string place_sheet(const TrainPlaces& places, Format format);

}  // namespace couplet
