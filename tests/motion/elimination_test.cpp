#include "motion/elimination.hpp"

#include <gtest/gtest.h>

#include <string>

#include "support/dice.hpp"
#include "support/flint_rates.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

Rows rows_of(const RateRows& from, std::size_t columns) {
    Rows rows;
    rows.columns = static_cast<std::int32_t>(columns);
    for (const RateRow& row : from) {
        for (const auto& [column, coefficient] : row) rows.add(static_cast<std::int32_t>(column), coefficient);
        rows.end_row();
    }
    return rows;
}

RateRows random_rows(Dice& dice, std::size_t count, std::size_t columns, int percent_filled, int most) {
    RateRows rows(count);
    for (RateRow& row : rows)
        for (std::size_t column = 0; column < columns; ++column)
            if (dice.chance(percent_filled))
                row.emplace_back(column, dice.between(1, most) * (dice.chance(50) ? 1 : -1));
    return rows;
}

// The rows as an equation for unknowns alone, the known column as right-hand side.
FlintRates flint_solution(const RateRows& rows, std::size_t unknowns) {
    RateRows left(rows.size());
    std::vector<std::vector<Ratio>> right(rows.size(), std::vector<Ratio>(1));
    for (std::size_t r = 0; r < rows.size(); ++r)
        for (const auto& [column, coefficient] : rows[r]) {
            if (column < unknowns)
                left[r].emplace_back(column, coefficient);
            else
                right[r][0] = -coefficient;
        }
    return rates_by_flint(left, right, unknowns);
}

TEST(Elimination, SolvesFullRowsThatLeaveMachineWords) {
    Dice dice(5);
    int beyond_words = 0;
    for (int trial = 0; trial < 40; ++trial) {
        const auto unknowns = static_cast<std::size_t>(dice.between(12, 44));
        const RateRows rows = random_rows(dice, unknowns, unknowns + 1, 90, 100000);
        const FlintRates theirs = flint_solution(rows, unknowns);
        const Solution ours = eliminate(rows_of(rows, unknowns + 1), 1, 6);
        beyond_words += ours.steps_beyond_words > 0 ? 1 : 0;
        if (!ours.free_columns.empty()) continue;
        ASSERT_TRUE(theirs.consistent);
        EXPECT_TRUE(ours.relations.empty());
        for (std::size_t c = 0; c < unknowns; ++c) {
            ASSERT_TRUE(theirs.rates[c].has_value());
            EXPECT_EQ(ours.values[c], theirs.rates[c]->front());
        }
    }
    EXPECT_GT(beyond_words, 20);
}

TEST(Elimination, ComesBackIntoWordsWhereARowShrinks) {
    // The second row is the first but for its last term; their difference is short again.
    const std::int64_t large = std::int64_t{1} << 61;
    const RateRows rows{{{0, 3}, {1, large}, {2, large - 1}},
                        {{0, 5}, {1, large - 3}, {2, large}},
                        {{0, 7}, {1, large - 11}, {2, 2}, {3, 1}}};
    const FlintRates theirs = flint_solution(rows, 3);
    const Solution ours = eliminate(rows_of(rows, 4), 1, 6);
    ASSERT_TRUE(theirs.consistent);
    for (std::size_t c = 0; c < 3; ++c) EXPECT_EQ(ours.values[c], theirs.rates[c]->front());
}

TEST(Elimination, FindsFreeColumnsAndGivesThemParameters) {
    // q0 + q1 + q2 = 0, q2 = p: one of q0, q1 is free.
    const Solution solution = eliminate(rows_of({{{0, 1}, {1, 1}, {2, 1}}, {{2, 1}, {3, -1}}}, 4), 1, 6);
    ASSERT_EQ(solution.free_columns.size(), 1U);
    ASSERT_EQ(solution.parameters, 2U);
    const auto value = [&](std::size_t column, std::size_t parameter) {
        return solution.values[column * solution.parameters + parameter];
    };
    EXPECT_EQ(value(2, 0), Ratio(1));
    EXPECT_EQ(value(2, 1), Ratio(0));
    EXPECT_EQ(value(0, 0) + value(1, 0), Ratio(-1));
    EXPECT_EQ(value(0, 1) + value(1, 1), Ratio(0));
    EXPECT_EQ(value(static_cast<std::size_t>(solution.free_columns[0]), 1), Ratio(1));
}

TEST(Elimination, FindsRelationsAmongKnownColumns) {
    // q0 = p1, 2 q0 = 3 p2: 2 p1 - 3 p2 = 0.
    const Solution solution = eliminate(rows_of({{{0, 1}, {1, -1}}, {{0, 2}, {2, -3}}}, 3), 2, 6);
    ASSERT_EQ(solution.relations.size(), 1U);
    const std::vector<Ratio>& relation = solution.relations[0];
    EXPECT_FALSE(relation[0].is_zero());
    EXPECT_EQ(relation[0] * -3, relation[1] * 2);
}

TEST(Elimination, KnowsColumnsWithoutRowsAndRowsWithoutColumns) {
    const Solution solution = eliminate(rows_of({{}, {{1, 4}}}, 3), 0, 6);
    EXPECT_EQ(solution.free_columns, (std::vector<std::int32_t>{0, 2}));
    EXPECT_TRUE(solution.relations.empty());
    EXPECT_EQ(eliminate(Rows{}, 0, 6).values.size(), 0U);
}

TEST(NullVector, IsSentToZeroByEveryRowAndAgreesWithElimination) {
    Dice dice(6);
    int found = 0;
    for (int trial = 0; trial < 300; ++trial) {
        const RateRows rows = random_rows(dice, 3, 4, 70, 500);
        std::array<FourWords, 3> dense{};
        for (std::size_t r = 0; r < 3; ++r)
            for (const auto& [column, coefficient] : rows[r]) dense[r][column] = coefficient;
        const std::optional<FourWords> vector = null_vector(dense);
        ASSERT_EQ(vector.has_value(), rank_by_flint(rows, 4) == 3);
        if (!vector) continue;
        ++found;
        EXPECT_NE(*vector, FourWords{});
        for (const FourWords& row : dense) {
            std::int64_t sum = 0;
            for (std::size_t c = 0; c < 4; ++c) sum += row[c] * (*vector)[c];
            EXPECT_EQ(sum, 0);
        }
    }
    EXPECT_GT(found, 150);
}

TEST(NullVector, LeavesLargeCoefficientsToElimination) {
    const std::int64_t limit = std::int64_t{1} << 19;
    const auto diagonal = [](std::int64_t entry) {
        return std::array<FourWords, 3>{{{entry, 0, 0, entry}, {0, entry, 0, entry}, {0, 0, entry, entry}}};
    };
    EXPECT_TRUE(null_vector(diagonal(limit)).has_value());
    EXPECT_TRUE(null_vector(diagonal(-limit)).has_value());
    EXPECT_FALSE(null_vector(diagonal(limit + 1)).has_value());
    EXPECT_FALSE(null_vector(diagonal(-limit - 1)).has_value());
}

}  // namespace
}  // namespace couplet
