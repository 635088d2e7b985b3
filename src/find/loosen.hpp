// Loosen: where nothing is found, the limit of a wish which, loosened least, gives a train.
//
// Each limit is loosened alone, the others kept. How much is a part of the limit itself, so that limits of different
// kinds can be compared: of the ratio its error, of a tooth range the teeth added over its nearer end, of the copies
// the copies added over theirs, of the ring diameter the excess over the largest. Asking for a shift or letting
// hunting go has no measure and comes last, and so do free angles, and the other sense of turning.
#pragma once

#include <string>
#include <vector>

#include "find/search.hpp"

namespace couplet {

enum class Limit { tolerance, tooth_ranges, copies, ring_diameter, hunting, shift, spacing, sense };

// "tolerance", "tooth ranges", "copies", "ring diameter", "hunting", "shift", "spacing",
// "sense"
[[nodiscard]] std::string_view name_of(Limit limit);

struct Loosening {
    Limit limit;
    std::optional<double> part;  // of the limit itself; nothing where it has no measure
    SearchRow row;               // what the looser wish gives, the best one
};

// Least loosened first; only limits that help, at most kMostLoosened beyond what they were. The wish should be one that
// gives no row.
inline constexpr double kMostLoosened = 0.5;
[[nodiscard]] std::vector<Loosening> loosenings(const SearchWish& wish, const SearchListener& listener = {});

}  // namespace couplet
