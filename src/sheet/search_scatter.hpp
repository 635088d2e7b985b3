// Search scatter: the trains that were found as dots, error against size, as SVG on one sheet of A4.
//
// Across: pitch diameter of the largest ring (or gear), mm. Up: size of the error in parts per million, by powers of
// ten; exact ratios stand on a line of their own below. Rows that no other one beats are filled; those
// that none is both nearer and smaller than are named.
#pragma once

#include <string>

#include "sheet/search_report.hpp"

namespace couplet {

[[nodiscard]] std::string search_scatter(const SearchReport& report);

}  // namespace couplet
