#include "sheet/search_json.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

#include "sheet/small_searches.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

// What a text says in full: choice and ranges that were left as usual are spelled out, but for rings that may be
// whatever fits; how many nearest are kept is not said where a tolerance is.
SearchWish spelled_out(SearchWish wish) {
    wish.choice = choice_of(wish);
    const std::vector<std::string> names = count_names(wish);
    const std::vector<ToothRange> ranges = ranges_of(wish);
    for (std::size_t count = 0; count < names.size(); ++count)
        if (ranges[count].most <= kMostSearchedTeeth) wish.teeth[names[count]] = ranges[count];
    if (wish.tolerance) wish.most_nearest = SearchWish{}.most_nearest;
    return wish;
}

std::string text_of(const SearchReport& report) {
    SearchReport whole = report;
    whole.top = kMostSearchRows;
    return json_text(search_json(whole));
}

void expect_the_same_back(const SearchReport& report) {
    ASSERT_FALSE(report.result.rows.empty());
    const SearchReport read = search_of_json(text_of(report));
    EXPECT_TRUE(read.wish == spelled_out(report.wish));
    EXPECT_EQ(read.slice.index, report.slice.index);
    EXPECT_EQ(read.slice.count, report.slice.count);
    EXPECT_EQ(read.result.target, report.result.target);
    EXPECT_EQ(read.result.examined, report.result.examined);
    EXPECT_EQ(read.result.rejected, report.result.rejected);
    EXPECT_EQ(read.result.extent, report.result.extent);
    EXPECT_TRUE(read.result.rows == report.result.rows);
}

void expect_refused(const std::string& text, const std::string& why) {
    try {
        (void)search_of_json(text);
        ADD_FAILURE() << "read, where this was expected: " << why;
    } catch (const std::invalid_argument& error) {
        EXPECT_EQ(error.what(), why);
    }
}

constexpr const char* kNoSearch = "it is no result of a search; write it with --format json";

// The keys are read from the design's section 5 (find).
TEST(SearchJson, HasTheKeysOfTheContract) {
    const Json json = search_json(report_of(one_train_wish(4)));
    EXPECT_EQ(json.at("couplet"), 1);
    EXPECT_EQ(json.at("scene"), "simple planetary set");
    EXPECT_EQ(json.at("outcome"), "found");
    EXPECT_EQ(json.at("target"), (Json{{"exact", "4"}, {"value", 4.0}}));
    EXPECT_EQ(json.at("examined"), 1);
    EXPECT_EQ(json.at("rejected").size(), kRules);
    for (const auto& [rule, count] : json.at("rejected").items()) EXPECT_EQ(count, 0) << rule;
    ASSERT_EQ(json.at("rows").size(), 1U);
    const Json& row = json.at("rows").at(0);
    EXPECT_EQ(row.at("teeth"), (Json{{"sun", 20}, {"planet", 20}, {"ring", 60}}));
    EXPECT_EQ(row.at("copies"), 4);
    EXPECT_EQ(row.at("ratio"), (Json{{"exact", "4"}, {"value", 4.0}}));
    EXPECT_EQ(row.at("error_ppm"), 0.0);
    EXPECT_EQ(row.at("ring_diameter_mm"), 120.0);  // module 2
    EXPECT_EQ(row.at("unbeaten"), true);
    EXPECT_FALSE(row.contains("drift_turns_a_year"));
}

TEST(SearchJson, TellsWhatWouldGiveATrainWhereThereIsNone) {
    SearchReport report = report_of(one_train_wish(3));
    report.loosenings = loosenings(report.wish);
    const Json json = search_json(report);
    EXPECT_EQ(json.at("outcome"), "nothing found");
    EXPECT_TRUE(json.at("rows").empty());
    ASSERT_FALSE(json.at("loosenings").empty());
    for (const Json& loosening : json.at("loosenings")) {
        EXPECT_TRUE(loosening.at("limit").is_string());
        EXPECT_TRUE(loosening.at("row").at("teeth").contains("sun"));
    }
}

TEST(SearchJson, ComesBackOfEveryArrangement) {
    ASSERT_EQ(small_wishes().size(), searchable_arrangements().size());
    for (const SearchWish& wish : small_wishes()) {
        SCOPED_TRACE(form_of(wish.arrangement).name);
        expect_the_same_back(report_of(wish));
    }
}

TEST(SearchJson, ComesBackOfEveryLimit) {
    SearchWish wish = small_wish(Arrangement::simple, Ratio(4, 3), {18, 26});
    wish.choice = CentralChoice{"sun", "ring", "carrier"};
    wish.tolerance = Ratio(3, 100);
    wish.teeth["ring"] = {50, 70};
    wish.copies = {2, 5};
    wish.largest_ring_diameter_mm = 1.0 / 3.0 + 190.0;  // a double that no short decimal is
    wish.module_mm = Ratio(5, 2);
    wish.hunting = HuntingUse::required;
    expect_the_same_back(report_of(wish));
    wish = small_wish(Arrangement::pairs, 2, {18, 26});
    wish.pairs = 3;
    wish.target = -2;
    expect_the_same_back(report_of(wish));
}

// 12 teeth are undercut without a shift.
TEST(SearchJson, ComesBackWithShifts) {
    SearchWish wish = small_wish(Arrangement::simple, 4, {12, 14});
    wish.shift = ShiftUse::allowed;
    const SearchReport report = report_of(wish);
    const auto is_shifted = [](const SearchRow& row) { return !row.shifts.front().is_zero(); };
    EXPECT_TRUE(std::ranges::any_of(report.result.rows, is_shifted));
    expect_the_same_back(report);
}

// 20 + 60 teeth: three copies stand at multiples of 360/80 degrees, and 120 is none.
TEST(SearchJson, ComesBackWithFreePlaces) {
    SearchWish wish = one_train_wish(3);
    wish.spacing = SpacingUse::free;
    const SearchReport report = report_of(wish);
    ASSERT_FALSE(report.result.rows.empty());
    EXPECT_FALSE(report.result.rows.front().places_deg.empty());
    expect_the_same_back(report);
}

TEST(SearchJson, ComesBackWithARowForEachRatio) {
    SearchWish wish = small_wish(Arrangement::simple, 4, {18, 26});
    wish.rows = RowsUse::each_ratio;
    expect_the_same_back(report_of(wish));
    wish.tolerance = Ratio(1, 10);
    expect_the_same_back(report_of(wish));
}

TEST(SearchJson, ComesBackAsASliceAndAsAPart) {
    SearchReport report;
    report.wish = small_wish(Arrangement::simple, 4, {18, 26});
    report.slice = {2, 3};
    report.result = search(report.wish, report.slice);
    expect_the_same_back(report);
    report.result.extent = SearchExtent::partial;
    expect_the_same_back(report);
}

TEST(SearchJson, ComesBackInItsOwnOrderHoweverItWasSorted) {
    SearchReport report = report_of(small_wish(Arrangement::simple, 4, {18, 26}));
    report.sort = RankKey::teeth;
    report.rpm = Ratio(30);
    expect_the_same_back(report);
}

TEST(SearchJson, ThatIsBrokenIsNone) {
    const std::string text = text_of(report_of(one_train_wish(4)));
    for (const std::string& broken :
         {std::string(), std::string("unbeaten,sun\r\n"), text.substr(0, text.size() / 2), std::string("[]"),
          std::string("{\"couplet\": 1}"), std::string("null"), std::string("\xff\xfe")})
        expect_refused(broken, kNoSearch);
}

TEST(SearchJson, WithoutAKeyThatCountsIsNone) {
    const Json json = Json::parse(text_of(report_of(one_train_wish(4))));
    for (const char* key : {"target", "wish", "slice", "partial", "examined", "rejected", "rows_found", "rows"}) {
        Json less = json;
        less.erase(key);
        expect_refused(less.dump(), kNoSearch);
    }
    for (const auto& [key, value] : json.at("wish").items()) {
        Json less = json;
        less["wish"].erase(key);
        expect_refused(less.dump(), kNoSearch);
    }
    for (const char* key : {"teeth", "copies", "ratio", "ring_diameter_mm", "shifts", "places_deg", "contact_ratio",
                            "hunting", "balance", "cautions"}) {
        Json less = json;
        less["rows"][0].erase(key);
        expect_refused(less.dump(), kNoSearch);
    }
}

// A value that is read is checked: nothing that follows has to expect what no search says.
TEST(SearchJson, WithAValueThatIsNoneTellsWhich) {
    const Json json = Json::parse(text_of(report_of(one_train_wish(4))));
    const auto expect_refused_with = [&](const char* where, const Json& value, const std::string& why) {
        Json wrong = json;
        wrong[Json::json_pointer(where)] = value;
        expect_refused(wrong.dump(), why);
    };
    expect_refused_with("/wish/shift", "some", "'some' is no shift");
    expect_refused_with("/wish/each", "gear", "'gear' is no each");
    expect_refused_with("/wish/arrangement", "belt", "'belt' is no arrangement");
    expect_refused_with("/target/exact", "four", "'four' is no number");
    expect_refused_with("/target/exact", "0", "no train has the ratio 0");
    expect_refused_with("/rows/0/ratio/exact", "0", "no train has the ratio 0");
    expect_refused_with("/wish/held", "drum", "this arrangement has no member 'drum' to hold, drive or take off");
    expect_refused_with("/wish/copies", Json::array({3, 64}), "copies range from 1 to 63");
    expect_refused_with("/slice", Json{{"index", 9}, {"of", 8}}, "there is no slice 9 of 8");
    expect_refused_with("/slice", Json{{"index", 0}, {"of", 8}}, "there is no slice 0 of 8");
    expect_refused_with("/slice", Json{{"index", 1}, {"of", 0}}, "there is no slice 1 of 0");
    expect_refused_with("/slice", Json{{"index", 1}, {"of", 1000000000000}}, "there is no slice 1 of 1000000000000");
}

TEST(SearchJson, OfSomeRowsOnlyCannotBeJoined) {
    SearchReport report = report_of(small_wish(Arrangement::simple, 4, {18, 26}));
    ASSERT_GT(report.result.rows.size(), 2U);
    report.top = 2;
    expect_refused(json_text(search_json(report)), "it shows some of the rows only; write it with --slice");
}

}  // namespace
}  // namespace couplet
