// Ratios that were published elsewhere, as fractions, as wheels to cut, and how far off they are.
//
// Each row says where its answer comes from and how that is known: read, from memory, or derived.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "exact/approximation.hpp"
#include "exact/decimal.hpp"
#include "find/search.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// (found / wanted - 1) x 10^6.
double error_ppm(const Ratio& found, const Ratio& wanted) {
    return ((found / wanted - Ratio(1)) * Ratio(1000000)).to_double();
}

const Ratio kPi = parse_ratio("3.14159265358979323846").value();

// Huygens' planetarium, Saturn: numbers and wheels of 206 and 7 teeth read at pimedios.jesussoto.es/?p=4819; the error
// is derived from them.
TEST(PublishedRatios, OfHuygensSaturnWheels) {
    EXPECT_NEAR(error_ppm(solved("saturn 206 x year 7", "drive saturn -1").turns("year"), Ratio(77708431, 2640858)),
                106.1, 0.05);
}

// Change-gear practice, from memory: 63 teeth in place of 127, 1600/63 for 25.4 mm an inch; 40 x 40 is 1600.
TEST(PublishedRatios, OfTheSixtyThreeToothSubstitute) {
    const Ratio inch_mm(254, 10);
    EXPECT_EQ(continued_fraction(inch_mm), (std::vector<Ratio>{25, 2, 2}));
    const SolvedTrain substitute = solved("a 40 x b 63; b 40 x c 10", "drive a 1");
    const Ratio found_mm = substitute.turns("c") * Ratio(10);
    EXPECT_EQ(found_mm, Ratio(1600, 63));
    EXPECT_NEAR(error_ppm(found_mm, inch_mm), -125.0, 0.05);
}

std::vector<SearchRow> single_pairs(const Ratio& target, const ToothRange& range,
                                    const std::optional<Ratio>& tolerance) {
    SearchWish wish;
    wish.arrangement = Arrangement::pairs;
    wish.pairs = 1;
    wish.target = target;
    wish.tolerance = tolerance;
    wish.most_nearest = 1;
    wish.shift = ShiftUse::allowed;
    for (const std::string& name : count_names(wish)) wish.teeth[name] = range;
    return search(wish).rows;
}

// 127 is prime: an exact conversion of the inch needs a wheel of 127 (change-gear practice, from memory).
TEST(PublishedRatios, OfTheInchNeedAWheelOf127) {
    EXPECT_TRUE(single_pairs(Ratio(-127, 100), {20, 126}, Ratio(0)).empty());
    const std::vector<SearchRow> exact = single_pairs(Ratio(-127, 100), {20, 127}, Ratio(0));
    ASSERT_EQ(exact.size(), 1U);
    EXPECT_EQ(exact[0].teeth, (std::vector<int>{100, 127}));
}

// Best single pairs, by the theory of convergents (22/7 of pi; 41/29 of the root of two): from memory.
TEST(PublishedRatios, OfTheBestSinglePairs) {
    const std::vector<SearchRow> circle = single_pairs(-kPi, {10, 120}, std::nullopt);
    ASSERT_EQ(circle.size(), 1U);
    EXPECT_EQ(circle[0].teeth, (std::vector<int>{14, 44}));
    const Ratio root_of_two = parse_ratio("1.41421356237309504880").value();
    const std::vector<SearchRow> root = single_pairs(-root_of_two, {12, 60}, std::nullopt);
    ASSERT_EQ(root.size(), 1U);
    EXPECT_EQ(root[0].teeth, (std::vector<int>{29, 41}));
}

// The mean synodic month in days (published constant): convergents derived; the moon wheel of 59 teeth is common
// practice.
TEST(PublishedRatios, OfTheMonth) {
    const Ratio month_days = parse_ratio("29.530589").value();
    const std::vector<Ratio> found = convergents(month_days);
    const std::vector<Ratio> expected = {
        30, Ratio(59, 2), Ratio(443, 15), Ratio(502, 17), Ratio(1447, 49), Ratio(25101, 850)};
    ASSERT_GE(found.size(), expected.size() + 1);
    EXPECT_TRUE(std::equal(expected.begin(), expected.end(), found.begin() + 1));
    EXPECT_EQ(best_approximation(month_days, 59, 2), Ratio(59, 2));
}

// 355/113, classical; from memory.
TEST(PublishedRatios, OfTheCircleFromWholeWheels) {
    const Ratio found = -solved("a 355 x b 113", "drive a 1").turns("b");
    EXPECT_EQ(found, best_approximation(kPi, 1000, 1000));
    EXPECT_NEAR(error_ppm(found, kPi), 0.085, 0.0005);
}

}  // namespace
}  // namespace couplet
