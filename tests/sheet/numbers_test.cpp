#include "sheet/numbers.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"

namespace couplet {
namespace {

TEST(RoughText, ShowsSixDecimalsAtMost) {
    EXPECT_EQ(rough_text(Ratio(7, 30)), "0.233333");
    EXPECT_EQ(rough_text(Ratio(-105, 8)), "-13.125");
    EXPECT_EQ(rough_text(0), "0");
    EXPECT_EQ(rough_text(36000), "36000");
    EXPECT_EQ(rough_text(Ratio(1, 1000)), "0.001");
}

TEST(RoughText, GoesOverToSixDigitsWhereDecimalsSayLittle) {
    EXPECT_EQ(rough_text(Ratio(1, 30000)), "3.33333e-5");
    EXPECT_EQ(rough_text(Ratio(-2, 3) * power_of_ten(-400)), "-6.66667e-401");
    EXPECT_EQ(rough_text(power_of_ten(500)), "1e500");
    EXPECT_EQ(rough_text(power_of_ten(20) - Ratio(1)), "1e20");
    EXPECT_EQ(rough_text(Ratio(1234567891)), "1.23457e9");
}

TEST(FractionCell, IsAFractionAndNotADecimal) {
    EXPECT_EQ(fraction_cell(Ratio(-161, 240)).shown, "-161/240");
    EXPECT_EQ(fraction_cell(Ratio(1, 2)).shown, "1/2");
    EXPECT_EQ(fraction_cell(4).shown, "4");
}

TEST(DecimalCell, IsADecimalWhereThatIsExact) {
    EXPECT_EQ(decimal_cell(Ratio(-483, 2)).shown, "-241.5");
    EXPECT_EQ(decimal_cell(Ratio(1000, 3)).shown, "1000/3");
}

TEST(ExactCells, ShortenLongValuesForEyesOnly) {
    const Ratio tiny = Ratio(1, 3) * power_of_ten(-1200);
    const Cell cell = fraction_cell(tiny);
    EXPECT_EQ(cell.shown, "3.33333e-1201 (1202 digits)");
    EXPECT_EQ(cell.full, tiny.to_string());
    EXPECT_TRUE(is_abbreviated(cell));
    EXPECT_FALSE(is_abbreviated(fraction_cell(Ratio(1, 3))));
}

TEST(RoughCell, HasTheNearestDoubleInFull) {
    EXPECT_EQ(rough_cell(Ratio(1, 3)).full, "0.3333333333333333");
    EXPECT_EQ(rough_cell(Ratio(1, 3)).shown, "0.333333");
    EXPECT_FALSE(is_abbreviated(rough_cell(Ratio(1, 3))));
}

TEST(RoughCell, HasNothingInFullBeyondADouble) {
    EXPECT_EQ(rough_cell(power_of_ten(400)).full, "");
    EXPECT_EQ(rough_cell(power_of_ten(-400)).full, "");
    EXPECT_EQ(rough_cell(0).full, "0");
}

TEST(PairText, PutsBothAnglesBesideEachOther) {
    EXPECT_EQ(pair_text(360, Ratio(-483, 2)), "360 : -241.5");
}

}  // namespace
}  // namespace couplet
