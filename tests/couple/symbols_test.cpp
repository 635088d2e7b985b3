#include "couple/symbols.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

class Symbols : public testing::Test {
  protected:
    Train train_ = train_from("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)");
    ToothSum sun_ = sum_of(GearIndex{0});
    ToothSum planet_ = sum_of(GearIndex{1});
    ToothSum ring_ = sum_of(GearIndex{2});
    ToothSum one_ = sum_of(Ratio(1));

    std::string text(const Quotient& quotient, const Ratio& times = 1) { return text_of(train_, quotient, times); }
};

TEST_F(Symbols, SumsCancelTermByTerm) {
    const ToothSum sum = sun_ + ring_ + sun_ * Ratio(-1);
    EXPECT_EQ(sum, ring_);
    EXPECT_TRUE((ring_ + ring_ * Ratio(-1)).empty());
    EXPECT_EQ(value_of(train_, (sun_ + ring_) * planet_), Ratio((21 + 69) * 24));
}

TEST_F(Symbols, QuotientsCancelFactors) {
    const Quotient half = quotient_of(sun_ * planet_, planet_ * (sun_ + ring_));
    EXPECT_EQ(text(half), "1 * 21/(21+69)");
    EXPECT_EQ(text(half * inverse(half)), "1");
}

TEST_F(Symbols, CommonFactorsOfASumStandOutsideIt) {
    EXPECT_EQ(text(quotient_of(sun_ * planet_ + ring_ * planet_, one_)), "1 * 24 * (21+69)");
    EXPECT_EQ(text(quotient_of(sun_ * Ratio(-4) + ring_ * Ratio(-6), one_)), "-2 * (2*21+3*69)");
}

TEST_F(Symbols, AdditionKeepsCommonFactorsOutside) {
    const Quotient carrier = quotient_of(sun_, sun_ + ring_);
    const Quotient planet_on_carrier = carrier * quotient_of(ring_ * Ratio(-1), planet_);
    EXPECT_EQ(text(carrier + planet_on_carrier, 360), "360 * 21/24 * (24-69)/(21+69)");
}

TEST_F(Symbols, AdditionMayGiveNothing) {
    const Quotient carrier = quotient_of(sun_, sun_ + ring_);
    const Quotient opposite = carrier * quotient_of(one_ * Ratio(-1), one_);
    EXPECT_TRUE((carrier + opposite).constant.is_zero());
    EXPECT_EQ(text(carrier + opposite), "0");
}

TEST_F(Symbols, TextPutsFractionsOverEveryFactorBelow) {
    EXPECT_EQ(text(quotient_of(one_, planet_ * (sun_ + ring_)), 360), "360/24/(21+69)");
    EXPECT_EQ(text(quotient_of(sun_, one_), Ratio(-1, 3)), "-1 * 21/3");
}

TEST_F(Symbols, RefuseToGrowBeyondReading) {
    ToothSum sum = sun_ + planet_ + ring_ + one_;
    EXPECT_THROW(for (int i = 0; i < 20; ++i) sum = sum * (sun_ + planet_ + ring_ + one_), TooManyTerms);
}

}  // namespace
}  // namespace couplet
