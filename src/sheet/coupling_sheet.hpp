// Coupling sheet: what to type for every coupling of a setting, in the format asked for.
#pragma once

#include <string>

#include "couple/coupling.hpp"
#include "sheet/format.hpp"

namespace couplet {

[[nodiscard]] std::string coupling_sheet(const Train& train, const CouplingSheet& sheet, Format format);

}  // namespace couplet
