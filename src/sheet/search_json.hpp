// Search JSON: a search for programs, and for being joined to others: what was looked for, in which slice, and all that
// was found.
#pragma once

#include <string_view>

#include "sheet/json_values.hpp"
#include "sheet/search_report.hpp"

namespace couplet {

// A text that speaks of more slices than this is none of a search.
inline constexpr std::size_t kMostSlices = 10000;

[[nodiscard]] Json search_json(const SearchReport& report);

// Reads what search_json gives, but for what follows from the rest. std::invalid_argument, "what is wrong; what would
// be right", where the text is none.
[[nodiscard]] SearchReport search_of_json(std::string_view text);

}  // namespace couplet
