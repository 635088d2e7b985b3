// Text: the letters of the project's one font as an alpha image and boxes, for labels and captions.
//
// The font is B612 (packaged by Debian as fonts-b612), embedded when the program is built; its figures are all equally
// wide. UTF-8 in; a character that the font lacks becomes a question mark. Sizes in pixels.
#pragma once

#include <cstdint>
#include <glm/vec2.hpp>
#include <span>
#include <string_view>
#include <vector>

namespace couplet {

// The font file's bytes (OpenType), for the window's own text.
[[nodiscard]] std::span<const std::byte> font_file();
[[nodiscard]] std::span<const std::byte> bold_font_file();

// One size of the font, rasterised.
struct LetterSheet {
    int height_px = 0;  // of a line
    float baseline_px = 0.0F;
    glm::ivec2 size_px{0};
    std::vector<std::uint8_t> alpha;  // rows from the top
    struct Letter {
        char32_t code;
        glm::vec2 sheet_from_px;  // box in the sheet
        glm::vec2 sheet_to_px;
        glm::vec2 offset_px;  // of the box from the pen at the line's top
        float advance_px;
    };
    std::vector<Letter> letters;  // by code, rising
};
[[nodiscard]] LetterSheet letter_sheet(int height_px);

struct LetterBox {
    glm::vec2 from_px;
    glm::vec2 to_px;
    glm::vec2 sheet_from_px;
    glm::vec2 sheet_to_px;
};
// The boxes of one line of text whose top left corner is at (0, 0).
[[nodiscard]] std::vector<LetterBox> letter_boxes(const LetterSheet& sheet, std::string_view text);
[[nodiscard]] float width_px(const LetterSheet& sheet, std::string_view text);

}  // namespace couplet
