// Page: a sheet for eyes as a list of blocks, rendered as text or as Markdown.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "sheet/table.hpp"

namespace couplet {

struct Heading {
    std::string text;
};

// A line break in it is a blank like any other; an empty line begins a new paragraph.
struct Paragraph {
    std::string text;
};

struct Bullets {
    std::vector<std::string> items;
};

// Labels with what stands beside them.
struct Facts {
    struct Fact {
        std::string label;
        std::string text;
        // A formula: never wrapped, so that it can be copied whole.
        bool verbatim = false;
    };
    // Empty: none.
    std::string title;
    std::vector<Fact> facts;
};

// A picture: SVG text or the bytes of a PNG. Text has what it says in words; Markdown refers to a file of that name,
// which whoever writes the page writes beside it.
struct Figure {
    std::string file;   // "speed_plan_1.svg"
    std::string words;  // what there is to see
    std::string bytes;
};

using Block = std::variant<Heading, Paragraph, Bullets, Facts, Table, Figure>;

struct Page {
    std::string title;
    std::vector<Block> blocks;
};

// Paragraphs, bullets and facts are wrapped at kTextWidth columns; tables are as wide as they need to be.
inline constexpr std::size_t kTextWidth = 96;
[[nodiscard]] std::string text_page(const Page& page);

// `figures`: the folder of the figures as the page refers to it.
[[nodiscard]] std::string markdown_page(const Page& page, const std::string& figures = "");

}  // namespace couplet
