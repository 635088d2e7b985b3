#include "exact/decimal.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TEST(ParseRatio, TakesADecimalAsWritten) {
    EXPECT_EQ(parse_ratio("0.1"), Ratio(1, 10));
    EXPECT_EQ(parse_ratio("-241.50"), Ratio(-483, 2));
    EXPECT_EQ(parse_ratio("+1.5e-3"), Ratio(3, 2000));
    EXPECT_EQ(parse_ratio("2E3"), Ratio(2000));
    EXPECT_EQ(parse_ratio("1_000.000_5"), Ratio(2000001, 2000));
    EXPECT_EQ(parse_ratio("-0.0"), Ratio(0));
}

TEST(ParseRatio, TakesAFraction) {
    EXPECT_EQ(parse_ratio("43/10"), Ratio(43, 10));
    EXPECT_EQ(parse_ratio("-6/4"), Ratio(-3, 2));
}

TEST(ParseRatio, RefusesWhatIsNotANumber) {
    for (const char* text : {"",     "-",     ".",  ".5", "5.",   "1e",   "e3", "1.2.3", "0x10",    "inf", "nan", "1/0",
                             "1/-2", "1.5/2", "_1", "1_", "1__0", "1_.5", " 1", "1 ",    "1e99999", "--1", "1/",  "/2"})
        EXPECT_FALSE(parse_ratio(text)) << text;
    EXPECT_FALSE(parse_ratio(std::string(5000, '1')));
}

TEST(DecimalsNeeded, CountsThemOrSaysThatNoneDo) {
    EXPECT_EQ(decimals_needed(Ratio(7)), 0);
    EXPECT_EQ(decimals_needed(Ratio(-483, 2)), 1);
    EXPECT_EQ(decimals_needed(Ratio(1, 625)), 4);
    EXPECT_EQ(decimals_needed(Ratio(1, 1024)), 10);
    EXPECT_FALSE(decimals_needed(Ratio(1, 3)));
}

TEST(Rounded, GoesToTheNearestHalfAwayFromZero) {
    EXPECT_EQ(rounded(Ratio(1, 3), 2), Ratio(33, 100));
    EXPECT_EQ(rounded(Ratio(1, 8), 2), Ratio(13, 100));
    EXPECT_EQ(rounded(Ratio(-1, 8), 2), Ratio(-13, 100));
    EXPECT_EQ(rounded(Ratio(5, 2), 0), Ratio(3));
}

TEST(DecimalText, WritesNoMoreDigitsThanNeeded) {
    EXPECT_EQ(decimal_text(Ratio(-483, 2), 3), "-241.5");
    EXPECT_EQ(decimal_text(Ratio(1, 3), 3), "0.333");
    EXPECT_EQ(decimal_text(Ratio(-1, 3000), 3), "0");
    EXPECT_EQ(decimal_text(Ratio(360), 3), "360");
    EXPECT_EQ(decimal_text(Ratio(1, 100), 2), "0.01");
    EXPECT_EQ(decimal_text(Ratio(5, 2), 0), "3");
}

TEST(ExactText, IsADecimalWhereThatIsExactElseAFraction) {
    EXPECT_EQ(exact_text(Ratio(-483, 2)), "-241.5");
    EXPECT_EQ(exact_text(Ratio(-550, 48)), "-275/24");
    EXPECT_EQ(exact_text(Ratio(0)), "0");
}

TEST(ExactText, ReadsBackAsTheSameNumber) {
    for (std::int64_t top = -50; top <= 50; ++top)
        for (std::int64_t bottom = 1; bottom <= 40; ++bottom)
            ASSERT_EQ(parse_ratio(exact_text(Ratio(top, bottom))), Ratio(top, bottom));
}

TEST(PowerOfTen, WorksInBothDirections) {
    EXPECT_EQ(power_of_ten(0), Ratio(1));
    EXPECT_EQ(power_of_ten(-3), Ratio(1, 1000));
    EXPECT_EQ(power_of_ten(30).to_string(), "1" + std::string(30, '0'));
}

}  // namespace
}  // namespace couplet
