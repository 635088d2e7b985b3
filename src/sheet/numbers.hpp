// Numbers: exact values as they are written for people and for tables.
//
// Eyes get at most kLongestShown characters of an exact value: a longer one is shown rounded, with the count of its
// digits. Programs get every digit.
#pragma once

#include <string>

#include "exact/ratio.hpp"
#include "sheet/table.hpp"

namespace couplet {

inline constexpr std::size_t kLongestShown = 40;

// "0.233333", "-13.125", "1.23457e-57": at most 6 decimals, or 6 significant digits where decimals would say little.
[[nodiscard]] std::string rough_text(const Ratio& value);

// A fraction, "-161/240".
[[nodiscard]] Cell fraction_cell(const Ratio& value);
// Degrees or rpm: a decimal where that is exact, else a fraction.
[[nodiscard]] Cell decimal_cell(const Ratio& value);
// True where one of the two above shows less than it holds.
[[nodiscard]] bool is_abbreviated(const Cell& cell);
// The nearest double in full, rough_text for eyes; in full empty where no double is near.
[[nodiscard]] Cell rough_cell(const Ratio& value);

// "360 : -241.5", for eyes.
[[nodiscard]] std::string pair_text(const Ratio& first_deg, const Ratio& second_deg);

}  // namespace couplet
