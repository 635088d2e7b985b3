// Place words: places, angles and assembly conditions as sheets call them.
#pragma once

#include <string>

#include "place/assembly.hpp"
#include "place/mesh_proof.hpp"
#include "sheet/table.hpp"

namespace couplet {

// "planet 2"; "ring" where there is one place of it.
[[nodiscard]] std::string place_name(const Train& train, const Placement& placement, PlaceIndex place);
// "planet/large 2".
[[nodiscard]] std::string gear_place_name(const Train& train, const Placement& placement, GearIndex gear,
                                          PlaceIndex place);
// "crank with planet 2".
[[nodiscard]] std::string mesh_place_name(const Train& train, const Placement& placement, const PlacedMesh& mesh);

// The exact decimal or fraction in full; where there is none, the double, for eyes with 6 decimals.
[[nodiscard]] Cell angle_cell(const ShownAngle& angle);

// "(21 + 69) / 3 = 30": the arithmetic of a condition with its tooth counts.
[[nodiscard]] std::string condition_arithmetic(const Train& train, const AssemblyCondition& condition);
// A sentence with the arithmetic, whether it holds, and the least mesh angle.
[[nodiscard]] std::string condition_text(const Train& train, const AssemblyCondition& condition);

// Where a copy stands, by how much it misses, and the nearest places that suit it.
[[nodiscard]] std::string misplaced_text(const Train& train, const Placement& placement, const MisplacedCopy& copy);

// "hunting: ..." or how the teeth fall into groups.
[[nodiscard]] std::string hunting_text(const Train& train, const Hunting& hunting);

// "meshes", "off centre", "overlaps", "no contact", "no profile".
[[nodiscard]] std::string_view mesh_verdict_name(MeshVerdict verdict);
// "flank ahead", "flank behind", "elsewhere".
[[nodiscard]] std::string_view gap_place_name(GapPlace place);
[[nodiscard]] std::string_view outcome_name(AssemblyOutcome outcome);
[[nodiscard]] std::string_view form_name(AssemblyForm form);

}  // namespace couplet
