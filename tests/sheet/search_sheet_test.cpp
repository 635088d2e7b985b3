#include "sheet/search_sheet.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "sheet/json_values.hpp"
#include "sheet/search_words.hpp"
#include "sheet/small_searches.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

std::vector<std::string> parts_of(const std::string& text, char between) {
    std::vector<std::string> parts;
    std::istringstream stream(text);
    for (std::string part; std::getline(stream, part, between);) parts.push_back(part);
    return parts;
}

// Of CSV without quotes in it: lines, and in each the cells.
std::vector<std::vector<std::string>> cells_of(const SearchReport& report) {
    std::vector<std::vector<std::string>> cells;
    for (std::string line : parts_of(search_sheet(report, Format::csv), '\n')) {
        if (line.ends_with('\r')) line.pop_back();
        cells.push_back(parts_of(line, ','));
    }
    return cells;
}

std::size_t column_of(const std::vector<std::string>& heads, const std::string& begin) {
    const auto found = std::ranges::find_if(heads, [&](const std::string& head) { return head.rfind(begin, 0) == 0; });
    if (found == heads.end()) throw std::out_of_range(begin);
    return static_cast<std::size_t>(found - heads.begin());
}

std::string line_with(const std::string& text, const std::string& part) {
    for (const std::string& line : parts_of(text, '\n'))
        if (line.find(part) != std::string::npos) return line;
    return "no line has: " + part;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

TEST(SearchSheet, HasAColumnForEveryCountOfItsArrangement) {
    for (const SearchWish& wish : small_wishes()) {
        SCOPED_TRACE(short_name(wish.arrangement));
        const SearchReport report = report_of(wish);
        const std::string csv = search_sheet(report, Format::csv);
        std::string expected = "unbeaten,";
        for (const std::string& name : count_names(wish))
            expected += (has(name, ",") ? '"' + name + " (teeth)\"" : name + " (teeth)") + ',';
        const ArrangementForm& form = form_of(wish.arrangement);
        if (form.has_copies) expected += "copies,";
        expected += "ratio (exact turns),error (ppm),";
        expected += count_places(wish).rings.empty() ? "largest gear (mm)," : "largest ring (mm),";
        EXPECT_EQ(csv.substr(0, expected.size()), expected);
        EXPECT_EQ(has(csv, "in step"), form.has_copies);
        EXPECT_EQ(std::ranges::count(csv, '\n'), 1 + static_cast<std::ptrdiff_t>(report.result.rows.size()));
        const std::string text = search_sheet(report, Format::text);
        EXPECT_TRUE(has(text, std::string(form.name)));
        EXPECT_TRUE(has(text, "Found: 6, by error"));
    }
}

TEST(SearchSheet, ShowsTheRowThatWasFound) {
    const SearchReport report = report_of(one_train_wish(4));
    const std::string text = search_sheet(report, Format::text);
    EXPECT_EQ(text.rfind("Tooth counts for 4 to 1\n=======================\n", 0), 0U);
    EXPECT_TRUE(has(text, "Wanted       4 turns of sun per turn of carrier, ring held\n"));
    EXPECT_TRUE(has(text, "Ratios       exact\n"));
    EXPECT_TRUE(has(text, "Trains       1 within the ranges; rejected by: none\n"));
    // 60 teeth of module 2.
    EXPECT_EQ(line_with(text, "120.000").rfind("*", 0), 0U) << text;
    const std::string markdown = search_sheet(report, Format::md);
    EXPECT_EQ(markdown.rfind("# Tooth counts for 4 to 1\n", 0), 0U);
    EXPECT_TRUE(has(line_with(markdown, "120.000"), "| 20 | 20 | 60 | 4 | 4 | 0 | 120.000 |")) << markdown;
    EXPECT_EQ(Json::parse(search_sheet(report, Format::json)).at("rows").size(), 1U);
}

TEST(SearchSheet, MarksWhatIsUnbeatenInEveryFormat) {
    SearchWish wish = small_wish(Arrangement::simple, 4, {18, 40});
    wish.most_nearest = 20;
    const SearchReport report = report_of(wish);
    const std::vector<bool> marks = unbeaten(report.result.rows);
    ASSERT_NE(std::ranges::find(marks, true), marks.end());
    ASSERT_NE(std::ranges::find(marks, false), marks.end());
    const auto cells = cells_of(report);
    const Json json = Json::parse(search_sheet(report, Format::json));
    std::vector<std::string> lines = parts_of(search_sheet(report, Format::text), '\n');
    const auto rule =
        std::ranges::find_if(lines, [](const std::string& line) { return line.starts_with("--------  "); });
    ASSERT_NE(rule, lines.end());
    for (std::size_t row = 0; row < marks.size(); ++row) {
        EXPECT_EQ(cells[row + 1][0], marks[row] ? "yes" : "no");
        EXPECT_EQ(json.at("rows").at(row).at("unbeaten"), static_cast<bool>(marks[row]));
        EXPECT_EQ((rule + 1 + static_cast<std::ptrdiff_t>(row))->starts_with("*"), marks[row]);
    }
}

TEST(SearchSheet, SaysHowManyOfHowManyAreShownByWhat) {
    SearchReport report = report_of(small_wish(Arrangement::simple, 4, {18, 26}));
    report.top = 2;
    report.sort = RankKey::size;
    EXPECT_TRUE(has(search_sheet(report, Format::text), "Found: 6, the first 2 by size\n"));
    const auto cells = cells_of(report);
    ASSERT_EQ(cells.size(), 3U);
    // The smallest ring of all is first.
    double smallest_mm = report.result.rows.front().ring_diameter_mm;
    for (const SearchRow& row : report.result.rows) smallest_mm = std::min(smallest_mm, row.ring_diameter_mm);
    EXPECT_EQ(std::stod(cells[1][column_of(cells[0], "largest ring")]), smallest_mm);
}

// Of 400 rpm for a year of 365.2425 days, by hand: 400 x 60 x 24 x 365.2425 = 210,379,680 turns of the driver, the
// 52,594,920 turns of an output at 4 to 1. 19, 20, 59 makes 1 + 59/19 = 78/19 and 210,379,680 x 19/78 = 51,246,332.31.
TEST(SearchSheet, ShowsTheDriftOfAYearWhereTheSpeedIsKnown) {
    SearchWish wish = small_wish(Arrangement::simple, 4, {19, 20});
    wish.teeth["sun"] = {19, 19};
    wish.teeth["planet"] = {20, 20};
    wish.copies = {1, 1};
    SearchReport report = report_of(wish);
    EXPECT_FALSE(has(search_sheet(report, Format::text), "drift"));
    report.rpm = Ratio(400);
    ASSERT_EQ(report.result.rows.size(), 1U);
    EXPECT_EQ(report.result.rows.front().ratio, Ratio(78, 19));
    const Ratio drift = drift_turns_a_year(report, report.result.rows.front());
    EXPECT_NEAR(drift.to_double(), 51246332.31 - 52594920.0, 0.01);
    const auto cells = cells_of(report);
    EXPECT_NEAR(std::stod(cells[1][column_of(cells[0], "drift (turns a year)")]), drift.to_double(), 1e-6);
    EXPECT_TRUE(has(search_sheet(report, Format::text), "Speed        driver at 400 rpm\n"));
    EXPECT_EQ(Json::parse(search_sheet(report, Format::json)).at("rows").at(0).at("drift_turns_a_year").at("exact"),
              drift.to_string());
}

TEST(SearchSheet, HasColumnsOfShiftsAndPlacesForEyesWhereTheyCanBe) {
    SearchWish wish = small_wish(Arrangement::simple, 4, {12, 14});
    EXPECT_FALSE(has(search_sheet(report_of(small_wish(Arrangement::simple, 4, {18, 26})), Format::text), "shifts"));
    wish.shift = ShiftUse::allowed;
    const std::string shifted = search_sheet(report_of(wish), Format::text);
    EXPECT_TRUE(has(shifted, "shifts"));
    EXPECT_TRUE(has(shifted, "sun +0."));
    wish = one_train_wish(3);
    wish.spacing = SpacingUse::free;
    const std::string placed = search_sheet(report_of(wish), Format::text);
    EXPECT_TRUE(has(placed, "places of copies"));
    EXPECT_TRUE(has(placed, "load residual"));
    // The multiples of 360/80 = 4.5 degrees next to 120 and 240.
    EXPECT_TRUE(has(placed, "0, 121.5, 238.5")) << placed;
    const std::string csv = search_sheet(report_of(one_train_wish(4)), Format::csv);
    EXPECT_TRUE(has(csv, "shifts (x module)"));
    EXPECT_TRUE(has(csv, "places of copies (deg)"));
}

TEST(SearchSheet, ShowsTheBestFractionsOfAnAwkwardRatioForPairs) {
    // 3, 22/7 and 355/113 are the first good fractions of pi (the usual ones: Archimedes, Zu Chongzhi).
    SearchReport report = report_of(small_wish(Arrangement::pairs, Ratio(314159265, 100000000), {18, 40}));
    EXPECT_TRUE(has(search_sheet(report, Format::text), "Convergents  3, 22/7, 333/106, 355/113, "));
}

TEST(SearchSheet, SaysWhatWouldGiveATrainWhereThereIsNone) {
    SearchReport report = report_of(one_train_wish(3));
    report.loosenings = loosenings(report.wish);
    ASSERT_FALSE(report.loosenings.empty());
    for (const Format format : {Format::text, Format::md}) {
        const std::string sheet = search_sheet(report, format);
        EXPECT_TRUE(has(sheet, "Nothing found"));
        EXPECT_TRUE(has(sheet, "What would give a train, the least change first:"));
        EXPECT_TRUE(has(sheet, "Wider tooth ranges (5 % beyond the limit) gives 21, 21, 63 x 3")) << sheet;
    }
    EXPECT_EQ(cells_of(report).size(), 1U) << "headings alone";
    report.loosenings.clear();
    EXPECT_TRUE(has(search_sheet(report, Format::text), "No single limit, loosened by up to a half, gives a train"));
}

TEST(SearchSheet, SaysThatItIsPartial) {
    SearchReport report = report_of(one_train_wish(4));
    EXPECT_FALSE(has(search_sheet(report, Format::text), "PARTIAL"));
    report.result.extent = SearchExtent::partial;
    EXPECT_TRUE(has(search_sheet(report, Format::text), "PARTIAL: the search was stopped before its end"));
    EXPECT_TRUE(has(search_sheet(report, Format::md), "PARTIAL: the search was stopped before its end"));
    EXPECT_EQ(Json::parse(search_sheet(report, Format::json)).at("partial"), true);
}

// What was stopped cannot say that nothing would help.
TEST(SearchSheet, SaysNoMoreThanItKnowsWhereNothingWasFoundYet) {
    SearchReport report = report_of(one_train_wish(3));
    report.result.extent = SearchExtent::partial;
    const std::string text = search_sheet(report, Format::text);
    EXPECT_TRUE(has(text, "Nothing found yet"));
    EXPECT_FALSE(has(text, "No single limit"));
}

}  // namespace
}  // namespace couplet
