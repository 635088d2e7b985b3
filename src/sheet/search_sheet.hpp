// Search sheet: the trains that were found for a ratio, ranked, in the format asked for.
#pragma once

#include <string>

#include "sheet/format.hpp"
#include "sheet/search_report.hpp"

namespace couplet {

[[nodiscard]] std::string search_sheet(const SearchReport& report, Format format);

}  // namespace couplet
