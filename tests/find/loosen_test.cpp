#include "find/loosen.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

SearchWish simple_wish(const Ratio& target, ToothRange sun, ToothRange planet, CopiesRange copies) {
    SearchWish wish;
    wish.target = target;
    wish.tolerance = Ratio(0);
    wish.teeth = {{"sun", sun}, {"planet", planet}};
    wish.copies = copies;
    return wish;
}

Loosening of(Limit limit, const std::vector<Loosening>& found) {
    for (const Loosening& loosening : found)
        if (loosening.limit == limit) return loosening;
    throw std::runtime_error("not loosened: " + std::string(name_of(limit)));
}

// Sun 20, planet 20, ring 60: 4 to 1, and 80 teeth go into 4 copies but not into 3.
TEST(Loosening, NamesTheCopiesThatWouldAssemble) {
    const SearchWish wish = simple_wish(Ratio(4), {20, 20}, {20, 20}, {3, 3});
    ASSERT_TRUE(search(wish).rows.empty());
    const Loosening copies = of(Limit::copies, loosenings(wish));
    EXPECT_TRUE(copies.row.copies == 4 || copies.row.copies == 2);
    EXPECT_DOUBLE_EQ(*copies.part, 1.0 / 3.0);
}

// 21, 21, 63 has 84 / 3 whole: one tooth of 20 more.
TEST(Loosening, ComparesLimitsByTheirParts) {
    const std::vector<Loosening> found = loosenings(simple_wish(Ratio(4), {20, 20}, {20, 20}, {3, 3}));
    ASSERT_FALSE(found.empty());
    EXPECT_EQ(found.front().limit, Limit::tooth_ranges);
    EXPECT_DOUBLE_EQ(*found.front().part, 1.0 / 20.0);
    for (std::size_t next = 1; next < found.size(); ++next) {
        if (!found[next].part) continue;
        EXPECT_LE(*found[next - 1].part, *found[next].part);
    }
}

// No set of 20 to 24 teeth makes exactly 4.01; the nearest is known by trying all without a tolerance.
TEST(Loosening, OfTheToleranceIsTheErrorOfTheNearestRow) {
    SearchWish wish = simple_wish(Ratio(401, 100), {20, 24}, {20, 24}, {3, 3});
    ASSERT_TRUE(search(wish).rows.empty());
    const std::vector<Loosening> found = loosenings(wish);
    wish.tolerance = Ratio(1);
    const SearchRow nearest = search(wish).rows.front();
    EXPECT_EQ(of(Limit::tolerance, found).row, nearest);
    EXPECT_DOUBLE_EQ(*of(Limit::tolerance, found).part, std::abs(nearest.error_ppm.to_double()) * 1e-6);
}

// 18, 18, 54 of module 2 needs 108 mm, and 72 / 3 is whole.
TEST(Loosening, OfTheDiameterIsWhatTheSmallestRingNeeds) {
    SearchWish wish = simple_wish(Ratio(4), {18, 30}, {18, 30}, {3, 3});
    wish.largest_ring_diameter_mm = 100.0;
    ASSERT_TRUE(search(wish).rows.empty());
    const Loosening diameter = of(Limit::ring_diameter, loosenings(wish));
    EXPECT_EQ(diameter.row.teeth, (std::vector{18, 18, 54}));
    EXPECT_NEAR(*diameter.part, 0.08, 1e-12);
}

TEST(Loosening, LetsHuntingGoOrAShiftIn) {
    SearchWish wish = simple_wish(Ratio(4), {21, 21}, {21, 21}, {3, 3});
    wish.hunting = HuntingUse::required;
    EXPECT_FALSE(of(Limit::hunting, loosenings(wish)).part);
    // 12 teeth are undercut without a shift.
    const SearchWish undercut = simple_wish(Ratio(4), {12, 12}, {12, 12}, {3, 3});
    EXPECT_FALSE(of(Limit::shift, loosenings(undercut)).part);
}

}  // namespace
}  // namespace couplet
