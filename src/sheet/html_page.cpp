#include "sheet/html_page.hpp"

#include <cstdint>
#include <string_view>

namespace couplet {

namespace {

constexpr std::string_view kStyle = R"(
@page { size: auto; margin: 14mm 13mm }
* { box-sizing: border-box }
body { font: 10pt/1.4 "B612", "Helvetica Neue", Arial, sans-serif; color: #1d2733; background: #fff;
       max-width: 184mm; margin: 8mm auto; padding: 0 2mm }
h1 { font-size: 20pt; line-height: 1.15; margin: 0 0 3mm }
h2 { font-size: 12.5pt; margin: 8mm 0 2mm; padding-bottom: 1mm; border-bottom: 0.4mm solid #7d5a12; break-after: avoid }
h3 { font-size: 10.5pt; margin: 4mm 0 1mm; break-after: avoid }
p, ul, dl { margin: 2mm 0 }
ul { padding-left: 5mm }
li { break-inside: avoid; margin: 1mm 0 }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.6mm 4mm; break-inside: avoid }
dt { color: #5b6570 }
dd { margin: 0; overflow-wrap: anywhere }
table { border-collapse: collapse; margin: 2mm 0 3mm; max-width: 100%; font-size: 8.6pt; line-height: 1.25 }
thead { display: table-header-group }
tr { break-inside: avoid }
th { text-align: left; vertical-align: bottom; font-weight: 600; border-bottom: 0.3mm solid #1d2733; padding: 0.8mm 2.4mm 0.8mm 0 }
th small { display: block; font-weight: 400; color: #5b6570; font-size: 7.4pt }
td { vertical-align: top; border-bottom: 0.15mm solid #c9cdd2; padding: 0.7mm 2.4mm 0.7mm 0; overflow-wrap: anywhere }
th.n, td.n { text-align: right; font-variant-numeric: tabular-nums }
td.n { white-space: nowrap }
table.whole { break-inside: avoid }
h2 + p { break-after: avoid }
table.wide { font-size: 7.2pt }
table.wide td.n { white-space: normal }
code { font-family: "B612 Mono", "DejaVu Sans Mono", monospace; font-size: 0.92em; overflow-wrap: anywhere }
figure { margin: 3mm 0; break-inside: avoid }
figure img { max-width: 100%; max-height: 150mm; display: block }
figcaption { font-size: 8.6pt; color: #5b6570; margin-top: 1mm }
@media print { body { max-width: none; margin: 0; padding: 0 } }
)";

std::string element(std::string_view name, std::string_view text) {
    return '<' + std::string(name) + '>' + markup_escaped(text) + "</" + std::string(name) + ">\n";
}

struct AsHtml {
    std::string operator()(const Heading& heading) const { return element("h2", heading.text); }

    // Empty lines begin paragraphs, as everywhere.
    std::string operator()(const Paragraph& paragraph) const {
        std::string html;
        std::string_view left = paragraph.text;
        while (!left.empty()) {
            const std::size_t end = left.find("\n\n");
            const std::string_view one = left.substr(0, end);
            if (one.find_first_not_of(" \t\r\n") != std::string_view::npos) html += element("p", one);
            if (end == std::string_view::npos) break;
            left.remove_prefix(end + 2);
        }
        return html;
    }

    std::string operator()(const Bullets& bullets) const {
        std::string html = "<ul>\n";
        for (const std::string& item : bullets.items) html += element("li", item);
        return html + "</ul>\n";
    }

    std::string operator()(const Facts& facts) const {
        std::string html = facts.title.empty() ? "" : element("h3", facts.title);
        html += "<dl>\n";
        for (const auto& fact : facts.facts) {
            html += "<dt>" + markup_escaped(fact.label) + "</dt>";
            html += fact.verbatim ? "<dd><code>" + markup_escaped(fact.text) + "</code></dd>\n"
                                  : "<dd>" + markup_escaped(fact.text) + "</dd>\n";
        }
        return html + "</dl>\n";
    }

    std::string operator()(const Table& table) const {
        constexpr std::size_t kManyColumns = 8;
        constexpr std::size_t kMostRowsOfAPage = 25;
        std::string html = table.title.empty() ? "" : element("h3", table.title);
        html += "<table class=\"";
        if (table.columns.size() > kManyColumns) html += "wide ";
        if (table.rows.size() <= kMostRowsOfAPage) html += "whole";
        html += "\">\n<thead><tr>";
        for (const Column& column : table.columns) {
            html += cell_start("th", column) + markup_escaped(column.heading);
            if (!column.unit.empty()) html += "<small>" + markup_escaped(column.unit) + "</small>";
            html += "</th>";
        }
        html += "</tr></thead>\n<tbody>\n";
        for (const std::vector<Cell>& row : table.rows) {
            html += "<tr>";
            for (std::size_t column = 0; column < table.columns.size(); ++column)
                html += cell_start("td", table.columns[column]) +
                        (column < row.size() ? markup_escaped(row[column].shown) : "") + "</td>";
            html += "</tr>\n";
        }
        return html + "</tbody>\n</table>\n";
    }

    std::string operator()(const Figure& figure) const {
        const bool is_svg = figure.file.ends_with(".svg");
        return "<figure><img alt=\"" + markup_escaped(figure.words) + "\" src=\"data:image/" +
               (is_svg ? "svg+xml" : "png") + ";base64," + base64(figure.bytes) + "\">" + "<figcaption>" +
               markup_escaped(figure.words) + "</figcaption></figure>\n";
    }

    static std::string cell_start(std::string_view name, const Column& column) {
        return '<' + std::string(name) + (column.align == Align::right ? " class=\"n\">" : ">");
    }
};

}  // namespace

std::string base64(std::string_view bytes) {
    constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const std::size_t count = std::min<std::size_t>(3, bytes.size() - at);
        std::uint32_t group = 0;
        for (std::size_t byte = 0; byte < 3; ++byte)
            group = group << 8U | (byte < count ? static_cast<unsigned char>(bytes[at + byte]) : 0U);
        for (std::size_t letter = 0; letter < 4; ++letter)
            text += letter <= count ? kLetters[group >> (18 - 6 * letter) & 63U] : '=';
    }
    return text;
}

std::string html_page(const Page& page) {
    std::string html = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    html += element("title", page.title) + "<style>" + std::string(kStyle) + "</style>\n</head>\n<body>\n";
    html += element("h1", page.title);
    for (const Block& block : page.blocks) html += std::visit(AsHtml{}, block);
    return html + "</body>\n</html>\n";
}

}  // namespace couplet
