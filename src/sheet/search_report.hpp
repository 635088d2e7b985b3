// Search report: a finished search with what its reader asked to see of it.
#pragma once

#include <optional>
#include <vector>

#include "find/loosen.hpp"
#include "find/ranking.hpp"
#include "find/search.hpp"

namespace couplet {

struct SearchReport {
    SearchWish wish;
    Slice slice;
    SearchResult result;
    RankKey sort = RankKey::error;
    std::size_t top = 20;               // rows shown
    std::optional<Ratio> rpm;           // of the driver: how far each row drifts in a year is shown
    std::vector<Loosening> loosenings;  // where nothing was found
};

// The train of a row, with a title and notes that say what it was found for.
[[nodiscard]] Train found_train(const SearchWish& wish, const SearchRow& row);

// Positions of the rows that are shown, in their order.
[[nodiscard]] std::vector<std::size_t> shown_rows(const SearchReport& report);

// A year of running, in minutes: 365.2425 days (mean Gregorian year).
inline constexpr int kMinutesOfAYear_tenths = 5259492;

// Turns of the output, against its true ratio, in a year of running at the report's speed.
[[nodiscard]] Ratio drift_turns_a_year(const SearchReport& report, const SearchRow& row);

}  // namespace couplet
