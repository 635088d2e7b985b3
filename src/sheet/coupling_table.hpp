// Coupling table: the couplings of a sheet in full, one row each, for spreadsheets.
#pragma once

#include "couple/coupling.hpp"
#include "sheet/table.hpp"

namespace couplet {

[[nodiscard]] Table coupling_table(const Train& train, const CouplingSheet& sheet);

}  // namespace couplet
