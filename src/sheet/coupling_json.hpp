// Coupling JSON: the coupling sheet for programs.
//
// Every exact number is a text beside the double nearest to it: {"exact": "-161/240", "value": -0.6708}; "value" is
// null beyond a double's range. What does not exist is null.
#pragma once

#include <string>

#include "couple/coupling.hpp"

namespace couplet {

[[nodiscard]] std::string coupling_json(const Train& train, const CouplingSheet& sheet);

}  // namespace couplet
