#include "find/tooth_products.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>

#include "exact/decimal.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

using Gears = std::pair<std::vector<int>, std::vector<int>>;

std::vector<PairRange> alike(std::size_t pairs, int fewest, int most) {
    return std::vector<PairRange>(pairs, {{fewest, most}, {fewest, most}});
}

int all_teeth(const Gears& gears) {
    int all = 0;
    for (const int teeth : gears.first) all += teeth;
    for (const int teeth : gears.second) all += teeth;
    return all;
}

// Calls visit for every choice of one count per range.
template <class Visit>
void each_choice(const std::vector<ToothRange>& ranges, std::vector<int>& chosen, const Visit& visit) {
    if (chosen.size() == ranges.size()) return visit(chosen);
    const ToothRange range = ranges[chosen.size()];
    for (int teeth = range.fewest; teeth <= range.most; ++teeth) {
        chosen.push_back(teeth);
        each_choice(ranges, chosen, visit);
        chosen.pop_back();
    }
}

// Every choice of gears, each value with its best gears, all of them sorted by the definition in the header.
std::vector<ToothProduct> by_brute_force(const std::vector<PairRange>& pairs, const Ratio& target,
                                         const NearestWish& wish) {
    const bool sorts = std::ranges::all_of(pairs, [&](const PairRange& pair) { return pair == pairs.front(); });
    std::vector<ToothRange> ranges;
    for (const PairRange& pair : pairs) ranges.insert(ranges.end(), {pair.driving, pair.driven});
    std::map<Ratio, Gears> best;
    std::vector<int> chosen;
    each_choice(ranges, chosen, [&](const std::vector<int>& counts) {
        Gears gears;
        Ratio ratio(1);
        for (std::size_t gear = 0; gear < counts.size(); gear += 2) {
            gears.first.push_back(counts[gear]);
            gears.second.push_back(counts[gear + 1]);
            ratio *= Ratio(counts[gear + 1], counts[gear]);
        }
        if (sorts) std::ranges::sort(gears.first);
        if (sorts) std::ranges::sort(gears.second);
        const auto [known, is_new] = best.try_emplace(ratio, gears);
        if (!is_new && std::pair(all_teeth(gears), gears) < std::pair(all_teeth(known->second), known->second))
            known->second = gears;
    });
    std::vector<std::tuple<Ratio, int, Ratio>> order;
    for (const auto& [ratio, gears] : best) order.emplace_back((ratio - target).magnitude(), all_teeth(gears), ratio);
    std::ranges::sort(order);
    std::vector<ToothProduct> rows;
    for (const auto& [error, teeth, ratio] : order) {
        if (rows.size() == wish.rows || (wish.tolerance && error > *wish.tolerance * target)) break;
        const Gears& gears = best.at(ratio);
        rows.push_back({gears.first, gears.second, ratio, (ratio / target - Ratio(1)) * Ratio(1000000)});
    }
    return rows;
}

void expect_as_brute_force(const std::vector<PairRange>& pairs, const Ratio& target, const NearestWish& wish) {
    const std::vector<ToothProduct> expected = by_brute_force(pairs, target, wish);
    const std::vector<ToothProduct> found = ToothProducts(pairs).nearest(target, wish);
    ASSERT_EQ(found.size(), expected.size()) << target.to_string();
    for (std::size_t row = 0; row < found.size(); ++row) {
        EXPECT_EQ(found[row].ratio, expected[row].ratio) << target.to_string() << ", row " << row;
        EXPECT_EQ(found[row].error_ppm, expected[row].error_ppm);
        EXPECT_EQ(found[row].driving, expected[row].driving) << target.to_string() << ", row " << row;
        EXPECT_EQ(found[row].driven, expected[row].driven) << target.to_string() << ", row " << row;
    }
}

const Ratio kPi = *parse_ratio("3.14159265358979323846");

// Made, not made and out of reach; whole, awkward, longer than a word.
const std::vector<Ratio> kTargets = {
    Ratio(1),
    Ratio(2),
    Ratio(13, 7),
    Ratio(1, 3),
    kPi,
    Ratio(355, 113),
    Ratio(254, 10),
    Ratio(1000),
    Ratio(1, 1000),
    Ratio::whole_from_digits("123456789012345678901") / Ratio::whole_from_digits("98765432109876543210")};

TEST(ToothProducts, OfOnePairAreThoseOfBruteForce) {
    for (const Ratio& target : kTargets) expect_as_brute_force(alike(1, 7, 60), target, {});
}

TEST(ToothProducts, OfTwoPairsAreThoseOfBruteForce) {
    for (const Ratio& target : kTargets) expect_as_brute_force(alike(2, 9, 22), target, {});
}

TEST(ToothProducts, OfThreePairsAreThoseOfBruteForce) {
    for (const Ratio& target : kTargets) expect_as_brute_force(alike(3, 5, 11), target, {});
}

TEST(ToothProducts, OfPairsWithRangesOfTheirOwnAreThoseOfBruteForce) {
    const std::vector<PairRange> two = {{{8, 15}, {20, 34}}, {{10, 16}, {11, 30}}};
    const std::vector<PairRange> three = {{{6, 9}, {8, 15}}, {{5, 8}, {5, 8}}, {{5, 8}, {5, 8}}};
    for (const Ratio& target : kTargets) {
        expect_as_brute_force(two, target, {});
        expect_as_brute_force(three, target, {});
    }
}

TEST(ToothProducts, KeepWithinAToleranceAndANumberOfRows) {
    for (const Ratio& target : kTargets) {
        expect_as_brute_force(alike(2, 9, 16), target, {1000, Ratio(1, 200)});
        expect_as_brute_force(alike(2, 9, 16), target, {1000, Ratio(0)});
        expect_as_brute_force(alike(2, 9, 16), target, {1, {}});
        expect_as_brute_force(alike(2, 9, 16), target, {57, {}});
    }
}

TEST(ToothProducts, AreNeverLostWhereRangesWiden) {
    const Ratio target(191, 83);
    const std::vector<ToothProduct> narrow = ToothProducts(alike(2, 12, 30)).nearest(target, {1000, Ratio(1, 50)});
    const std::vector<ToothProduct> wide = ToothProducts(alike(2, 11, 33)).nearest(target, {100000, Ratio(1, 50)});
    ASSERT_FALSE(narrow.empty());
    for (const ToothProduct& row : narrow)
        EXPECT_TRUE(std::ranges::any_of(wide, [&](const ToothProduct& other) { return other.ratio == row.ratio; }))
            << row.ratio.to_string();
}

// The published ratios: one pair, the driving wheel's range first.
ToothProduct best_of(const std::vector<PairRange>& pairs, const Ratio& target) {
    return ToothProducts(pairs).nearest(target, {1, {}}).front();
}

void expect_wheels(const ToothProduct& row, std::vector<int> driving, std::vector<int> driven) {
    EXPECT_EQ(row.driving, driving);
    EXPECT_EQ(row.driven, driven);
}

// Huygens' planetarium, Saturn: 77708431/2640858 by wheels of 206 and 7, +106.1 ppm. READ at
// pimedios.jesussoto.es/?p=4819; the error is recomputed.
TEST(PublishedWheels, OfHuygensForSaturn) {
    const ToothProduct row = best_of({{{5, 10}, {100, 300}}}, Ratio(77708431, 2640858));
    expect_wheels(row, {7}, {206});
    EXPECT_NEAR(row.error_ppm.to_double(), 106.1, 0.05);
}

// Pi by 10 to 120 teeth is 44/14, by more 355/113, 0.085 ppm off. Classical, from memory.
TEST(PublishedWheels, OfPi) {
    expect_wheels(best_of(alike(1, 10, 120), kPi), {14}, {44});
    const ToothProduct row = best_of(alike(1, 10, 400), kPi);
    expect_wheels(row, {113}, {355});
    EXPECT_NEAR(row.error_ppm.to_double(), 0.085, 0.0005);
}

// The square root of 2 by 12 to 60 teeth: its convergent 41/29. Standard theory, from memory.
TEST(PublishedWheels, OfTheSquareRootOfTwo) {
    expect_wheels(best_of(alike(1, 12, 60), *parse_ratio("1.41421356237309504880")), {29}, {41});
}

// A metric screw on an inch lathe: exact only with a wheel of 127 teeth; without one, and with the driving wheels'
// product not above 63, 1600/63 (-125 ppm). Change-gear practice, from memory.
TEST(PublishedWheels, OfTheMetricScrewWithoutAWheelOf127) {
    const std::vector<PairRange> pairs = {{{3, 7}, {10, 126}}, {{3, 9}, {10, 126}}};
    const ToothProduct row = best_of(pairs, Ratio(127, 5));
    EXPECT_EQ(row.ratio, Ratio(1600, 63));
    EXPECT_NEAR(row.error_ppm.to_double(), -125.0, 0.05);
    expect_wheels(best_of({{{15, 63}, {127, 400}}}, Ratio(127, 5)), {15}, {381});
}

// Brocot's example: 191 minutes in 23 turns. AMS feature column, December 2008 (title read, the numbers from memory).
TEST(PublishedWheels, OfBrocot) {
    const ToothProduct exact = best_of(alike(1, 8, 200), Ratio(191, 23));
    expect_wheels(exact, {23}, {191});
    EXPECT_TRUE(exact.error_ppm.is_zero());
    // With smaller wheels: the convergent before it, 83/10.
    expect_wheels(best_of({{{8, 12}, {8, 190}}}, Ratio(191, 23)), {10}, {83});
}

// The mean lunar month, 29.530589 days: 59/2, then 443/15. DERIVED from the published constant.
TEST(PublishedWheels, OfTheLunarMonth) {
    const Ratio month = *parse_ratio("29.530589");
    expect_wheels(best_of({{{2, 8}, {40, 300}}}, month), {2}, {59});
    expect_wheels(best_of({{{2, 16}, {40, 600}}}, month), {15}, {443});
}

// The Antikythera mechanism's mean Moon, |254/19| by 64/38, 48/24 and 127/32: one of the exact trains that three pairs
// of its wheels can make. Freeth et al., Nature 444 (2006) 587 (tooth counts from memory).
TEST(PublishedWheels, OfTheAntikytheraMoon) {
    const ToothProduct row = best_of(alike(3, 24, 127), Ratio(254, 19));
    EXPECT_TRUE(row.error_ppm.is_zero());
    EXPECT_EQ(row.driven.back(), 127);  // prime
    const std::vector<PairRange> its_own = {{{38, 38}, {64, 64}}, {{24, 24}, {48, 48}}, {{32, 32}, {127, 127}}};
    EXPECT_EQ(best_of(its_own, Ratio(254, 19)).ratio, Ratio(254, 19));
}

TEST(ToothProducts, RefuseWhatCannotBeMeant) {
    EXPECT_THROW(ToothProducts({}), std::invalid_argument);
    EXPECT_THROW(ToothProducts(alike(4, 12, 20)), std::invalid_argument);
    EXPECT_THROW(ToothProducts(alike(1, 0, 20)), std::invalid_argument);
    EXPECT_THROW(ToothProducts(alike(1, 1, 100000)), std::length_error);
    EXPECT_THROW(static_cast<void>(ToothProducts(alike(1, 12, 20)).nearest(Ratio(0))), std::invalid_argument);
    EXPECT_TRUE(ToothProducts(alike(1, 12, 11)).nearest(Ratio(1)).empty());
}

}  // namespace
}  // namespace couplet
