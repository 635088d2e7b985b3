#include "find/search_result.hpp"

#include <gtest/gtest.h>

#include <set>

namespace couplet {
namespace {

SearchRow row_of(const Ratio& error_ppm, std::vector<int> teeth, int copies) {
    SearchRow row;
    row.error_ppm = error_ppm;
    row.teeth = std::move(teeth);
    row.copies = copies;
    return row;
}

TEST(SearchRow, ComesByErrorThenTeethThenCopies) {
    const std::vector<SearchRow> rows = {row_of(Ratio(0), {30, 30, 90}, 3), row_of(Ratio(-1, 2), {20, 22, 64}, 3),
                                         row_of(Ratio(1, 2), {20, 22, 64}, 4), row_of(Ratio(1, 2), {21, 21, 64}, 2),
                                         row_of(Ratio(-1), {12, 12, 36}, 2)};
    for (std::size_t a = 0; a < rows.size(); ++a)
        for (std::size_t b = 0; b < rows.size(); ++b) EXPECT_EQ(comes_before(rows[a], rows[b]), a < b) << a << " " << b;
}

TEST(Rules, HaveNamesOfTheirOwn) {
    std::set<std::string_view> names;
    for (std::size_t rule = 0; rule < kRules; ++rule) names.insert(name_of(static_cast<Rule>(rule)));
    EXPECT_EQ(names.size(), kRules);
    EXPECT_EQ(name_of(Rule::neighbour_clearance), "neighbour clearance");
    EXPECT_EQ(name_of(Rule::other_teeth), "teeth");
}

}  // namespace
}  // namespace couplet
