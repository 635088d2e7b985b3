// Running rules: what makes an assembled train run evenly and wear evenly. None of them fails a train.
//
//     hunting tooth          gcd of the teeth in mesh is 1: each tooth meets all of the other gear, and a worn or
//     faulty
//                            one leaves its trace on no few (gear makers' handbooks, from memory; read in Foiles, "Gear
//                            frequencies using the Euclidean algorithm": the gcd counts the ways to put a pair
//                            together)
//     balance of the copies  the residual of copies_balance.hpp: 0 where they are equally spaced
#pragma once

#include <vector>

#include "train/finding.hpp"
#include "train/train.hpp"

namespace couplet {

// What a place written with few decimals may leave of the balance of equally spaced copies.
inline constexpr double kMostUnbalance = 1e-3;

// One for every mesh, in the train's order.
[[nodiscard]] std::vector<Finding> hunting_findings(const Train& train);

// One for every member that has several copies with gears in mesh, in the train's order.
[[nodiscard]] std::vector<Finding> balance_findings(const Train& train);

}  // namespace couplet
