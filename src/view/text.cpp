#include "view/text.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>

// Static, so that no other library's copy of the same code meets this one.
#define STBTT_STATIC
#define STB_TRUETYPE_IMPLEMENTATION
#include <stb/stb_truetype.h>

namespace couplet {
namespace {

struct CodeRange {
    char32_t first;
    char32_t last;
};

// What names, numbers with their signs and units, and the signs of the trade may need.
constexpr CodeRange kWanted[] = {
    {0x20, 0x7E},      // Latin
    {0xA0, 0xFF},      // and its first supplement
    {0x100, 0x17F},    // Latin Extended-A
    {0x370, 0x3FF},    // Greek
    {0x2010, 0x205E},  // punctuation
    {0x2070, 0x209C},  // raised and lowered figures
    {0x20AC, 0x20AC},  // euro
    {0x2100, 0x214F},  // letterlike signs
    {0x2190, 0x22FF},  // arrows and mathematics
    {0x25A0, 0x25FF},  // geometric shapes
};
constexpr int kGap_px = 1;  // between letters in the sheet, so that none bleeds into another
constexpr char32_t kUnknown = U'?';

struct Font {
    stbtt_fontinfo info{};
    float scale = 1.0F;
    float ascent_px = 0.0F;
};

Font scaled_font(int height_px) {
    Font font;
    if (stbtt_InitFont(&font.info, reinterpret_cast<const unsigned char*>(font_file().data()), 0) == 0)
        throw std::runtime_error("the font that was built in is no font that can be read");
    font.scale = stbtt_ScaleForPixelHeight(&font.info, static_cast<float>(height_px));
    int ascent = 0;
    int descent = 0;
    int line_gap = 0;
    stbtt_GetFontVMetrics(&font.info, &ascent, &descent, &line_gap);
    font.ascent_px = static_cast<float>(ascent) * font.scale;
    return font;
}

struct Glyph {
    char32_t code;
    int index;  // in the font
    glm::ivec2 from;
    glm::ivec2 to;  // box against the pen on the baseline
    float advance_px;

    [[nodiscard]] glm::ivec2 size() const { return to - from; }
};

std::vector<Glyph> wanted_glyphs(const Font& font) {
    std::vector<Glyph> glyphs;
    for (const CodeRange& range : kWanted) {
        for (char32_t code = range.first; code <= range.last; ++code) {
            Glyph glyph{code, stbtt_FindGlyphIndex(&font.info, static_cast<int>(code)), {}, {}, 0.0F};
            if (glyph.index == 0) continue;
            int advance = 0;
            int bearing = 0;
            stbtt_GetGlyphHMetrics(&font.info, glyph.index, &advance, &bearing);
            glyph.advance_px = static_cast<float>(advance) * font.scale;
            stbtt_GetGlyphBitmapBox(&font.info, glyph.index, font.scale, font.scale, &glyph.from.x, &glyph.from.y,
                                    &glyph.to.x, &glyph.to.y);
            glyphs.push_back(glyph);
        }
    }
    return glyphs;
}

// Where each glyph's box stands in the sheet: in rows, in the order of the glyphs.
struct Packing {
    std::vector<glm::ivec2> places;
    glm::ivec2 size{0};
};

Packing packed(const std::vector<Glyph>& glyphs) {
    int area = 0;
    int widest = 0;
    for (const Glyph& glyph : glyphs) {
        area += (glyph.size().x + kGap_px) * (glyph.size().y + kGap_px);
        widest = std::max(widest, glyph.size().x);
    }
    Packing packing;
    // Letters of unequal height waste some of each row; rows of this width still give a sheet that is about square.
    packing.size.x = std::max(widest + 2 * kGap_px, static_cast<int>(1.15 * std::sqrt(area)));
    glm::ivec2 pen{kGap_px};
    int row_height = 0;
    for (const Glyph& glyph : glyphs) {
        if (pen.x + glyph.size().x + kGap_px > packing.size.x) {
            pen = {kGap_px, pen.y + row_height + kGap_px};
            row_height = 0;
        }
        packing.places.push_back(pen);
        pen.x += glyph.size().x + kGap_px;
        row_height = std::max(row_height, glyph.size().y);
    }
    packing.size.y = pen.y + row_height + kGap_px;
    return packing;
}

struct CodePoint {
    char32_t code;
    std::size_t bytes;
};

// The first character of a text that is not empty; a byte that begins no whole character is an unknown one by itself.
CodePoint first_code_point(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    if (lead < 0x80) return {lead, 1};
    const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || bytes > text.size()) return {kUnknown, 1};
    char32_t code = lead & (0x7FU >> bytes);
    for (const char c : text.substr(1, bytes - 1)) {
        const auto byte = static_cast<unsigned char>(c);
        if ((byte & 0xC0U) != 0x80U) return {kUnknown, 1};
        code = code << 6U | (byte & 0x3FU);
    }
    return {code, bytes};
}

const LetterSheet::Letter& letter(const LetterSheet& sheet, char32_t code) {
    const auto found = std::ranges::lower_bound(sheet.letters, code, {}, &LetterSheet::Letter::code);
    if (found != sheet.letters.end() && found->code == code) return *found;
    return *std::ranges::lower_bound(sheet.letters, kUnknown, {}, &LetterSheet::Letter::code);
}

// Visits each letter with the pen's place before it; the pen's last place is the text's width.
template <class Visit>
float for_each_letter(const LetterSheet& sheet, std::string_view text, Visit visit) {
    float pen_px = 0.0F;
    while (!text.empty()) {
        const CodePoint point = first_code_point(text);
        const LetterSheet::Letter& found = letter(sheet, point.code);
        visit(found, pen_px);
        pen_px += found.advance_px;
        text.remove_prefix(point.bytes);
    }
    return pen_px;
}

}  // namespace

LetterSheet letter_sheet(int height_px) {
    const Font font = scaled_font(height_px);
    const std::vector<Glyph> glyphs = wanted_glyphs(font);
    const Packing packing = packed(glyphs);

    LetterSheet sheet;
    sheet.height_px = height_px;
    sheet.baseline_px = std::round(font.ascent_px);  // letters stand on whole pixels
    sheet.size_px = packing.size;
    sheet.alpha.assign(static_cast<std::size_t>(packing.size.x) * static_cast<std::size_t>(packing.size.y), 0);
    for (std::size_t i = 0; i < glyphs.size(); ++i) {
        const Glyph& glyph = glyphs[i];
        const glm::ivec2 place = packing.places[i];
        const auto first = static_cast<std::size_t>(place.y) * static_cast<std::size_t>(packing.size.x) +
                           static_cast<std::size_t>(place.x);
        if (glyph.size().x > 0 && glyph.size().y > 0)
            stbtt_MakeGlyphBitmap(&font.info, &sheet.alpha[first], glyph.size().x, glyph.size().y, packing.size.x,
                                  font.scale, font.scale, glyph.index);
        const glm::vec2 offset{glm::vec2(glyph.from) + glm::vec2(0.0F, sheet.baseline_px)};
        sheet.letters.push_back({glyph.code, place, place + glyph.size(), offset, glyph.advance_px});
    }
    return sheet;
}

std::vector<LetterBox> letter_boxes(const LetterSheet& sheet, std::string_view text) {
    std::vector<LetterBox> boxes;
    for_each_letter(sheet, text, [&](const LetterSheet::Letter& found, float pen_px) {
        const glm::vec2 size = found.sheet_to_px - found.sheet_from_px;
        if (size.x <= 0 || size.y <= 0) return;
        // On whole pixels, as the sheet's pixels are: letters stay sharp.
        const glm::vec2 from = glm::vec2(std::round(pen_px), 0.0F) + found.offset_px;
        boxes.push_back({from, from + size, found.sheet_from_px, found.sheet_to_px});
    });
    return boxes;
}

float width_px(const LetterSheet& sheet, std::string_view text) {
    return for_each_letter(sheet, text, [](const LetterSheet::Letter&, float) {});
}

}  // namespace couplet
