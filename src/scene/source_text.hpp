// SourceText: the text of a scene file and the way from a line and column to a place in it.
//
// Lines and columns count from 1; a column counts code points, as the TOML library does, and a byte order mark counts
// nothing. The text must be valid UTF-8 and outlive this.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "scene/text_span.hpp"
#include "scene/toml.hpp"

namespace couplet {

class SourceText {
  public:
    explicit SourceText(std::string_view text);

    [[nodiscard]] std::string_view text() const { return text_; }
    [[nodiscard]] int line_count() const { return static_cast<int>(line_begins_.size()); }

    // Takes as long as the way from the last place asked for on the same line.
    [[nodiscard]] std::size_t offset_of(const toml::source_position& place);
    [[nodiscard]] TextSpan span_of(const toml::source_region& region);
    [[nodiscard]] std::string_view written(const toml::node& node);

    // Of the line that holds the byte: where it begins, and where the next one does.
    [[nodiscard]] std::size_t line_begin(std::size_t offset) const;
    [[nodiscard]] std::size_t line_end(std::size_t offset) const;

  private:
    void step_on();
    void step_back();

    std::string_view text_;
    std::vector<std::uint32_t> line_begins_;
    // Where the last place asked for was.
    std::size_t last_line_ = 0;
    std::size_t last_column_ = 1;
    std::size_t last_offset_ = 0;
};

}  // namespace couplet
