#include "sheet/search_report.hpp"

namespace couplet {

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
