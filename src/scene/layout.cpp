#include "scene/layout.hpp"

#include <algorithm>

namespace couplet {

namespace {

std::string_view trimmed(std::string_view line) {
    const std::size_t begin = line.find_first_not_of(" \t\r\n");
    if (begin == std::string_view::npos) return {};
    return line.substr(begin, line.find_last_not_of(" \t\r\n") - begin + 1);
}

// The tables of a list whose entries have headers, the table itself, or nothing.
template <class Use>
void for_each_header(Layout& layout, const toml::node& node, Use use) {
    if (layout.has_header(node)) return use(*node.as_table());
    if (const toml::array* list = node.as_array())
        for (const toml::node& item : *list)
            if (layout.has_header(item)) use(*item.as_table());
}

}  // namespace

bool Layout::has_header(const toml::node& node) {
    if (!node.is_table()) return false;
    const std::size_t begin = source_.offset_of(node.source().begin);
    return begin < source_.text().size() && source_.text()[begin] == '[';
}

std::size_t Layout::end_of_values(const toml::table& table, std::size_t end) {
    for (const auto& [key, node] : table) {
        const toml::table* nested = node.as_table();
        const toml::array* list = node.as_array();
        if (has_header(node) || (list != nullptr && !list->empty() && has_header((*list)[0]))) continue;
        if (nested != nullptr && !nested->is_inline())
            end = end_of_values(*nested, end);
        else
            end = std::max(end, source_.span_of(node.source()).end);
    }
    return end;
}

std::size_t Layout::end_of_own_values(const toml::table& table) {
    const std::size_t begin = source_.offset_of(table.source().begin);
    return source_.line_end(end_of_values(table, begin));
}

std::size_t Layout::with_comments_above(std::size_t line_begin) const {
    while (line_begin > 0) {
        const std::size_t above = source_.line_begin(line_begin - 1);
        if (!trimmed(source_.text().substr(above, line_begin - above)).starts_with('#')) break;
        line_begin = above;
    }
    return line_begin;
}

TextSpan Layout::block_of(const toml::table& table) {
    const std::size_t header = source_.line_begin(source_.offset_of(table.source().begin));
    return {with_comments_above(header), end_of_own_values(table)};
}

std::vector<TextSpan> Layout::blocks_under(const toml::table& table) {
    std::vector<TextSpan> blocks{block_of(table)};
    for (const auto& [key, node] : table)
        for_each_header(*this, node, [&](const toml::table& under) {
            const std::vector<TextSpan> more = blocks_under(under);
            blocks.insert(blocks.end(), more.begin(), more.end());
        });
    return blocks;
}

std::string Layout::indentation_in(const toml::table& table) {
    const toml::key* first = nullptr;
    for (const auto& [key, node] : table)
        if (first == nullptr || key.source().begin < first->source().begin) first = &key;
    if (first == nullptr) return "";
    const std::size_t key_begin = source_.offset_of(first->source().begin);
    const std::size_t line = source_.line_begin(key_begin);
    const std::string before(source_.text().substr(line, key_begin - line));
    return trimmed(before).empty() ? before : "";
}

TextSpan Layout::lines_of(const toml::key& key, const toml::node& value) {
    return {source_.line_begin(source_.offset_of(key.source().begin)),
            source_.line_end(source_.span_of(value.source()).end)};
}

bool Layout::is_spaced(std::size_t line_begin) const {
    if (line_begin == 0) return true;
    const std::size_t above = source_.line_begin(line_begin - 1);
    return trimmed(source_.text().substr(above, line_begin - above)).empty();
}

std::size_t Layout::after_empty_lines(std::size_t line_begin) const {
    while (line_begin < source_.text().size()) {
        const std::size_t end = source_.line_end(line_begin);
        if (!trimmed(source_.text().substr(line_begin, end - line_begin)).empty()) break;
        line_begin = end;
    }
    return line_begin;
}

}  // namespace couplet
