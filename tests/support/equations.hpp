// Equations: those of the joint rates in a setting, written down from their definitions alone.
//
// Made apart from src/motion, so that tests and rivals solve what the definitions say and not what the solver thinks.
// A row is a sum of coefficient x q_m, where q_m is the rate of member m against what it rides on.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "train/train.hpp"

namespace couplet {

using RateRow = std::vector<std::pair<std::size_t, std::int64_t>>;  // column and coefficient, columns ascending
using RateRows = std::vector<RateRow>;

// The arm of a mesh: both of its gears' members ride on it, or ride where it rides. std::invalid_argument: none.
[[nodiscard]] MemberIndex arm_by_definition(const Train& train, const Mesh& mesh);

// a against b; kFrame allowed for either.
[[nodiscard]] RateRow relative_rate_row(const Train& train, MemberIndex a, MemberIndex b);

// Rows that are 0: the meshes (external N_A w_A/c + N_B w_B/c, internal N_A w_A/c - N_B w_B/c), the holds, the ties.
[[nodiscard]] RateRows mesh_rows(const Train& train);
[[nodiscard]] RateRows hold_and_tie_rows(const Train& train, const Setting& setting);
// Rows that are the drivers' speeds.
[[nodiscard]] RateRows driver_rows(const Train& train, const Setting& setting);

// Meshes, holds and ties.
[[nodiscard]] RateRows still_rows(const Train& train, const Setting& setting);

[[nodiscard]] RateRows joined(RateRows first, const RateRows& second);

}  // namespace couplet
