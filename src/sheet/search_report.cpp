#include "sheet/search_report.hpp"

#include <fmt/format.h>

#include "exact/decimal.hpp"
#include "find/judge.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

Train found_train(const SearchWish& wish, const SearchRow& row) {
    Train train = train_of(wish, row);
    train.title += fmt::format(" {}", teeth_text(wish, row));
    train.notes = fmt::format("Found for {}: makes {}, an error of {} ppm.", exact_text(wish.target),
                              wanted_text(wish, row.ratio), decimal_text(row.error_ppm, 6));
    return train;
}

std::vector<std::size_t> shown_rows(const SearchReport& report) {
    std::vector<std::size_t> order = ranked(report.result.rows, report.sort);
    if (order.size() > report.top) order.resize(report.top);
    return order;
}

Ratio drift_turns_a_year(const SearchReport& report, const SearchRow& row) {
    const Ratio driver_turns = report.rpm.value_or(Ratio(0)) * Ratio(kMinutesOfAYear_tenths, 10);
    return driver_turns / row.ratio - driver_turns / report.wish.target;
}

}  // namespace couplet
