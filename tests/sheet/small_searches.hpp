// Small searches: wishes that are searched in a moment, one for each arrangement, and their reports.
#pragma once

#include <vector>

#include "sheet/search_report.hpp"

namespace couplet {

// Counts that the solver, the judge and the rest of the find room let through; how many is not said.
inline SearchWish small_wish(Arrangement arrangement, const Ratio& target, ToothRange every_gear_but_rings) {
    SearchWish wish;
    wish.arrangement = arrangement;
    wish.target = target;
    wish.most_nearest = 6;
    const std::vector<std::string> names = count_names(wish);
    for (const std::string& name : names)
        if (name.find("ring") == std::string::npos) wish.teeth[name] = every_gear_but_rings;
    return wish;
}

// In the order of searchable_arrangements; targets near what each makes of gears that are about alike.
inline std::vector<SearchWish> small_wishes() {
    return {small_wish(Arrangement::simple, 4, {18, 26}),     small_wish(Arrangement::stepped, 4, {18, 24}),
            small_wish(Arrangement::paired, -4, {18, 24}),    small_wish(Arrangement::two_rings, 120, {18, 24}),
            small_wish(Arrangement::in_series, 16, {18, 22}), small_wish(Arrangement::pairs, 2, {18, 26}),
            small_wish(Arrangement::reverted, 2, {18, 30})};
}

// Sun 20, planet 20, ring 60 alone: 80 teeth go into 4 copies and not into 3, and the ratio is 1 + 60/20.
inline SearchWish one_train_wish(int copies) {
    SearchWish wish = small_wish(Arrangement::simple, 4, {20, 20});
    wish.tolerance = Ratio(0);
    wish.copies = {copies, copies};
    return wish;
}

inline SearchReport report_of(SearchWish wish) {
    SearchReport report;
    report.wish = std::move(wish);
    report.result = search(report.wish);
    return report;
}

}  // namespace couplet
