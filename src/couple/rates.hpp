// Rates: joint rates of a motion and the ratio of two of them.
#pragma once

#include <optional>

#include "motion/motion.hpp"

namespace couplet {

// The joint's rate, negated where it is flipped.
[[nodiscard]] Combination rate_of(const Train& train, const Motion& motion, const Joint& joint);

// second / first where the two are parallel and the first is not 0; nothing otherwise.
[[nodiscard]] std::optional<Ratio> parallel_ratio(const Combination& second, const Combination& first);

[[nodiscard]] bool is_still(const Combination& rate);

}  // namespace couplet
