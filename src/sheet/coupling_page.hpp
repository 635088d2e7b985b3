// Coupling page: the coupling sheet for eyes, to be printed and pinned beside the modeller.
#pragma once

#include "couple/coupling.hpp"
#include "sheet/page.hpp"

namespace couplet {

// A longer formula is told by its length only.
inline constexpr std::size_t kLongestFormula = 400;

[[nodiscard]] Page coupling_page(const Train& train, const CouplingSheet& sheet);

// All of it but title, notes and cautions, as a part of another page.
void add_coupling_blocks(Page& page, const Train& train, const CouplingSheet& sheet);

}  // namespace couplet
