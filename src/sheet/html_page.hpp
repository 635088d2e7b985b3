// HTML page: a sheet for eyes as one HTML file, to be read in a browser and printed.
//
// HTML living standard; CSS Fragmentation 3 and Paged Media 3 for paper: rows, figures and short tables are never cut,
// the heading of a long table comes again on every page, and everything fits the width of A4 and of Letter. Figures are
// within the file.
#pragma once

#include <string>

#include "sheet/page.hpp"

namespace couplet {

[[nodiscard]] std::string html_page(const Page& page);

// RFC 4648, section 4.
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace couplet
