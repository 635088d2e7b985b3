// Table: rows under headings, as aligned text, Markdown or CSV.
//
// Text is UTF-8 throughout. What eyes read (text, Markdown) carries no control characters, whatever the cells hold.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace couplet {

enum class Align { left, right };

struct Column {
    std::string heading;
    std::string unit;  // empty: none
    Align align = Align::left;
};

// What one cell says: in full for programs, and what eyes get to read where that is shorter.
struct Cell {
    // NOLINTBEGIN(google-explicit-constructor): a text is a cell.
    Cell(std::string text) : full(text), shown(std::move(text)) {}
    Cell(const char* text) : Cell(std::string(text)) {}
    // NOLINTEND(google-explicit-constructor)
    Cell(std::string full_text, std::string shown_text) : full(std::move(full_text)), shown(std::move(shown_text)) {}

    std::string full;
    std::string shown;
};

// A row may be shorter than the columns: the rest is empty.
struct Table {
    std::string title;  // empty: none
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows;
};

// Headings, their units below, a rule, and the rows; columns two blanks apart, no blanks at the ends of lines.
[[nodiscard]] std::string text_table(const Table& table);

// GitHub Flavored Markdown 0.29, section 4.10 (tables); units in parentheses behind the headings.
[[nodiscard]] std::string markdown_table(const Table& table);

// RFC 4180: one header line, CRLF, quotes where needed. No title: a program reads it.
[[nodiscard]] std::string csv_table(const Table& table);

// Text that Markdown shows as it stands, on one line.
[[nodiscard]] std::string markdown_escaped(std::string_view text);

// Text that XML and HTML show as it stands, on one line, also as the value of an attribute.
[[nodiscard]] std::string markup_escaped(std::string_view text);

// The same text with every control character, line breaks included, as a blank: nothing in a name reaches a terminal
// as a command.
[[nodiscard]] std::string on_one_line(std::string_view text);

// Columns that a fixed-width font gives the text: 0 for combining marks, 2 for wide East Asian characters (Unicode
// Standard Annex 11, ranges from memory), 1 for all others. Malformed bytes count 1 each.
[[nodiscard]] std::size_t display_width(std::string_view text);

}  // namespace couplet
