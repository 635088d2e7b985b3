// Outcome words: what a setting does, and what to do where it does not simply move, in plain sentences.
#pragma once

#include <string>
#include <vector>

#include "couple/coupling.hpp"

namespace couplet {

// One short line: "moves: freedom 1, 1 driver".
[[nodiscard]] std::string outcome_line(const Motion& motion);

// What is wrong and what would be right, a sentence or two each; empty where the setting moves.
[[nodiscard]] std::vector<std::string> outcome_advice(const Train& train, const CouplingSheet& sheet);

// Why two joints cannot be coupled, and what would make it possible; empty where they can.
[[nodiscard]] std::string obstacle_text(const Train& train, const Coupling& coupling);

}  // namespace couplet
