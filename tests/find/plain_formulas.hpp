// Plain formulas: the rows of every arrangement by nested loops and the texts' formulas alone, for small ranges.
//
// Written apart from src/find, which they check: Willis' ratio, the centre-distance equation, the assembly condition,
// the room between tip circles (addendum 1), no undercut (the rack's limit is 17.1 teeth), and no involute interference
// in a ring. No other interference can be in rings of these sizes.
#pragma once

#include <vector>

#include "exact/ratio.hpp"
#include "find/search_wish.hpp"

namespace couplet {

struct PlainRow {
    std::vector<int> teeth;
    int copies;
    Ratio ratio;

    friend bool operator==(const PlainRow&, const PlainRow&) = default;
};

// Of a wish without shifts, with a tolerance and with the range of every free count given; in no order.
[[nodiscard]] std::vector<PlainRow> plain_rows(const SearchWish& wish);

}  // namespace couplet
