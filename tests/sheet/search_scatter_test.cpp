#include "sheet/search_scatter.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <pugixml.hpp>
#include <set>

#include "exact/decimal.hpp"
#include "sheet/paper.hpp"
#include "sheet/small_searches.hpp"

namespace couplet {
namespace {

struct Dot {
    double x_mm;
    double y_mm;
    double radius_mm;
};
struct Words {
    double x_mm;
    double y_mm;
    double size_mm;
    std::string text;
};

// The scatter as another reader of SVG sees it.
struct Seen {
    std::vector<Dot> dots;
    std::vector<Words> words;
};

Seen seen(const SearchReport& report) {
    pugi::xml_document document;
    const pugi::xml_parse_result read = document.load_string(search_scatter(report).c_str());
    EXPECT_TRUE(read) << read.description();
    Seen found;
    for (const pugi::xpath_node& node : document.select_nodes("//circle")) {
        const pugi::xml_node circle = node.node();
        found.dots.push_back({circle.attribute("cx").as_double(), circle.attribute("cy").as_double(),
                              circle.attribute("r").as_double()});
    }
    for (const pugi::xpath_node& node : document.select_nodes("//text")) {
        const pugi::xml_node text = node.node();
        found.words.push_back({text.attribute("x").as_double(), text.attribute("y").as_double(),
                               text.attribute("font-size").as_double(), text.child_value()});
    }
    return found;
}

const Words& words_with(const Seen& found, const std::string& part) {
    for (const Words& words : found.words)
        if (words.text.find(part) != std::string::npos) return words;
    throw std::out_of_range(part);
}

// Letters are narrower on average, digits not: 0.64 of the height in the widest of the usual sans-serif faces (from
// memory).
void expect_on_the_sheet(const Seen& found) {
    for (const Words& words : found.words) {
        const bool digits = words.text.find_first_of("abcdefghijklmnopqrstuvwxyz") == std::string::npos;
        const double width_mm = (digits ? 0.64 : 0.58) * words.size_mm * static_cast<double>(words.text.size());
        EXPECT_GE(words.x_mm, 0.0) << words.text;
        EXPECT_LE(words.x_mm + width_mm, kSheetWidth_mm) << words.text;
        EXPECT_GE(words.y_mm - words.size_mm, 0.0) << words.text;
        EXPECT_LE(words.y_mm + 0.3 * words.size_mm, kSheetHeight_mm) << words.text;
        EXPECT_GE(words.size_mm, 2.0) << words.text << " is too small to read";
    }
    for (const Dot& dot : found.dots) {
        EXPECT_TRUE(std::isfinite(dot.x_mm) && std::isfinite(dot.y_mm));
        EXPECT_GE(dot.x_mm, 0.0);
        EXPECT_LE(dot.x_mm, kSheetWidth_mm);
        EXPECT_GE(dot.y_mm, 0.0);
        EXPECT_LE(dot.y_mm, kSheetHeight_mm);
    }
}

SearchReport simple_report() {
    SearchWish wish = small_wish(Arrangement::simple, 4, {18, 40});
    wish.most_nearest = 60;
    return report_of(wish);
}

// Where a row stands, by straight interpolation between two rows that stand somewhere else: the axes are not asked.
TEST(SearchScatter, HasADotForEveryRowAtItsSizeAndError) {
    const SearchReport report = simple_report();
    const Seen found = seen(report);
    // Named rows have the dot of their callout as well.
    EXPECT_GE(found.dots.size(), report.result.rows.size());
    std::set<std::pair<double, double>> places;
    for (const Dot& dot : found.dots) places.emplace(dot.x_mm, dot.y_mm);
    std::set<std::pair<double, Ratio>> rows;
    for (const SearchRow& row : report.result.rows) rows.emplace(row.ring_diameter_mm, row.error_ppm.magnitude());
    EXPECT_EQ(places.size(), rows.size());
    // Sizes rise to the right in proportion.
    std::set<double> across;
    std::set<double> sizes;
    for (const auto& [x, y] : places) across.insert(x);
    for (const auto& [size, error] : rows) sizes.insert(size);
    ASSERT_EQ(across.size(), sizes.size());
    const double slope = (*across.rbegin() - *across.begin()) / (*sizes.rbegin() - *sizes.begin());
    auto size = sizes.begin();
    for (const double x : across) EXPECT_NEAR(x, *across.begin() + slope * (*size++ - *sizes.begin()), 0.002);
    // Errors rise by powers of ten, upwards.
    std::set<double, std::greater<>> heights;
    std::set<double> powers;
    for (const auto& [x, y] : places) heights.insert(y);
    for (const auto& [one, error] : rows)
        if (!error.is_zero()) powers.insert(std::log10(error.to_double()));
    heights.erase(heights.begin());  // exact ones stand lowest
    ASSERT_EQ(heights.size(), powers.size());
    const double steep = (*heights.rbegin() - *heights.begin()) / (*powers.rbegin() - *powers.begin());
    EXPECT_LT(steep, 0.0);
    auto power = powers.begin();
    for (const double y : heights) EXPECT_NEAR(y, *heights.begin() + steep * (*power++ - *powers.begin()), 0.002);
}

TEST(SearchScatter, PutsExactRatiosOnALineOfTheirOwn) {
    const SearchReport report = simple_report();
    const Seen found = seen(report);
    std::set<double> exact_sizes;
    for (const SearchRow& row : report.result.rows)
        if (row.error_ppm.is_zero()) exact_sizes.insert(row.ring_diameter_mm);
    ASSERT_GT(exact_sizes.size(), 1U);
    ASSERT_LT(exact_sizes.size(), report.result.rows.size());
    double lowest_mm = 0.0;
    for (const Dot& dot : found.dots) lowest_mm = std::max(lowest_mm, dot.y_mm);
    std::set<double> on_the_line;
    double next_mm = 0.0;
    for (const Dot& dot : found.dots) {
        if (dot.y_mm == lowest_mm)
            on_the_line.insert(dot.x_mm);
        else
            next_mm = std::max(next_mm, dot.y_mm);
    }
    EXPECT_EQ(on_the_line.size(), exact_sizes.size());
    EXPECT_GT(lowest_mm - next_mm, 5.0);
    EXPECT_NEAR(words_with(found, "exact").y_mm, lowest_mm, 2.0);
}

TEST(SearchScatter, FillsTheUnbeatenAndNamesTheNearestOfEachSize) {
    const SearchReport report = simple_report();
    const Seen found = seen(report);
    const std::vector<bool> marks = unbeaten(report.result.rows);
    const auto open = std::ranges::count_if(found.dots, [](const Dot& dot) { return dot.radius_mm > 0.7; });
    EXPECT_EQ(open, std::ranges::count(marks, false));
    EXPECT_GT(open, 0);
    // The nearest is named, 4 to 1 by the smallest set: 18 + 54 = 72 teeth go into 3 copies.
    EXPECT_EQ(report.result.rows.front().teeth, (std::vector{18, 18, 54}));
    EXPECT_EQ(words_with(found, "18, 18, 54 x 3").text, "18, 18, 54 x 3");
}

TEST(SearchScatter, KeepsAllItsWordsOnTheSheet) {
    expect_on_the_sheet(seen(simple_report()));
    for (const SearchWish& wish : small_wishes()) expect_on_the_sheet(seen(report_of(wish)));
    // The longest ratio that is shown in full: 40 characters.
    SearchWish longest =
        small_wish(Arrangement::pairs, *parse_ratio("3.14159265358979323846264338327950288419"), {18, 24});
    longest.pairs = 4;
    longest.most_nearest = 20;
    for (const std::string& name : count_names(longest)) longest.teeth[name] = {101, 106};
    longest.target = *parse_ratio("1.00059265358979323846264338327950288419");
    const SearchReport report = report_of(longest);
    ASSERT_FALSE(report.result.rows.empty());
    expect_on_the_sheet(seen(report));
}

TEST(SearchScatter, StandsWithoutARow) {
    const Seen found = seen(report_of(one_train_wish(3)));
    EXPECT_TRUE(found.dots.empty());
    expect_on_the_sheet(found);
    EXPECT_NE(words_with(found, "0 trains found").text, "");
}

TEST(SearchScatter, StandsWithOneRow) {
    const Seen exact = seen(report_of(one_train_wish(4)));
    EXPECT_FALSE(exact.dots.empty());
    expect_on_the_sheet(exact);
    SearchWish wish = one_train_wish(4);
    wish.target = Ratio(401, 100);
    wish.tolerance = Ratio(1, 100);
    const Seen inexact = seen(report_of(wish));
    EXPECT_FALSE(inexact.dots.empty());
    expect_on_the_sheet(inexact);
    EXPECT_LT(inexact.dots.front().y_mm, exact.dots.front().y_mm);
}

TEST(SearchScatter, SaysThatTheSearchWasStopped) {
    SearchReport report = report_of(one_train_wish(4));
    report.result.extent = SearchExtent::partial;
    EXPECT_NE(words_with(seen(report), "the search was stopped before its end").text, "");
}

}  // namespace
}  // namespace couplet
