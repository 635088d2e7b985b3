// Bare ratio: what tooth counts alone say of two members, as if every arm stood still.
//
// The product of the tooth counts along the shortest way of meshes from one member to the other, with the sense of each
// mesh. It is what a coupling is by mistake taken for when a joint sits on a carrier that turns.
#pragma once

#include <optional>
#include <vector>

#include "train/train.hpp"

namespace couplet {

// By member: turns per turn of `from`, 1 for itself; nothing where no way of meshes leads there. Of equally short ways
// the first in the order of the meshes counts. Linear in the size of the train.
[[nodiscard]] std::vector<std::optional<Ratio>> bare_turns_per_turn(const Train& train, MemberIndex from);

}  // namespace couplet
