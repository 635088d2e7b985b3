#include "find/ranking.hpp"

#include <gtest/gtest.h>

#include "find/search.hpp"

namespace couplet {
namespace {

std::vector<SearchRow> rows_for(const Ratio& target, const Ratio& tolerance) {
    SearchWish wish;
    wish.target = target;
    wish.tolerance = tolerance;
    wish.copies = {2, 6};
    return search(wish).rows;
}

bool beats(const SearchRow& a, const SearchRow& b) {
    const auto as_good = [](const SearchRow& one, const SearchRow& other) {
        return one.error_ppm.magnitude() <= other.error_ppm.magnitude() &&
               one.ring_diameter_mm <= other.ring_diameter_mm && one.contact_ratio >= other.contact_ratio &&
               one.hunting >= other.hunting && one.balance.residual <= other.balance.residual &&
               one.balance.in_step <= other.balance.in_step;
    };
    return as_good(a, b) && !as_good(b, a);
}

// Each row against each other one.
TEST(Ranking, MarksTheRowsThatNoneBeats) {
    const std::vector<SearchRow> rows = rows_for(Ratio(9, 2), Ratio(1, 20));
    ASSERT_GT(rows.size(), 100U);
    const std::vector<bool> marks = unbeaten(rows);
    std::size_t marked = 0;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        bool beaten = false;
        for (const SearchRow& other : rows) beaten = beaten || beats(other, rows[row]);
        EXPECT_EQ(marks[row], !beaten);
        marked += marks[row] ? 1 : 0;
    }
    EXPECT_GT(marked, 1U);
    EXPECT_LT(marked, rows.size() / 2);
}

TEST(Ranking, PutsTheBestFirst) {
    const std::vector<SearchRow> rows = rows_for(Ratio(4), Ratio(1, 50));
    const auto expect_rising = [&](RankKey key, auto figure) {
        const std::vector<std::size_t> order = ranked(rows, key);
        ASSERT_EQ(order.size(), rows.size());
        for (std::size_t next = 1; next < order.size(); ++next) {
            EXPECT_LE(figure(rows[order[next - 1]]), figure(rows[order[next]])) << name_of(key);
            if (figure(rows[order[next - 1]]) == figure(rows[order[next]])) {
                EXPECT_LT(order[next - 1], order[next]);
            }
        }
    };
    expect_rising(RankKey::error, [](const SearchRow& row) { return row.error_ppm.magnitude(); });
    expect_rising(RankKey::size, [](const SearchRow& row) { return row.ring_diameter_mm; });
    expect_rising(RankKey::contact, [](const SearchRow& row) { return -row.contact_ratio; });
    expect_rising(RankKey::hunting, [](const SearchRow& row) { return !row.hunting; });
    expect_rising(RankKey::balance,
                  [](const SearchRow& row) { return std::pair(row.balance.residual, row.balance.in_step); });
    expect_rising(RankKey::teeth, [](const SearchRow& row) { return row.teeth[0] + row.teeth[1] + row.teeth[2]; });
}

}  // namespace
}  // namespace couplet
