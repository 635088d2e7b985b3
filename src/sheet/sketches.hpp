// Sketches: small drawings of how a train is joined and moves, as SVG of their own size in mm of paper.
//
// Black on white, for paper; no letter is smaller than 3 mm. What is drawn is what diagrams.hpp says.
#pragma once

#include <string>

#include "sheet/diagrams.hpp"

namespace couplet {

// Which member is in mesh with which: members as boxes with their teeth, in rows by how many members carry them; meshes
// as lines, double for a ring's. A train of more than kMostSketched members has none: empty.
inline constexpr std::size_t kMostSketched = 40;
[[nodiscard]] std::string mesh_sketch(const Train& train);

// Speed to the right, place along the lever upwards; the line of a lever goes through all of its members.
[[nodiscard]] std::string lever_sketch(const Train& train, const Lever& lever);

// Velocity to the right, place along the section upwards; a line for each member.
[[nodiscard]] std::string section_sketch(const Train& train, const PlanSection& section);

}  // namespace couplet
