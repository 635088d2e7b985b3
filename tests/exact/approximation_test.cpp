#include "exact/approximation.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

// Huygens' planetarium, Saturn: 77708431/2640858. Numbers and the choice of 206/7 read at
// pimedios.jesussoto.es/?p=4819; the expansion is that of the fraction itself (the printed one does not reproduce
// beyond six terms).
TEST(ContinuedFraction, OfHuygensSaturnTrain) {
    const Ratio saturn(77708431, 2640858);
    const std::vector<Ratio> quotients = {29, 2, 2, 1, 5, 1, 4, 1, 1, 2, 1, 6, 1, 10, 2, 2, 3};
    EXPECT_EQ(continued_fraction(saturn), quotients);
    const std::vector<Ratio> found = convergents(saturn);
    EXPECT_EQ(found[3], Ratio(206, 7));
    EXPECT_EQ(found[4], Ratio(1177, 40));
    EXPECT_EQ(found.back(), saturn);
}

// Brocot's example, 191 minutes in 23 turns (AMS feature column, December 2008; the number from memory).
TEST(ContinuedFraction, OfBrocotsExample) {
    EXPECT_EQ(continued_fraction(Ratio(191, 23)), (std::vector<Ratio>{8, 3, 3, 2}));
    EXPECT_EQ(convergents(Ratio(191, 23)), (std::vector<Ratio>{8, Ratio(25, 3), Ratio(83, 10), Ratio(191, 23)}));
}

// Millimetres in an inch, for a metric screw on an inch lathe (change-gear practice; from memory).
TEST(ContinuedFraction, OfTheInch) {
    EXPECT_EQ(convergents(Ratio(254, 10)), (std::vector<Ratio>{25, Ratio(51, 2), Ratio(127, 5)}));
}

TEST(ContinuedFraction, OfNegativeAndWholeValues) {
    EXPECT_EQ(continued_fraction(Ratio(-3)), (std::vector<Ratio>{-3}));
    EXPECT_EQ(continued_fraction(Ratio(-7, 2)), (std::vector<Ratio>{-4, 2}));
    EXPECT_EQ(convergents(Ratio(-7, 2)).back(), Ratio(-7, 2));
}

// pi from whole wheels: 355/113 and 22/7 (classical; from memory).
TEST(BestApproximation, FindsTheClassics) {
    const Ratio pi =
        Ratio::whole_from_digits("314159265358979323846") / Ratio::whole_from_digits("100000000000000000000");
    EXPECT_EQ(best_approximation(pi, 1000, 1000), Ratio(355, 113));
    EXPECT_EQ(best_approximation(pi, 120, 120), Ratio(22, 7));
}

TEST(BestApproximation, IsExactWhereTheValueFits) {
    EXPECT_EQ(best_approximation(Ratio(-161, 240), 161, 240), Ratio(-161, 240));
    EXPECT_EQ(best_approximation(Ratio(0), 1, 1), Ratio(0));
}

TEST(BestApproximation, RefusesBoundsBelowOne) {
    EXPECT_THROW((void)best_approximation(Ratio(1, 2), 0, 5), std::invalid_argument);
}

// Brute force as the judge: no fraction within the bounds is nearer.
TEST(BestApproximation, BeatsEveryFractionWithinTheBounds) {
    for (std::int64_t top = 0; top <= 120; top += 7) {
        for (std::int64_t bottom = 1; bottom <= 97; bottom += 6) {
            const Ratio value(top, bottom);
            for (const std::int64_t most : {1, 2, 5, 11, 16}) {
                const Ratio found = best_approximation(value, Ratio(3 * most), Ratio(most));
                ASSERT_LE(found.denominator(), Ratio(most));
                ASSERT_LE(found.numerator(), Ratio(3 * most));
                for (std::int64_t d = 1; d <= most; ++d)
                    for (std::int64_t n = 0; n <= 3 * most; ++n)
                        ASSERT_LE((found - value).magnitude(), (Ratio(n, d) - value).magnitude())
                            << value.to_string() << " within " << most << ": " << n << "/" << d;
            }
        }
    }
}

}  // namespace
}  // namespace couplet
