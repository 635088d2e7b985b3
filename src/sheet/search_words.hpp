// Search words: what was looked for, what was not found, and what would be, in plain sentences.
#pragma once

#include <string>
#include <string_view>

#include "sheet/search_report.hpp"

namespace couplet {

// "simple", "stepped", "paired", "two-rings", "in-series", "pairs", "reverted": what programs and the command line call
// an arrangement that can be searched.
[[nodiscard]] std::string_view short_name(Arrangement arrangement);

// "21, 24, 69", with the copies where there are any: "21, 24, 69 x 3".
[[nodiscard]] std::string teeth_text(const SearchWish& wish, const SearchRow& row);

// "30/7 turns of sun per turn of carrier, ring held".
[[nodiscard]] std::string wanted_text(const SearchWish& wish, const Ratio& ratio);

// "sun 12 to 100, planet 12 to 100, ring whatever fits".
[[nodiscard]] std::string ranges_text(const SearchWish& wish);

// "module 2 mm, 3 copies, equally spaced, no profile shift".
[[nodiscard]] std::string limits_text(const SearchWish& wish);

// "1,200 ratio, 30 assembly": the rules that rejected anything, most first.
[[nodiscard]] std::string rejected_text(const SearchResult& result);

// "Copies (33 % beyond the limit): 20, 20, 60 x 4 makes 4."
[[nodiscard]] std::string loosening_text(const SearchWish& wish, const Loosening& loosening);

// The shifts of a row that are not 0: "sun +0.299, ring +0.113"; empty where there are none.
[[nodiscard]] std::string shifts_text(const SearchWish& wish, const SearchRow& row);

// "contact ratio 1.53; not all meshes hunt; 3 of 3 copies come into mesh at once": what ranks a row, and its cautions.
[[nodiscard]] std::string qualities_text(const SearchWish& wish, const SearchRow& row);

// Where the copies stand: "0, 122.553, 237.447", of several carriers one after the other; empty where equally spaced.
[[nodiscard]] std::string places_text(const SearchRow& row);

}  // namespace couplet
