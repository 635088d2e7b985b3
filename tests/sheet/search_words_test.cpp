#include "sheet/search_words.hpp"

#include <gtest/gtest.h>

#include <set>

#include "sheet/small_searches.hpp"

namespace couplet {
namespace {

TEST(SearchWords, CallEveryArrangementThatCanBeSearchedByOneWord) {
    std::set<std::string_view> names;
    for (const Arrangement arrangement : searchable_arrangements()) {
        const std::string_view name = short_name(arrangement);
        EXPECT_TRUE(names.insert(name).second) << name;
        EXPECT_EQ(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string_view::npos) << name;
    }
    EXPECT_EQ(names, (std::set<std::string_view>{"simple", "stepped", "paired", "two-rings", "in-series", "pairs",
                                                 "reverted"}));
    EXPECT_EQ(short_name(Arrangement::differential), "") << "its ratio is not one number";
}

TEST(SearchWords, TellTheTeethAndTheCopiesWhereThereAreAny) {
    SearchRow row;
    row.teeth = {21, 24, 69};
    row.copies = 3;
    EXPECT_EQ(teeth_text(small_wish(Arrangement::simple, 4, {}), row), "21, 24, 69 x 3");
    row.teeth = {20, 40, 20, 40};
    row.copies = 1;
    EXPECT_EQ(teeth_text(small_wish(Arrangement::pairs, 4, {}), row), "20, 40, 20, 40");
}

TEST(SearchWords, NameBothSidesOfTheRatioAndWhatIsHeld) {
    EXPECT_EQ(wanted_text(small_wish(Arrangement::simple, 4, {}), Ratio(30, 7)),
              "30/7 turns of sun per turn of carrier, ring held");
    EXPECT_EQ(wanted_text(small_wish(Arrangement::pairs, 4, {}), Ratio(-43, 10)),
              "-4.3 turns of shaft 1 per turn of shaft 3");
    EXPECT_EQ(wanted_text(small_wish(Arrangement::in_series, 4, {}), Ratio(16)),
              "16 turns of sun 1 per turn of carrier 2, both rings held");
    SearchWish wish = small_wish(Arrangement::simple, 4, {});
    wish.choice = CentralChoice{"sun", "ring", "carrier"};
    EXPECT_EQ(wanted_text(wish, Ratio(4, 3)), "4/3 turns of ring per turn of carrier, sun held");
}

TEST(SearchWords, TellRangesAndLimits) {
    SearchWish wish;
    wish.target = 4;
    wish.teeth["sun"] = {18, 60};
    EXPECT_EQ(ranges_text(wish), "sun 18 to 60, planet 12 to 100, ring whatever fits");
    EXPECT_EQ(limits_text(wish), "module 2 mm, 3 copies, equally spaced, no profile shift");
    wish.copies = {2, 6};
    wish.spacing = SpacingUse::free;
    wish.largest_ring_diameter_mm = 207.5;
    wish.module_mm = Ratio(5, 2);
    wish.shift = ShiftUse::allowed;
    wish.hunting = HuntingUse::required;
    EXPECT_EQ(limits_text(wish),
              "module 2.5 mm, 2 to 6 copies, at free angles, ring up to 207.5 mm, profile shift allowed, hunting "
              "required");
    wish.teeth["ring"] = {60, 150};
    EXPECT_EQ(ranges_text(wish), "sun 18 to 60, planet 12 to 100, ring 60 to 150");
    EXPECT_EQ(limits_text(small_wish(Arrangement::pairs, 4, {})), "module 2 mm, no profile shift");
}

TEST(SearchWords, TellWhatWasRejectedMostFirst) {
    SearchResult result;
    result.examined = 1234567;
    EXPECT_EQ(rejected_text(result), "1,234,567 within the ranges; rejected by: none");
    result.rejected[static_cast<std::size_t>(Rule::ratio)] = 999;
    result.rejected[static_cast<std::size_t>(Rule::neighbour_clearance)] = 1000;
    result.rejected[static_cast<std::size_t>(Rule::undercut)] = 999;
    EXPECT_EQ(rejected_text(result),
              "1,234,567 within the ranges; rejected by: 1,000 neighbour clearance, 999 ratio, 999 undercut");
}

TEST(SearchWords, TellALooseningByItsOwnMeasure) {
    const SearchWish wish = small_wish(Arrangement::simple, 4, {});
    SearchRow row;
    row.teeth = {20, 20, 60};
    row.copies = 4;
    row.ratio = 4;
    EXPECT_EQ(loosening_text(wish, {Limit::copies, 1.0 / 3.0, row}),
              "Another number of copies (33.3 % beyond the limit) gives 20, 20, 60 x 4, with a ratio of 4.");
    EXPECT_EQ(loosening_text(wish, {Limit::spacing, std::nullopt, row}),
              "Free spacing of the copies gives 20, 20, 60 x 4, with a ratio of 4.");
    row.ratio = Ratio(401, 100);
    row.error_ppm = error_in_ppm(row.ratio, wish.target);  // 0.01 / 4
    EXPECT_EQ(loosening_text(wish, {Limit::tolerance, 0.0025, row}),
              "A wider tolerance (error 2500 ppm) gives 20, 20, 60 x 4, with a ratio of 401/100.");
}

TEST(SearchWords, AreThereForEveryLimit) {
    std::set<std::string> texts;
    for (const Limit limit : {Limit::tolerance, Limit::tooth_ranges, Limit::copies, Limit::ring_diameter,
                              Limit::hunting, Limit::shift, Limit::spacing, Limit::sense}) {
        SearchRow row;
        row.ratio = 4;
        const std::string text = loosening_text(small_wish(Arrangement::simple, 4, {}), {limit, std::nullopt, row});
        EXPECT_TRUE(texts.insert(text).second) << text;
        EXPECT_FALSE(text.starts_with(" ")) << text;
    }
}

TEST(SearchWords, TellShiftsWithTheirSignAndLeaveNoneOut) {
    const SearchWish wish = small_wish(Arrangement::simple, 4, {});
    SearchRow row;
    row.shifts = {Ratio(299, 1000), 0, Ratio(-113, 1000)};
    EXPECT_EQ(shifts_text(wish, row), "sun +0.299, ring -0.113");
    row.shifts = {0, 0, 0};
    EXPECT_EQ(shifts_text(wish, row), "");
}

TEST(SearchWords, TellWhereCopiesStandCarrierByCarrier) {
    SearchRow row;
    EXPECT_EQ(places_text(row), "");
    row.places_deg = {{0, Ratio(12255319, 100000), Ratio(237)}, {0, 120}};
    EXPECT_EQ(places_text(row), "0, 122.553, 237; 0, 120");
}

}  // namespace
}  // namespace couplet
