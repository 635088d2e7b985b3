#include "sheet/table.hpp"

#include <algorithm>
#include <array>

namespace couplet {

namespace {

struct CodePointRange {
    char32_t first;
    char32_t last;
};

constexpr std::array kCombining = {
    CodePointRange{0x0300, 0x036F}, CodePointRange{0x0483, 0x0489}, CodePointRange{0x0591, 0x05BD},
    CodePointRange{0x0610, 0x061A}, CodePointRange{0x064B, 0x065F}, CodePointRange{0x1AB0, 0x1AFF},
    CodePointRange{0x1DC0, 0x1DFF}, CodePointRange{0x200B, 0x200F}, CodePointRange{0x20D0, 0x20FF},
    CodePointRange{0xFE00, 0xFE0F}, CodePointRange{0xFE20, 0xFE2F}};

constexpr std::array kWide = {
    CodePointRange{0x1100, 0x115F},   CodePointRange{0x2E80, 0x303E},  CodePointRange{0x3041, 0x33FF},
    CodePointRange{0x3400, 0x4DBF},   CodePointRange{0x4E00, 0x9FFF},  CodePointRange{0xA000, 0xA4CF},
    CodePointRange{0xAC00, 0xD7A3},   CodePointRange{0xF900, 0xFAFF},  CodePointRange{0xFE30, 0xFE6F},
    CodePointRange{0xFF00, 0xFF60},   CodePointRange{0xFFE0, 0xFFE6},  CodePointRange{0x1F300, 0x1F64F},
    CodePointRange{0x1F900, 0x1F9FF}, CodePointRange{0x20000, 0x3FFFD}};

template <std::size_t N>
bool is_in(const std::array<CodePointRange, N>& ranges, char32_t point) {
    return std::ranges::any_of(ranges, [point](CodePointRange r) { return point >= r.first && point <= r.last; });
}

std::size_t columns_of(char32_t point) {
    if (point < kCombining.front().first) return 1;
    if (is_in(kCombining, point)) return 0;
    return is_in(kWide, point) ? 2 : 1;
}

// Bytes of the UTF-8 sequence at the front of the text; 1 where it is malformed.
std::size_t sequence_length(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 1;
    if (length > text.size()) return 1;
    const auto continues = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; };
    return std::ranges::all_of(text.substr(1, length - 1), continues) ? length : 1;
}

char32_t decoded(std::string_view sequence) {
    const auto lead = static_cast<unsigned char>(sequence.front());
    if (sequence.size() == 1) return lead;
    char32_t point = lead & (0x7FU >> sequence.size());
    for (const char c : sequence.substr(1)) point = (point << 6U) | (static_cast<unsigned char>(c) & 0x3FU);
    return point;
}

template <class Visit>
void for_each_code_point(std::string_view text, Visit visit) {
    while (!text.empty()) {
        const std::string_view sequence = text.substr(0, sequence_length(text));
        visit(sequence, decoded(sequence));
        text.remove_prefix(sequence.size());
    }
}

bool is_control(char32_t point) {
    return point < 0x20 || (point >= 0x7F && point < 0xA0);
}

std::string padded(const std::string& text, std::size_t width, Align align) {
    const std::string blanks(width - display_width(text), ' ');
    return align == Align::left ? text + blanks : blanks + text;
}

// The lines of a table for eyes: headings, units, then rows, each with as many cells as there are columns.
using Lines = std::vector<std::vector<std::string>>;

std::vector<std::size_t> column_widths(const Lines& lines, std::size_t columns) {
    std::vector<std::size_t> widths(columns, 0);
    for (const auto& line : lines)
        for (std::size_t i = 0; i < columns; ++i) widths[i] = std::max(widths[i], display_width(line[i]));
    return widths;
}

std::string aligned_line(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                         const std::vector<Column>& columns) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i)
        line += (i > 0 ? "  " : "") + padded(cells[i], widths[i], columns[i].align);
    line.erase(line.find_last_not_of(' ') + 1);
    return line + '\n';
}

std::vector<std::string> shown_cells(const std::vector<Cell>& row, std::size_t columns) {
    std::vector<std::string> cells;
    cells.reserve(columns);
    for (const Cell& cell : row) cells.push_back(on_one_line(cell.shown));
    cells.resize(columns);
    return cells;
}

std::string heading_with_unit(const Column& column) {
    return column.unit.empty() ? column.heading : column.heading + " (" + column.unit + ")";
}

std::string csv_field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

template <class Row, class Text>
std::string csv_record(const Row& row, std::size_t columns, Text text_of) {
    std::string record;
    for (std::size_t i = 0; i < columns; ++i) {
        if (i > 0) record += ',';
        if (i < row.size()) record += csv_field(text_of(row[i]));
    }
    return record + "\r\n";
}

}  // namespace

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    for_each_code_point(text, [&](std::string_view, char32_t point) { width += columns_of(point); });
    return width;
}

std::string markup_escaped(std::string_view text) {
    std::string safe;
    for (const char c : on_one_line(text)) {
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"')
            safe += "&quot;";
        else
            safe += c;
    }
    return safe;
}

std::string on_one_line(std::string_view text) {
    std::string line;
    for_each_code_point(text, [&](std::string_view sequence, char32_t point) {
        if (is_control(point))
            line += ' ';
        else
            line += sequence;
    });
    return line;
}

std::string text_table(const Table& table) {
    const std::size_t columns = table.columns.size();
    Lines lines(2);
    std::vector<std::string> rule;
    for (const Column& column : table.columns) {
        lines[0].push_back(column.heading);
        lines[1].push_back(column.unit);
    }
    for (const auto& row : table.rows) lines.push_back(shown_cells(row, columns));
    const std::vector<std::size_t> widths = column_widths(lines, columns);
    rule.reserve(columns);
    for (const std::size_t width : widths) rule.emplace_back(width, '-');

    std::string text = table.title.empty() ? "" : on_one_line(table.title) + '\n';
    text += aligned_line(lines[0], widths, table.columns);
    const bool any_unit = std::ranges::any_of(table.columns, [](const Column& c) { return !c.unit.empty(); });
    if (any_unit) text += aligned_line(lines[1], widths, table.columns);
    text += aligned_line(rule, widths, table.columns);
    for (std::size_t i = 2; i < lines.size(); ++i) text += aligned_line(lines[i], widths, table.columns);
    return text;
}

std::string markdown_escaped(std::string_view text) {
    std::string escaped;
    for (const char c : on_one_line(text)) {
        if (std::string_view("\\`*_[]<|~&#").find(c) != std::string_view::npos) escaped += '\\';
        escaped += c;
    }
    return escaped;
}

std::string markdown_table(const Table& table) {
    std::string text = table.title.empty() ? "" : "**" + markdown_escaped(table.title) + "**\n\n";
    std::string rule = "|";
    text += '|';
    for (const Column& column : table.columns) {
        text += ' ' + markdown_escaped(heading_with_unit(column)) + " |";
        rule += column.align == Align::right ? " ---: |" : " --- |";
    }
    text += '\n' + rule + '\n';
    for (const auto& row : table.rows) {
        text += '|';
        for (const std::string& cell : shown_cells(row, table.columns.size()))
            text += ' ' + markdown_escaped(cell) + " |";
        text += '\n';
    }
    return text;
}

std::string csv_table(const Table& table) {
    const std::size_t columns = table.columns.size();
    std::string text = csv_record(table.columns, columns, heading_with_unit);
    for (const auto& row : table.rows) text += csv_record(row, columns, [](const Cell& cell) { return cell.full; });
    return text;
}

}  // namespace couplet
