#include "motion/equations.hpp"

#include <gtest/gtest.h>

#include "motion/motion.hpp"
#include "support/equations.hpp"
#include "support/random_trains.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

RateRow as_rate_row(std::span<const Term> terms) {
    RateRow row;
    for (const Term& term : terms) row.emplace_back(static_cast<std::size_t>(term.column), term.coefficient);
    return row;
}

RateRow negated(RateRow row) {
    for (auto& [column, coefficient] : row) coefficient = -coefficient;
    return row;
}

// The rows by definition, each driver with a column of its own behind the members'.
RateRows expected_rows(const Train& train, const Setting& setting) {
    RateRows rows = still_rows(train, setting);
    std::size_t column = train.members.size();
    for (RateRow& row : driver_rows(train, setting)) {
        row.emplace_back(column++, -1);
        rows.push_back(row);
    }
    return rows;
}

TEST(SolverEquations, AreThoseOfTheDefinitions) {
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed);
        const Rows rows = equations(random.train, random.setting);
        const RateRows expected = expected_rows(random.train, random.setting);
        ASSERT_EQ(rows.count(), expected.size());
        EXPECT_EQ(static_cast<std::size_t>(rows.columns), random.train.members.size() + random.setting.drive.size());
        for (std::size_t r = 0; r < expected.size(); ++r) {
            const RateRow row = as_rate_row(rows[r]);
            EXPECT_TRUE(row == expected[r] || row == negated(expected[r])) << "row " << r;
        }
    }
}

TEST(SolverEquations, AddTermsOfAColumnUp) {
    Rows rows;
    rows.columns = 5;
    rows.add(3, 7);
    rows.add(1, 2);
    rows.add(3, -7);
    rows.add(4, 1);
    rows.add(1, 5);
    rows.end_row();
    rows.end_row();
    ASSERT_EQ(rows.count(), 2U);
    EXPECT_EQ(as_rate_row(rows[0]), (RateRow{{1, 7}, {4, 1}}));
    EXPECT_TRUE(rows[1].empty());
}

}  // namespace
}  // namespace couplet
