// Pairing: which entries of a list after a change were which before it.
#pragma once

#include <optional>
#include <vector>

#include "scene/outline.hpp"

namespace couplet {

// For each entry after, the position of the entry before that it continues: the one of the same identity, or, where as
// many entries went as came between two that stayed, the one in the same place, which was renamed. A gear that had no
// name, being the only one, continues as the first that came. Nothing at all where entries changed their order.
[[nodiscard]] std::optional<std::vector<std::optional<std::size_t>>> paired(const std::vector<Entry>& before,
                                                                            const std::vector<Entry>& after);

}  // namespace couplet
