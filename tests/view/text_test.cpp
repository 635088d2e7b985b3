#include "view/text.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <glm/common.hpp>
#include <iterator>
#include <string>
#include <string_view>

#include "support/dice.hpp"

namespace couplet {
namespace {

using Letter = LetterSheet::Letter;

const LetterSheet& sheet() {
    static const LetterSheet kSheet = letter_sheet(20);
    return kSheet;
}

const Letter* find(const LetterSheet& letters, char32_t code) {
    const auto found = std::ranges::find(letters.letters, code, &Letter::code);
    return found == letters.letters.end() ? nullptr : &*found;
}

bool is_empty(const Letter& letter) {
    return letter.sheet_from_px.x == letter.sheet_to_px.x || letter.sheet_from_px.y == letter.sheet_to_px.y;
}

std::size_t pixel(const LetterSheet& letters, int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(letters.size_px.x) + static_cast<std::size_t>(x);
}

int ink(const LetterSheet& letters, glm::vec2 from, glm::vec2 to) {
    int sum = 0;
    for (int y = static_cast<int>(from.y); y < static_cast<int>(to.y); ++y)
        for (int x = static_cast<int>(from.x); x < static_cast<int>(to.x); ++x)
            sum += letters.alpha.at(pixel(letters, x, y));
    return sum;
}

std::string file_bytes(const char* path) {
    std::ifstream stream(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

std::string_view text_of(std::span<const std::byte> bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

TEST(FontFile, IsTheInstalledOneByteForByte) {
    EXPECT_GT(font_file().size(), 10000U);
    EXPECT_EQ(text_of(font_file()), file_bytes(B612_REGULAR));
    EXPECT_EQ(text_of(bold_font_file()), file_bytes(B612_BOLD));
    EXPECT_NE(text_of(font_file()), text_of(bold_font_file()));
}

TEST(LetterSheet, HasTheLettersOfTheTrade) {
    for (char32_t code = U' '; code <= U'~'; ++code) EXPECT_NE(find(sheet(), code), nullptr) << int(code);
    for (char32_t code = 0xA0; code <= 0xFF; ++code) EXPECT_NE(find(sheet(), code), nullptr) << int(code);
    for (const char32_t code : std::u32string_view(U"αβωΩμπ−×·°±≤≥≈√∞←↑→↓↔↕↖↗↘↙–—…‘’“”€ŒœŠšŸ"))
        EXPECT_NE(find(sheet(), code), nullptr) << std::hex << int(code);
    EXPECT_EQ(find(sheet(), U'\n'), nullptr);
}

TEST(LetterSheet, IsSortedByCodeWithoutRepeats) {
    EXPECT_EQ(std::ranges::adjacent_find(sheet().letters, std::ranges::greater_equal{}, &Letter::code),
              sheet().letters.end());
}

TEST(LetterSheet, HasBoxesInsideThatDoNotOverlap) {
    for (const int height : {7, 20, 64}) {
        const LetterSheet letters = letter_sheet(height);
        ASSERT_EQ(letters.alpha.size(), pixel(letters, 0, letters.size_px.y));
        std::vector<int> owner(letters.alpha.size(), 0);
        int name = 0;
        for (const Letter& letter : letters.letters) {
            ++name;
            ASSERT_GE(letter.sheet_from_px.x, 0);
            ASSERT_GE(letter.sheet_from_px.y, 0);
            ASSERT_LE(letter.sheet_to_px.x, letters.size_px.x);
            ASSERT_LE(letter.sheet_to_px.y, letters.size_px.y);
            for (int y = static_cast<int>(letter.sheet_from_px.y); y < static_cast<int>(letter.sheet_to_px.y); ++y)
                for (int x = static_cast<int>(letter.sheet_from_px.x); x < static_cast<int>(letter.sheet_to_px.x);
                     ++x) {
                    int& taken = owner[pixel(letters, x, y)];
                    ASSERT_EQ(taken, 0) << "two letters share a pixel";
                    taken = name;
                }
        }
        for (std::size_t i = 0; i < owner.size(); ++i)
            ASSERT_TRUE(owner[i] != 0 || letters.alpha[i] == 0) << "ink outside of all boxes";
    }
}

TEST(LetterSheet, LeavesAPixelBetweenLetters) {
    for (const Letter& a : sheet().letters)
        for (const Letter& b : sheet().letters) {
            if (&a == &b || is_empty(a) || is_empty(b)) continue;
            ASSERT_TRUE(a.sheet_to_px.x < b.sheet_from_px.x || b.sheet_to_px.x < a.sheet_from_px.x ||
                        a.sheet_to_px.y < b.sheet_from_px.y || b.sheet_to_px.y < a.sheet_from_px.y)
                << int(a.code) << " " << int(b.code);
        }
}

TEST(LetterSheet, HasInkInEveryBox) {
    int without_box = 0;
    for (const Letter& letter : sheet().letters) {
        if (is_empty(letter))
            ++without_box;
        else
            EXPECT_GT(ink(sheet(), letter.sheet_from_px, letter.sheet_to_px), 0) << std::hex << int(letter.code);
    }
    EXPECT_LT(without_box, 8) << "blanks only";
    EXPECT_TRUE(is_empty(*find(sheet(), U' ')));
    const auto [least, most] = std::ranges::minmax(sheet().alpha);
    EXPECT_EQ(least, 0);
    EXPECT_EQ(most, 255);
}

TEST(LetterSheet, StandsOnTheBaselineWithinTheLine) {
    for (const int height : {13, 20, 50}) {
        const LetterSheet letters = letter_sheet(height);
        EXPECT_EQ(letters.height_px, height);
        EXPECT_GT(letters.baseline_px, 0.6F * static_cast<float>(height));
        EXPECT_LT(letters.baseline_px, static_cast<float>(height));
        const Letter& capital = *find(letters, U'H');
        const float bottom = capital.offset_px.y + capital.sheet_to_px.y - capital.sheet_from_px.y;
        EXPECT_EQ(bottom, letters.baseline_px);
        for (const char32_t code : std::u32string_view(U"AÄgjy(|")) {
            const Letter& letter = *find(letters, code);
            const float bottom_px = letter.offset_px.y + letter.sheet_to_px.y - letter.sheet_from_px.y;
            EXPECT_GE(letter.offset_px.y, -1.0F) << int(code);
            EXPECT_LE(bottom_px, static_cast<float>(height) + 1.0F) << int(code);
        }
    }
}

TEST(LetterSheet, DrawsLettersTheRightWayUp) {
    // L has its ink at the bottom and at the left.
    const Letter& letter = *find(sheet(), U'L');
    const glm::vec2 from = letter.sheet_from_px;
    const glm::vec2 to = letter.sheet_to_px;
    const glm::vec2 middle = glm::floor((from + to) / 2.0F);
    EXPECT_GT(ink(sheet(), {from.x, middle.y}, to), ink(sheet(), from, {to.x, middle.y}));
    EXPECT_GT(ink(sheet(), from, {middle.x, to.y}), ink(sheet(), {middle.x, from.y}, to));
}

TEST(TextWidth, OfEveryFigureIsTheSame) {
    for (const int height : {9, 20, 33}) {
        const LetterSheet letters = letter_sheet(height);
        const float zero = width_px(letters, "0");
        EXPECT_GT(zero, 0.2F * static_cast<float>(height));
        for (const char* figure : {"1", "2", "3", "4", "5", "6", "7", "8", "9"})
            EXPECT_EQ(width_px(letters, figure), zero) << figure;
        EXPECT_EQ(width_px(letters, "1111.1"), width_px(letters, "8848.0"));
    }
}

TEST(TextWidth, IsTheSumOfTheAdvances) {
    float sum = 0.0F;
    for (const char32_t code : std::u32string_view(U"Ring 57 · 2½°")) sum += find(sheet(), code)->advance_px;
    EXPECT_FLOAT_EQ(width_px(sheet(), "Ring 57 · 2½°"), sum);
    EXPECT_EQ(width_px(sheet(), ""), 0.0F);
}

TEST(TextWidth, GrowsWithTheSize) {
    EXPECT_NEAR(width_px(letter_sheet(40), "Sun 24"), 2 * width_px(sheet(), "Sun 24"), 1e-3);
}

TEST(TextBoxes, FollowThePen) {
    const auto boxes = letter_boxes(sheet(), "A B");
    ASSERT_EQ(boxes.size(), 2U) << "a blank has no box";
    const Letter& a = *find(sheet(), U'A');
    const Letter& b = *find(sheet(), U'B');
    EXPECT_EQ(boxes[0].from_px, a.offset_px);
    EXPECT_EQ(boxes[0].sheet_from_px, a.sheet_from_px);
    EXPECT_EQ(boxes[0].sheet_to_px, a.sheet_to_px);
    EXPECT_EQ(boxes[1].sheet_from_px, b.sheet_from_px);
    EXPECT_NEAR(boxes[1].from_px.x, a.advance_px + find(sheet(), U' ')->advance_px + b.offset_px.x, 0.5F);
    for (const LetterBox& box : boxes) {
        EXPECT_EQ(box.to_px - box.from_px, box.sheet_to_px - box.sheet_from_px) << "pixel for pixel";
        EXPECT_EQ(box.from_px, glm::floor(box.from_px));
    }
    EXPECT_TRUE(letter_boxes(sheet(), "").empty());
}

TEST(TextBoxes, ShowAQuestionMarkForWhatTheFontLacks) {
    const glm::vec2 unknown = find(sheet(), U'?')->sheet_from_px;
    for (const char* text : {"\u4E2D", "\U0001F600", "\n", "\x7F"}) {
        const auto boxes = letter_boxes(sheet(), text);
        ASSERT_EQ(boxes.size(), 1U) << text;
        EXPECT_EQ(boxes[0].sheet_from_px, unknown) << text;
        EXPECT_EQ(width_px(sheet(), text), width_px(sheet(), "?"));
    }
}

TEST(TextBoxes, ShowAQuestionMarkForEachBrokenByte) {
    const auto shown = [](std::string_view text) { return letter_boxes(sheet(), text).size(); };
    const auto unknown = [](std::string_view text) {
        const auto boxes = letter_boxes(sheet(), text);
        return std::ranges::count(boxes, find(sheet(), U'?')->sheet_from_px, &LetterBox::sheet_from_px);
    };
    struct Case {
        std::string_view text;
        std::size_t boxes;
        int unknown;
    };
    for (const Case& broken : {Case{"\x80", 1, 1}, Case{"\xC3", 1, 1}, Case{"a\xC3", 2, 1}, Case{"\xC3z", 2, 1},
                               Case{"\xE2\x88", 2, 2}, Case{"\xE2\x88\x92", 1, 0}, Case{"\xC0\xAF", 2, 2},
                               Case{"\xF5\x80\x80\x80", 4, 4}, Case{"\xFF\xFE", 2, 2}, Case{"\xED\xA0\x80", 1, 1}}) {
        EXPECT_EQ(shown(broken.text), broken.boxes);
        EXPECT_EQ(unknown(broken.text), broken.unknown);
    }
}

TEST(TextBoxes, SurviveAnyBytes) {
    Dice dice(99);
    for (int round = 0; round < 2000; ++round) {
        std::string text;
        for (int i = dice.between(0, 40); i > 0; --i) text.push_back(static_cast<char>(dice.between(0, 255)));
        EXPECT_LE(letter_boxes(sheet(), text).size(), text.size());
        EXPECT_GE(width_px(sheet(), text), 0.0F);
    }
}

}  // namespace
}  // namespace couplet
