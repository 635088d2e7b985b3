#include "sheet/page.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace couplet {
namespace {

Page small_page() {
    Page page;
    page.title = "Capstan";
    Table table;
    table.columns = {{"wheel", "", Align::left}};
    table.rows = {{"drum"}};
    page.blocks = {Heading{"Part"}, Paragraph{"One\nline.\n\nTwo."}, Bullets{{"first", "second"}},
                   Facts{"pair", {{"formula", "2 * 3", true}, {"why", "it is so", false}}}, table};
    return page;
}

TEST(TextPage, SetsBlocksApart) {
    EXPECT_EQ(text_page(small_page()),
              "Capstan\n"
              "=======\n"
              "\n"
              "Part\n"
              "----\n"
              "\n"
              "One line.\n"
              "\n"
              "Two.\n"
              "\n"
              "* first\n"
              "* second\n"
              "\n"
              "pair\n"
              "  formula  2 * 3\n"
              "  why      it is so\n"
              "\n"
              "wheel\n"
              "-----\n"
              "drum\n");
}

TEST(MarkdownPage, UsesHeadingsListsCodeAndTables) {
    EXPECT_EQ(markdown_page(small_page()),
              "# Capstan\n"
              "\n"
              "## Part\n"
              "\n"
              "One line.\n"
              "\n"
              "Two.\n"
              "\n"
              "- first\n"
              "- second\n"
              "\n"
              "**pair**\n"
              "\n"
              "- formula: `2 * 3`\n"
              "- why: it is so\n"
              "\n"
              "| wheel |\n"
              "| --- |\n"
              "| drum |\n");
}

std::string many_words() {
    std::string words;
    for (int i = 0; i < 60; ++i) words += "word" + std::to_string(i) + ' ';
    return words;
}

std::size_t longest_line(const std::string& text) {
    std::istringstream lines(text);
    std::size_t longest = 0;
    for (std::string line; std::getline(lines, line);) longest = std::max(longest, line.size());
    return longest;
}

TEST(TextPage, WrapsWordsButNeverAFormula) {
    Page words;
    words.blocks = {Paragraph{many_words()}, Bullets{{many_words()}}, Facts{"", {{"label", many_words(), false}}}};
    EXPECT_LE(longest_line(text_page(words)), kTextWidth);
    EXPECT_GE(longest_line(text_page(words)), kTextWidth - 10);

    const std::string formula(3 * kTextWidth, '1');
    Page page;
    page.blocks = {Facts{"", {{"formula", formula, true}}}};
    EXPECT_NE(text_page(page).find("formula  " + formula + '\n'), std::string::npos);
}

TEST(TextPage, IndentsWrappedFactsUnderTheirText) {
    Page page;
    page.blocks = {Facts{"", {{"label", many_words(), false}}}};
    EXPECT_NE(text_page(page).find("\n       word"), std::string::npos);
}

TEST(MarkdownPage, FencesBackticksInFormulas) {
    Page page;
    page.blocks = {Facts{"", {{"f", "a`b", true}}}};
    EXPECT_NE(markdown_page(page).find("- f: `` a`b ``\n"), std::string::npos);
}

}  // namespace
}  // namespace couplet
