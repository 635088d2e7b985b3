#include "sheet/page.hpp"

#include <algorithm>

namespace couplet {

namespace {

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> parts;
    while (true) {
        const std::size_t end = text.find(separator);
        parts.emplace_back(text.substr(0, end));
        if (end == std::string_view::npos) return parts;
        text.remove_prefix(end + 1);
    }
}

std::vector<std::string> paragraphs_of(const std::string& text) {
    std::vector<std::string> paragraphs;
    bool begins = true;
    for (const std::string& line : split(text, '\n')) {
        const bool empty = line.find_first_not_of(" \t\r") == std::string::npos;
        if (!empty && begins)
            paragraphs.push_back(line);
        else if (!empty)
            paragraphs.back() += ' ' + line;
        begins = empty;
    }
    return paragraphs;
}

// The words of one paragraph on lines of at most kTextWidth columns, all but the first indented.
std::string wrapped(const std::string& lead, std::string_view text, std::size_t indent) {
    std::string lines;
    std::string line = lead;
    std::size_t width = display_width(lead);
    bool line_is_empty = true;
    for (const std::string& word : split(on_one_line(text), ' ')) {
        if (word.empty()) continue;
        const std::size_t word_width = display_width(word);
        if (!line_is_empty && width + 1 + word_width > kTextWidth) {
            lines += line + '\n';
            line.assign(indent, ' ');
            width = indent;
            line_is_empty = true;
        }
        line += (line_is_empty ? "" : " ") + word;
        width += (line_is_empty ? 0 : 1) + word_width;
        line_is_empty = false;
    }
    return lines + line + '\n';
}

std::string underlined(const std::string& text, char rule) {
    return on_one_line(text) + '\n' + std::string(display_width(on_one_line(text)), rule) + '\n';
}

struct AsText {
    std::string operator()(const Heading& heading) const { return underlined(heading.text, '-'); }

    std::string operator()(const Paragraph& paragraph) const {
        std::string text;
        for (const std::string& words : paragraphs_of(paragraph.text))
            text += (text.empty() ? "" : "\n") + wrapped("", words, 0);
        return text;
    }

    std::string operator()(const Bullets& bullets) const {
        std::string text;
        for (const std::string& item : bullets.items) text += wrapped("* ", item, 2);
        return text;
    }

    std::string operator()(const Facts& facts) const {
        const std::size_t margin = facts.title.empty() ? 0 : 2;
        std::size_t width = 0;
        for (const auto& fact : facts.facts) width = std::max(width, display_width(on_one_line(fact.label)));
        std::string text = facts.title.empty() ? "" : on_one_line(facts.title) + '\n';
        for (const auto& fact : facts.facts) {
            std::string lead = std::string(margin, ' ') + on_one_line(fact.label);
            lead.append(margin + width + 2 - display_width(lead), ' ');
            text += fact.verbatim ? lead + on_one_line(fact.text) + '\n' : wrapped(lead, fact.text, margin + width + 2);
        }
        return text;
    }

    std::string operator()(const Table& table) const { return text_table(table); }

    std::string operator()(const Figure& figure) const { return wrapped("", figure.words, 0); }
};

// A code span; its fence is longer than any run of backticks inside (CommonMark 0.30, section 6.1).
std::string code_span(const std::string& text) {
    std::size_t longest = 0;
    std::size_t run = 0;
    for (const char c : text) longest = std::max(longest, run = c == '`' ? run + 1 : 0);
    const std::string fence(longest + 1, '`');
    const std::string pad = longest > 0 ? " " : "";
    return fence + pad + on_one_line(text) + pad + fence;
}

struct AsMarkdown {
    std::string operator()(const Heading& heading) const { return "## " + markdown_escaped(heading.text) + '\n'; }

    std::string operator()(const Paragraph& paragraph) const {
        std::string text;
        for (const std::string& words : paragraphs_of(paragraph.text))
            text += (text.empty() ? "" : "\n") + markdown_escaped(words) + '\n';
        return text;
    }

    std::string operator()(const Bullets& bullets) const {
        std::string text;
        for (const std::string& item : bullets.items) text += "- " + markdown_escaped(item) + '\n';
        return text;
    }

    std::string operator()(const Facts& facts) const {
        std::string text = facts.title.empty() ? "" : "**" + markdown_escaped(facts.title) + "**\n\n";
        for (const auto& fact : facts.facts)
            text += "- " + markdown_escaped(fact.label) + ": " +
                    (fact.verbatim ? code_span(fact.text) : markdown_escaped(fact.text)) + '\n';
        return text;
    }

    std::string operator()(const Table& table) const { return markdown_table(table); }

    // CommonMark 0.30, section 6.4: a destination in angle brackets may have blanks.
    std::string operator()(const Figure& figure) const {
        const std::string path = figures.empty() ? figure.file : figures + '/' + figure.file;
        return "![" + markdown_escaped(figure.words) + "](<" + path + ">)\n";
    }

    const std::string& figures;
};

template <class Render>
std::string rendered(std::string title, const Page& page, Render render) {
    for (const Block& block : page.blocks) title += '\n' + std::visit(render, block);
    return title;
}

}  // namespace

std::string text_page(const Page& page) {
    return rendered(underlined(page.title, '='), page, AsText{});
}

std::string markdown_page(const Page& page, const std::string& figures) {
    return rendered("# " + markdown_escaped(page.title) + '\n', page, AsMarkdown{figures});
}

}  // namespace couplet
