// Layout: which lines of a scene file belong to which of its tables.
//
// A block is the lines that one [header] or [[header]] opens: the comment lines directly above it, the header, and the
// lines to the end of its last value. Empty lines and comments below that belong to no block.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scene/source_text.hpp"

namespace couplet {

class Layout {
  public:
    explicit Layout(std::string_view text) : source_(text) {}

    [[nodiscard]] SourceText& source() { return source_; }

    // True where the table has a header of its own; not for a table in braces or one made by dotted keys.
    [[nodiscard]] bool has_header(const toml::node& table);
    // The block of a table with a header.
    [[nodiscard]] TextSpan block_of(const toml::table& table);
    // That block and those of the headers that stand under it, such as a member's gears.
    [[nodiscard]] std::vector<TextSpan> blocks_under(const toml::table& table);
    // Where a line is added to a table with a header, or to the whole file: after the last value of its own.
    [[nodiscard]] std::size_t end_of_own_values(const toml::table& table);
    // What stands before the table's first key in its line.
    [[nodiscard]] std::string indentation_in(const toml::table& table);
    // The lines of a key and its value.
    [[nodiscard]] TextSpan lines_of(const toml::key& key, const toml::node& value);
    // True where an empty line stands directly before, or nothing does.
    [[nodiscard]] bool is_spaced(std::size_t line_begin) const;
    // Past the empty lines that stand there.
    [[nodiscard]] std::size_t after_empty_lines(std::size_t line_begin) const;

  private:
    [[nodiscard]] std::size_t end_of_values(const toml::table& table, std::size_t end);
    [[nodiscard]] std::size_t with_comments_above(std::size_t line_begin) const;

    SourceText source_;
};

}  // namespace couplet
