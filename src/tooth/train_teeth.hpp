// Train teeth: the sizes of every gear and every mesh of a train.
//
// Keys that a gear does not give come from the train's [teeth], then from ISO 53 profile A: pressure angle 20 degrees,
// addendum 1, dedendum 1.25, root radius 0.38 (less where the clearance or the space is narrower); helix 0, shift 0,
// backlash 0 and face width ten modules. A diametral pitch P means a module of 25.4 / P mm and lengths in inches. Hands
// of helices follow from the meshes: opposite at an external mesh, the same at an internal one, each group of meshing
// gears beginning with its first gear in the train. Each gear is thinned by half of its backlash, measured at the
// operating circle of its first mesh, and an external pair is shortened as gear_pair.hpp says (a gear in several by the
// most).
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "tooth/active_path.hpp"
#include "tooth/gear_pair.hpp"
#include "tooth/profile.hpp"
#include "train/finding.hpp"
#include "train/train.hpp"

namespace couplet {

// Thrown where a train says too little, or what no teeth can be: no module anywhere, fewer than kFewestTeeth, a
// pressure angle outside 0 to 45 degrees or a helix beyond 60, a fillet radius below 0, a length of 0; gears in mesh
// whose modules, pressure angles or helices differ. what() is "wrong; right": the gear or the mesh with what is wrong
// of it, then what would mend it.
struct TeethError : std::runtime_error {
    TeethError(const std::string& what_is_wrong, Finding rule_broken)
        : std::runtime_error(what_is_wrong + "; " + rule_broken.mend),
          wrong(what_is_wrong),
          broken(std::move(rule_broken)) {}

    std::string wrong;
    Finding broken;  // fails
};

struct MeshSizes {
    // Nothing where no operating angle exists (the shifts or the centre distance ask for less than the base circles
    // allow, or a ring is not larger than its planet).
    std::optional<PairSizes> pair;
    // Nothing where there is no pair, or where one of the gears has no profile.
    std::optional<ActivePath> active;
};

struct TrainTeeth {
    std::vector<GearSizes> gears;         // by GearIndex
    std::vector<ProfileResult> profiles;  // by GearIndex
    std::vector<MeshSizes> meshes;        // by MeshIndex, the external gear first where one is internal
    std::vector<std::optional<double>> operating_diameters_mm;  // by GearIndex, in its first mesh
};

[[nodiscard]] TrainTeeth teeth_of(const Train& train);

// The first gear of a mesh as gear_pair.hpp counts: the external one, or the first one written.
[[nodiscard]] GearIndex external_gear_of(const Train& train, const Mesh& mesh);
[[nodiscard]] GearIndex other_gear_of(const Train& train, const Mesh& mesh);
// Both in that order, as findings call a mesh: "planet, ring".
[[nodiscard]] std::string mesh_where(const Train& train, const Mesh& mesh);

// A mesh's override; nothing where its teeth place the centres.
[[nodiscard]] std::optional<double> given_centre_distance_mm(const Train& train, const Mesh& mesh);

// Normal module of a gear in mm; TeethError where none is given.
[[nodiscard]] double module_of(const Train& train, GearIndex gear);

// The gear of a mesh that belongs to a carried member, where the other one is on the carrier's own axis.
[[nodiscard]] std::optional<GearIndex> carried_gear_of(const Train& train, const Mesh& mesh);

// One shift that was solved so that the centre distances of a carried member agree.
struct MatchedShift {
    GearIndex gear;
    double shift;
    MeshIndex kept;     // the mesh whose centre distance was kept
    MeshIndex matched;  // the mesh that now has it too
    double centre_distance_mm;
};

struct MatchedTrain {
    Train train;
    std::vector<MatchedShift> shifts;
};

// For every carried member, keeps the centre distance of its first mesh and solves the shift of the partner gear in
// each further mesh with a member on the carrier's own axis. Shifts are rounded to six decimals so that they can be
// written. TeethError where no shift can do it.
[[nodiscard]] MatchedTrain match_shifts(const Train& train);

}  // namespace couplet
