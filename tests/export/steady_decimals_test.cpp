#include "export/steady_decimals.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"
#include "support/dice.hpp"

namespace couplet {
namespace {

// What decimal_text makes of the exact value; in periods the part above whole ones, a full one being 0.
std::string exact_text(const Ratio& value, int decimals, const std::optional<Ratio>& period) {
    if (!period) return decimal_text(value, decimals);
    const Ratio part = rounded(value - (value / *period).floor() * *period, decimals);
    return decimal_text(part == *period ? Ratio(0) : part, decimals);
}

void expect_exact(const Ratio& step, int decimals, const std::optional<Ratio>& period, int rows) {
    SteadyDecimals cells(step, decimals, period);
    for (int row = 0; row < rows; ++row) {
        std::string text;
        cells.append_next(text);
        ASSERT_EQ(text, exact_text(step * Ratio(row), decimals, period))
            << "row " << row << " of steps of " << step.to_string() << (period ? " in " + period->to_string() : "");
    }
}

// 256 bits of a fraction that no word holds.
Ratio large_ratio(Dice& dice) {
    const auto word = [&] { return std::to_string(dice.between(100'000'000, 999'999'999)); };
    return Ratio::whole_from_digits(word() + word() + word()) /
           Ratio::whole_from_digits(word() + word() + word() + "1");
}

TEST(SteadyDecimals, AreRightToTheLastDigitForFractions) {
    for (const Ratio& step : {Ratio(5), Ratio(-161, 48), Ratio(1, 3), Ratio(-2, 3), Ratio(7, 6), Ratio(84, 72),
                              Ratio(1, 1'000'000'007), Ratio(355, 113), Ratio(-1, 7)})
        for (const int decimals : {1, 9, 11}) expect_exact(step, decimals, std::nullopt, 3000);
}

// Halves of the last decimal are rounded away from zero, in every other row here.
TEST(SteadyDecimals, RoundHalvesAwayFromZero) {
    expect_exact(Ratio(1, 20), 1, std::nullopt, 200);
    expect_exact(Ratio(-1, 20), 1, std::nullopt, 200);
    expect_exact(Ratio(1, 2'000'000'000), 9, std::nullopt, 200);
    expect_exact(Ratio(1, 12'000'000'000), 9, std::nullopt, 200);
}

TEST(SteadyDecimals, AreRightInWholePeriods) {
    for (const Ratio& step : {Ratio(5), Ratio(-161, 48), Ratio(359), Ratio(-1, 7), Ratio(1081, 3), Ratio(360),
                              Ratio(-360), Ratio(36'000'001, 100'000)})
        expect_exact(step, 9, Ratio(360), 3000);
}

// Just below 360 rounds to a whole turn, which reads as none.
TEST(SteadyDecimals, ReadAWholePeriodAsNone) {
    SteadyDecimals cells(Ratio(-1, 10'000'000'000), 9, Ratio(360));
    std::string text;
    cells.append_next(text);
    cells.append_next(text += ' ');
    EXPECT_EQ(text, "0 0");
    expect_exact(Ratio(-1, 10'000'000'000), 9, Ratio(360), 30);
}

TEST(SteadyDecimals, AreRightWhereTheStepLeavesWords) {
    Dice dice(7);
    for (int i = 0; i < 40; ++i) {
        const Ratio step = i % 2 == 0 ? large_ratio(dice) : -large_ratio(dice);
        expect_exact(step, 9, std::nullopt, 300);
        expect_exact(step, 11, Ratio(360), 300);
        expect_exact(step, 11,
                     Ratio::whole_from_digits("62831853071795864769252867665590057683943388") * power_of_ten(-43), 300);
    }
}

// A step just off a half of the last decimal, by less than what is kept of it: either way it must fall rightly.
TEST(SteadyDecimals, AreRightWhereTheRoundingIsInDoubt) {
    const Ratio least = power_of_ten(-60);
    for (const Ratio& off : {least, -least}) {
        expect_exact(Ratio(1, 20) + off, 1, std::nullopt, 100);
        expect_exact(Ratio(5, 2) + off, 1, Ratio(5), 100);
        expect_exact(Ratio(5) + off, 9, Ratio(360), 200);
        expect_exact(Ratio(-5) + off, 9, Ratio(360), 200);
    }
}

TEST(SteadyDecimals, GoOnBeyondWords) {
    expect_exact(Ratio::whole_from_digits("1" + std::string(40, '0')) / Ratio(7), 9, std::nullopt, 20);
    expect_exact(Ratio(std::int64_t{1} << 60) + Ratio(1, 3), 9, std::nullopt, 40);
}

// Far from the start, where what a step lost has grown: against the same row worked out alone.
TEST(SteadyDecimals, AreRightAfterAMillionRows) {
    Dice dice(11);
    const Ratio step = large_ratio(dice) * Ratio(360);
    SteadyDecimals plain(step, 9);
    SteadyDecimals wrapped(step, 9, Ratio(360));
    for (int row = 0; row < 1'000'000; ++row) {
        std::string text;
        plain.append_next(text);
        wrapped.append_next(text += ' ');
        if (row % 9973 != 0 && row < 999'900) continue;
        ASSERT_EQ(text,
                  exact_text(step * Ratio(row), 9, std::nullopt) + ' ' + exact_text(step * Ratio(row), 9, Ratio(360)));
    }
}

TEST(SteadyDecimals, StandWhereTheStepIsNone) {
    expect_exact(Ratio(0), 9, std::nullopt, 5);
    expect_exact(Ratio(0), 9, Ratio(360), 5);
}

}  // namespace
}  // namespace couplet
