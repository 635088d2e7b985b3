#include "sheet/table.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

Table wheels() {
    Table table;
    table.columns = {{"wheel", "", Align::left}, {"speed", "rpm", Align::right}};
    table.rows = {{"crank", "30"}, {"drum", "-7.5"}};
    return table;
}

TEST(TextTable, AlignsColumnsAndPutsUnitsBelowHeadings) {
    EXPECT_EQ(text_table(wheels()),
              "wheel  speed\n"
              "         rpm\n"
              "-----  -----\n"
              "crank     30\n"
              "drum    -7.5\n");
}

TEST(TextTable, LeavesOutTheLineOfUnitsWhereThereAreNone) {
    Table table = wheels();
    table.columns[1].unit.clear();
    table.title = "Speeds";
    EXPECT_EQ(text_table(table),
              "Speeds\n"
              "wheel  speed\n"
              "-----  -----\n"
              "crank     30\n"
              "drum    -7.5\n");
}

TEST(TextTable, CountsCharactersNotBytes) {
    Table table;
    table.columns = {{"Räder", "", Align::left}, {"n", "", Align::right}};
    table.rows = {{"Öse", "1"}, {"歯車", "2"}};
    EXPECT_EQ(text_table(table),
              "Räder  n\n"
              "-----  -\n"
              "Öse    1\n"
              "歯車   2\n");
}

TEST(TextTable, LetsNoControlCharacterThrough) {
    Table table = wheels();
    table.rows = {{"a\x1b[31m\nb", "1"}};
    const std::string text = text_table(table);
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
    EXPECT_NE(text.find("a [31m b"), std::string::npos);
}

TEST(TextTable, FillsShortRows) {
    Table table = wheels();
    table.rows = {{"crank"}};
    EXPECT_EQ(text_table(table),
              "wheel  speed\n"
              "         rpm\n"
              "-----  -----\n"
              "crank\n");
}

TEST(MarkdownTable, HasARuleWithTheAlignments) {
    EXPECT_EQ(markdown_table(wheels()),
              "| wheel | speed (rpm) |\n"
              "| --- | ---: |\n"
              "| crank | 30 |\n"
              "| drum | -7.5 |\n");
}

TEST(MarkdownTable, EscapesWhatMarkdownWouldRead) {
    Table table = wheels();
    table.rows = {{"a|b", "2*3"}};
    EXPECT_NE(markdown_table(table).find("| a\\|b | 2\\*3 |\n"), std::string::npos);
}

// RFC 4180, section 2, rules 1, 5, 6 and 7.
TEST(CsvTable, QuotesCommasQuotesAndLineBreaks) {
    Table table = wheels();
    table.rows = {{"a,b", "say \"so\""}, {"two\nlines", "plain"}};
    EXPECT_EQ(csv_table(table),
              "wheel,speed (rpm)\r\n"
              "\"a,b\",\"say \"\"so\"\"\"\r\n"
              "\"two\nlines\",plain\r\n");
}

TEST(CsvTable, GivesCellsInFullAndFillsShortRows) {
    Table table = wheels();
    table.rows = {{Cell("in full", "short")}};
    EXPECT_EQ(csv_table(table), "wheel,speed (rpm)\r\nin full,\r\n");
    EXPECT_EQ(text_table(table).find("in full"), std::string::npos);
}

TEST(DisplayWidth, GivesCombiningMarksNoneAndWideCharactersTwoColumns) {
    EXPECT_EQ(display_width("e\xCC\x81"), 1U);  // e with a combining acute accent, U+0301
    EXPECT_EQ(display_width("歯"), 2U);
    EXPECT_EQ(display_width("°"), 1U);
    EXPECT_EQ(display_width("\xFF\xC3"), 2U);  // malformed
    EXPECT_EQ(display_width("\xE6\xAD"), 2U);  // cut off
    EXPECT_EQ(display_width(""), 0U);
}

}  // namespace
}  // namespace couplet
