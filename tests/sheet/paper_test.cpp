#include "sheet/paper.hpp"

#include <gtest/gtest.h>

#include <regex>

namespace couplet {
namespace {

// 1, 2 and 5 times powers of ten are preferred (ISO 5455, from memory); a ruler has 2.5 and 4 as well.
TEST(Scale, IsThePreferredOneThatFits) {
    EXPECT_DOUBLE_EQ(scale_into(100, 112), 1.0);
    EXPECT_DOUBLE_EQ(scale_into(52, 112), 2.0);
    EXPECT_DOUBLE_EQ(scale_into(173, 112), 0.5);
    EXPECT_DOUBLE_EQ(scale_into(1000, 112), 0.1);
    EXPECT_DOUBLE_EQ(scale_into(308, 124), 0.4);
    EXPECT_DOUBLE_EQ(scale_into(-3, 124), 1.0);
    EXPECT_EQ(scale_text(0.4), "1:2.5");
    EXPECT_EQ(scale_text(2.0), "2:1");
    EXPECT_EQ(scale_text(1.0), "1:1");
    EXPECT_EQ(scale_text(0.2), "1:5");
}

TEST(Paper, IsMeasuredInMillimetresOfA4) {
    const std::string svg = Paper().document(2);
    EXPECT_NE(svg.find("width=\"210mm\" height=\"594mm\" viewBox=\"0 0 210 594\""), std::string::npos) << svg;
}

TEST(Paper, EscapesWhatMarkupWouldRead) {
    Paper paper;
    paper.text({0, 0}, "a<b & \"c\">\x1b");
    EXPECT_NE(paper.document(1).find(">a&lt;b &amp; &quot;c&quot;&gt; </text>"), std::string::npos);
}

std::vector<double> heights_of_texts(const std::string& svg) {
    std::vector<double> heights;
    const std::regex text("<text x=\"[^\"]*\" y=\"([^\"]*)\"");
    for (std::sregex_iterator match(svg.begin(), svg.end(), text), end; match != end; ++match)
        heights.push_back(std::stod((*match)[1]));
    return heights;
}

TEST(Callouts, NeverLieOverEachOther) {
    Paper paper;
    std::vector<Callout> callouts(6, {{50, 40}, "same place", ""});
    callouts.push_back({{50, 10}, "above", ""});
    paper.callouts(callouts, {100, 10, 60, 5});
    const std::vector<double> heights = heights_of_texts(paper.document(1));
    ASSERT_EQ(heights.size(), 7U);
    for (std::size_t i = 1; i < heights.size(); ++i) EXPECT_GE(heights[i] - heights[i - 1], 5.0 - 1e-9);
    EXPECT_GE(heights.front(), 10.0);
    EXPECT_LE(heights.back(), 60.0);
}

TEST(Callouts, CountWhatFindsNoRoom) {
    Paper paper;
    paper.callouts(std::vector<Callout>(20, {{50, 40}, "gear", ""}), {100, 10, 60, 5});
    const std::string svg = paper.document(1);
    EXPECT_EQ(heights_of_texts(svg).size(), 10U);
    EXPECT_NE(svg.find(">and 11 more</text>"), std::string::npos);
}

}  // namespace
}  // namespace couplet
