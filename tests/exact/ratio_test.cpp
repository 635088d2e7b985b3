#include "exact/ratio.hpp"

#include <gmp.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

constexpr std::int64_t kMost = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t kLeast = std::numeric_limits<std::int64_t>::min();

TEST(Ratio, IsInLowestTermsWithAPositiveDenominator) {
    const Ratio value(6, -8);
    EXPECT_EQ(value.small_numerator(), -3);
    EXPECT_EQ(value.small_denominator(), 4);
    EXPECT_EQ(Ratio(0, -5), Ratio(0));
    EXPECT_EQ(Ratio(0, -5).small_denominator(), 1);
}

TEST(Ratio, RefusesAZeroDenominatorAndDivisionByZero) {
    EXPECT_THROW(Ratio(1, 0), std::domain_error);
    EXPECT_THROW(Ratio(1) / Ratio(0), std::domain_error);
    EXPECT_THROW((void)Ratio(0).inverse(), std::domain_error);
}

TEST(Ratio, MovesToLargeNumbersInsteadOfWrapping) {
    const Ratio sum = Ratio(kMost) + Ratio(1);
    EXPECT_FALSE(sum.is_small());
    EXPECT_EQ(sum.to_string(), "9223372036854775808");
    EXPECT_EQ((Ratio(kMost) * Ratio(kMost)).to_string(), "85070591730234615847396907784232501249");
    EXPECT_EQ((Ratio(1, kMost) - Ratio(1, kMost - 1)).to_string(), "-1/85070591730234615838173535747377725442");
}

TEST(Ratio, ComesBackToWordsWhenTheResultFits) {
    const Ratio large = Ratio(kMost) * Ratio(kMost);
    const Ratio back = large / Ratio(kMost);
    EXPECT_TRUE(back.is_small());
    EXPECT_EQ(back, Ratio(kMost));
    EXPECT_TRUE((large - large).is_zero());
}

TEST(Ratio, TreatsTheLowestWordLikeAnyOtherNumber) {
    const Ratio lowest(kLeast);
    EXPECT_EQ(lowest.to_string(), "-9223372036854775808");
    EXPECT_EQ((-lowest).to_string(), "9223372036854775808");
    EXPECT_EQ(lowest + Ratio(1), Ratio(kLeast + 1));
    EXPECT_EQ(Ratio(kLeast, kLeast), Ratio(1));
    EXPECT_EQ(Ratio(kLeast, 2), Ratio(kLeast / 2));
    EXPECT_EQ(Ratio(1, kLeast).to_string(), "-1/9223372036854775808");
    EXPECT_EQ(Ratio(kLeast + 1) - Ratio(1), lowest);
}

TEST(Ratio, OrdersByValueAcrossSizes) {
    const Ratio large = Ratio(kMost) * Ratio(2);
    EXPECT_LT(Ratio(1, 3), Ratio(1, 2));
    EXPECT_LT(Ratio(-1, 2), Ratio(-1, 3));
    EXPECT_LT(Ratio(kMost), large);
    EXPECT_LT(-large, Ratio(kLeast));
    EXPECT_GT(Ratio(kMost, kMost - 1), Ratio(kMost - 1, kMost - 2) - Ratio(1, 2));
}

TEST(Ratio, FloorsTowardsMinusInfinityAndKeepsTheFractionInOneTurn) {
    EXPECT_EQ(Ratio(-7, 2).floor(), Ratio(-4));
    EXPECT_EQ(Ratio(-7, 2).fraction(), Ratio(1, 2));
    EXPECT_EQ(Ratio(7, 2).floor(), Ratio(3));
    EXPECT_EQ(Ratio(-4).floor(), Ratio(-4));
    const Ratio million_turns = Ratio::whole_from_digits("1000000000000000000000000000000") + Ratio(-1, 3);
    EXPECT_EQ(million_turns.fraction(), Ratio(2, 3));
    EXPECT_EQ((-million_turns).fraction(), Ratio(1, 3));
}

TEST(Ratio, BecomesTheNearestDouble) {
    EXPECT_EQ(Ratio(1, 3).to_double(), 1.0 / 3.0);
    EXPECT_EQ(Ratio(-161, 240).to_double(), -161.0 / 240.0);
    EXPECT_NEAR(Ratio(kMost, 3).to_double() / 3074457345618258602.0, 1.0, 1e-15);
    EXPECT_TRUE(std::isinf((Ratio::whole_from_digits("1" + std::string(400, '0'))).to_double()));
}

TEST(Ratio, ReadsWholeNumbersOfAnyLengthAndNothingElse) {
    EXPECT_EQ(Ratio::whole_from_digits("-00042"), Ratio(-42));
    const std::string digits(1000, '7');
    EXPECT_EQ(Ratio::whole_from_digits(digits).to_string(), digits);
    for (const char* text : {"", "-", "+1", "1.0", " 1", "0x1", "1e3"})
        EXPECT_THROW((void)Ratio::whole_from_digits(text), std::invalid_argument) << text;
}

TEST(Ratio, CopiesAndMovesLargeValues) {
    const Ratio large = Ratio(kMost) * Ratio(kMost, 7);
    Ratio copy = large;
    EXPECT_EQ(copy, large);
    copy = copy + Ratio(1);
    EXPECT_NE(copy, large);
    const Ratio moved = std::move(copy);
    EXPECT_EQ(moved - Ratio(1), large);
    Ratio self = large;
    const Ratio& alias = self;
    self = alias;
    EXPECT_EQ(self, large);
}

TEST(Ratio, FindsTheGreatestCommonDivisorOfWholeNumbers) {
    EXPECT_EQ(whole_gcd(Ratio(84), Ratio(-36)), Ratio(12));
    EXPECT_EQ(whole_gcd(Ratio(0), Ratio(0)), Ratio(0));
    const Ratio large = Ratio(kMost) * Ratio(kMost);
    EXPECT_EQ(whole_gcd(large, Ratio(kMost)), Ratio(kMost));
}

// GMP's own rational numbers as the judge, over operands near every edge of a machine word.
class AgainstGmp : public testing::Test {
  protected:
    static Ratio random_ratio(std::mt19937_64& bits) {
        const auto word = [&] {
            const auto raw = static_cast<std::int64_t>(bits());
            return raw >> (bits() % 64);
        };
        std::int64_t denominator = word();
        if (denominator == 0) denominator = 1;
        Ratio value(word(), denominator);
        if (bits() % 8 == 0) value *= Ratio(word()) * Ratio(word()) + Ratio(1, 3);
        return value;
    }
    static std::string by_gmp(const Ratio& a, const Ratio& b, void (*operation)(mpq_ptr, mpq_srcptr, mpq_srcptr)) {
        mpq_t x, y, z;
        mpq_inits(x, y, z, nullptr);
        mpq_set_str(x, a.to_string().c_str(), 10);
        mpq_set_str(y, b.to_string().c_str(), 10);
        operation(z, x, y);
        char* text = mpq_get_str(nullptr, 10, z);
        std::string result = text;
        void (*release)(void*, std::size_t) = nullptr;
        mp_get_memory_functions(nullptr, nullptr, &release);
        release(text, result.size() + 1);
        mpq_clears(x, y, z, nullptr);
        return result;
    }
};

TEST_F(AgainstGmp, EveryOperationAgrees) {
    std::mt19937_64 bits(20261125);
    for (int i = 0; i < 20000; ++i) {
        const Ratio a = random_ratio(bits);
        const Ratio b = random_ratio(bits);
        ASSERT_EQ((a + b).to_string(), by_gmp(a, b, mpq_add)) << a.to_string() << " + " << b.to_string();
        ASSERT_EQ((a - b).to_string(), by_gmp(a, b, mpq_sub)) << a.to_string() << " - " << b.to_string();
        ASSERT_EQ((a * b).to_string(), by_gmp(a, b, mpq_mul)) << a.to_string() << " * " << b.to_string();
        if (!b.is_zero()) {
            ASSERT_EQ((a / b).to_string(), by_gmp(a, b, mpq_div)) << a.to_string() << " / " << b.to_string();
        }
        ASSERT_EQ(a < b, (a - b).sign() < 0);
    }
}

// A ratio of many limbs that shares few or many factors with others of its kind, all below 256, in its denominator.
Ratio random_smooth_ratio(std::mt19937_64& bits, int factors) {
    Ratio value = 1;
    for (int i = 0; i < factors; ++i)
        value *= Ratio(static_cast<std::int64_t>(bits() >> 2), 1 + static_cast<std::int64_t>(bits() % 250));
    return bits() % 2 == 0 ? value : -value;
}

TEST_F(AgainstGmp, SumsOverSmoothDenominatorsAgree) {
    std::mt19937_64 bits(251);
    for (int i = 0; i < 3000; ++i) {
        const Ratio a = random_smooth_ratio(bits, static_cast<int>(bits() % 60));
        const Ratio unlike = random_smooth_ratio(bits, static_cast<int>(bits() % 60));
        const Ratio alike =
            a * Ratio(static_cast<std::int64_t>(bits() % 999) - 500, 1 + static_cast<std::int64_t>(bits() % 250));
        const Ratio near_opposite = unlike - a;
        for (const Ratio& b : {unlike, alike, near_opposite, -a})
            ASSERT_EQ(smooth_sum(a, b).to_string(), by_gmp(a, b, mpq_add)) << a.to_string() << " + " << b.to_string();
    }
}

TEST_F(AgainstGmp, QuotientsByOneDivisorAgree) {
    std::mt19937_64 bits(949);
    const Ratio small_part(std::int64_t{2} * 3 * 5 * 7 * 11 * 13 * 17 * 19);
    for (int i = 0; i < 300; ++i) {
        const Ratio part = Ratio(kMost - static_cast<std::int64_t>(bits() % 1000)) * small_part;
        const Ratio divisor = i % 10 == 0 ? small_part : part * Ratio(static_cast<std::int64_t>(bits() >> 2) + 1);
        std::vector<Ratio> values{0, divisor, -divisor * Ratio(3, 7), Ratio(5, 6), divisor / Ratio(11)};
        // On odd turns one of them shares more than a word with the divisor.
        if (i % 2 == 1) values.push_back(part);
        for (int k = 0; k < 20; ++k) values.push_back(random_smooth_ratio(bits, static_cast<int>(bits() % 40)));
        std::vector<std::string> expected;
        std::vector<Ratio*> places;
        for (Ratio& value : values) {
            expected.push_back(by_gmp(value, divisor, mpq_div));
            places.push_back(&value);
        }
        divide_each(places, divisor);
        for (std::size_t k = 0; k < values.size(); ++k) ASSERT_EQ(values[k].to_string(), expected[k]) << i << ' ' << k;
    }
}

TEST_F(AgainstGmp, ResultsAreSmallExactlyWhereTheyFitWords) {
    std::mt19937_64 bits(7);
    const Ratio word_end = Ratio(kMost);
    for (int i = 0; i < 5000; ++i) {
        const Ratio value = random_ratio(bits) * random_ratio(bits);
        const bool fits = value.numerator().magnitude() <= word_end && value.denominator() <= word_end;
        ASSERT_EQ(value.is_small(), fits) << value.to_string();
    }
}

}  // namespace
}  // namespace couplet
