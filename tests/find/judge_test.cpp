#include "find/judge.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

namespace couplet {
namespace {

SearchWish wish_for(const Ratio& target) {
    SearchWish wish;
    wish.target = target;
    wish.module_mm = Ratio(3);
    return wish;
}

std::variant<SearchRow, Rule> judged(const SearchWish& wish, const std::vector<int>& counts, int copies) {
    return Judge(wish).judge(counts, copies, Ratio(counts[0] + counts[2], counts[0]));
}

Rule broken(const std::vector<int>& counts, int copies) {
    return std::get<Rule>(judged(wish_for(Ratio(4)), counts, copies));
}

// The design's own example: 21, 24, 69 of module 3 with three planets; 90 / 21 = 30/7, and the ring is 207 mm.
TEST(Judge, FinishesTheRowOfATrainThatKeepsAllRules) {
    const SearchWish wish = wish_for(Ratio(4));
    const SearchRow row = std::get<SearchRow>(judged(wish, {21, 24, 69}, 3));
    EXPECT_EQ(row.ratio, Ratio(30, 7));
    EXPECT_EQ(row.error_ppm, Ratio(500000, 7));  // (30/28 - 1) x 10^6
    EXPECT_DOUBLE_EQ(row.ring_diameter_mm, 207.0);
    EXPECT_FALSE(row.hunting);  // 21, 24 and 69 are all divided by 3
    EXPECT_GT(row.contact_ratio, 1.2);
    EXPECT_TRUE(row.cautions.empty());
}

TEST(Judge, NamesTheRuleThatIsBroken) {
    EXPECT_EQ(broken({21, 24, 69}, 4), Rule::assembly);              // 90 / 4
    EXPECT_EQ(broken({20, 40, 100}, 6), Rule::neighbour_clearance);  // 60 sin 30 is below 42
    EXPECT_EQ(broken({24, 18, 61}, 1), Rule::centre_distance);       // 24 + 36 is 60
    EXPECT_EQ(broken({17, 18, 53}, 1), Rule::undercut);              // below 17.1 teeth
    // The shift that mends a sun of 10 teeth brings the tips of the ring below the base circle of the planets: found by
    // the rule itself.
    SearchWish wish = wish_for(Ratio(4));
    wish.shift = ShiftUse::allowed;
    EXPECT_EQ(std::get<Rule>(judged(wish, {10, 14, 40}, 1)), Rule::interference);
}

// 90 is whole by 2, 3 and 5; five planets of 24 teeth have 45 sin 36 = 26.5, room for their 26.
TEST(Judge, JudgesTheSameAgain) {
    const SearchWish wish = wish_for(Ratio(4));
    Judge judge(wish);
    for (int again = 0; again < 2; ++again) {
        for (const int copies : {2, 3, 5, 4, 6})
            EXPECT_EQ(std::holds_alternative<SearchRow>(judge.judge({21, 24, 69}, copies, Ratio(30, 7))),
                      copies != 4 && copies != 6)
                << copies;
        EXPECT_TRUE(std::holds_alternative<Rule>(judge.judge({12, 18, 48}, 3, Ratio(5))));
    }
}

TEST(Judge, BreaksWhereTheSolverDisagrees) {
    const SearchWish wish = wish_for(Ratio(4));
    EXPECT_THROW(static_cast<void>(Judge(wish).judge({21, 24, 69}, 3, Ratio(4))), std::logic_error);
}

}  // namespace
}  // namespace couplet
