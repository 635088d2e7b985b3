// Loop: the shortest motion after which every member is back where it began.
//
// Strict: marks and all, each member on the very tooth that it started on. What merely looks the same comes round
// sooner: place/alike_loop.hpp.
#pragma once

#include <optional>

#include "motion/motion.hpp"

namespace couplet {

// The fewest turns of the reference driver, above 0, after which every joint has made a whole number of turns, all
// drivers running at the speeds given: 1 over the common measure of the joints' turns per driver turn. Nothing where
// the motion does not move or no member turns.
[[nodiscard]] std::optional<Ratio> strict_loop_turns(const Motion& motion);

}  // namespace couplet
