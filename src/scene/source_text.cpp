#include "scene/source_text.hpp"

#include <algorithm>

namespace couplet {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool continues_code_point(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

}  // namespace

SourceText::SourceText(std::string_view text) : text_(text) {
    line_begins_.push_back(text.starts_with(kByteOrderMark) ? static_cast<std::uint32_t>(kByteOrderMark.size()) : 0);
    for (std::size_t at = text.find('\n'); at != std::string_view::npos; at = text.find('\n', at + 1))
        line_begins_.push_back(static_cast<std::uint32_t>(at + 1));
}

std::size_t SourceText::offset_of(const toml::source_position& place) {
    const std::size_t line = std::min<std::size_t>(place.line, line_begins_.size());
    if (line == 0) return 0;
    if (line != last_line_) {
        last_line_ = line;
        last_column_ = 1;
        last_offset_ = line_begins_[line - 1];
    }
    for (; last_column_ > place.column && last_column_ > 1; --last_column_) step_back();
    for (; last_column_ < place.column && last_offset_ < text_.size(); ++last_column_) step_on();
    return last_offset_;
}

void SourceText::step_on() {
    ++last_offset_;
    while (last_offset_ < text_.size() && continues_code_point(text_[last_offset_])) ++last_offset_;
}

void SourceText::step_back() {
    --last_offset_;
    while (last_offset_ > 0 && continues_code_point(text_[last_offset_])) --last_offset_;
}

TextSpan SourceText::span_of(const toml::source_region& region) {
    const std::size_t begin = offset_of(region.begin);
    return {begin, std::max(begin, offset_of(region.end))};
}

std::string_view SourceText::written(const toml::node& node) {
    const TextSpan span = span_of(node.source());
    return text_.substr(span.begin, span.end - span.begin);
}

std::size_t SourceText::line_begin(std::size_t offset) const {
    const auto after = std::ranges::upper_bound(line_begins_, offset);
    return after == line_begins_.begin() ? 0 : *(after - 1);
}

std::size_t SourceText::line_end(std::size_t offset) const {
    const auto after = std::ranges::upper_bound(line_begins_, offset);
    return after == line_begins_.end() ? text_.size() : *after;
}

}  // namespace couplet
