// Matched shifts: the profile shifts that make centre distances agree, explained.
#pragma once

#include <vector>

#include "sheet/json_values.hpp"
#include "sheet/page.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

[[nodiscard]] Json shifts_json(const Train& train, const std::vector<MatchedShift>& shifts);

// A sentence for each with the number to type, or one that says that none was needed.
void add_shifts(Page& page, const Train& train, const std::vector<MatchedShift>& shifts);

}  // namespace couplet
