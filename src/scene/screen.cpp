#include "scene/screen.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>

#include "scene/scene.hpp"

namespace couplet {

namespace {

int line_at(std::string_view text, std::size_t offset) {
    return 1 + static_cast<int>(std::ranges::count(text.substr(0, offset), '\n'));
}

struct LeadByte {
    std::size_t length;
    std::uint32_t bits;
    std::uint32_t least;  // the smallest code point that needs this length
};

std::optional<LeadByte> lead_byte(unsigned char byte) {
    if (byte < 0x80) return LeadByte{1, byte, 0};
    if (byte >= 0xC0 && byte < 0xE0) return LeadByte{2, byte & 0x1FU, 0x80};
    if (byte >= 0xE0 && byte < 0xF0) return LeadByte{3, byte & 0x0FU, 0x800};
    if (byte >= 0xF0 && byte < 0xF8) return LeadByte{4, byte & 0x07U, 0x10000};
    return std::nullopt;
}

// Bytes of the code point that begins there; 0 where it is not UTF-8 (RFC 3629, section 4).
std::size_t code_point_length(std::string_view text, std::size_t begin) {
    const auto lead = lead_byte(static_cast<unsigned char>(text[begin]));
    if (!lead || begin + lead->length > text.size()) return 0;
    std::uint32_t code_point = lead->bits;
    for (std::size_t i = 1; i < lead->length; ++i) {
        const auto byte = static_cast<unsigned char>(text[begin + i]);
        if ((byte & 0xC0U) != 0x80U) return 0;
        code_point = code_point << 6U | (byte & 0x3FU);
    }
    const bool surrogate = code_point >= 0xD800 && code_point <= 0xDFFF;
    return code_point < lead->least || code_point > 0x10FFFF || surrogate ? 0 : lead->length;
}

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = code_point_length(text, at);
        if (length == 0) return at;
        at += length;
    }
    return std::nullopt;
}

bool is_tripled(std::string_view text, std::size_t at) {
    return at + 2 < text.size() && text[at + 1] == text[at] && text[at + 2] == text[at];
}

// Past the string that begins at the quote, or past the end of its line where it is not closed.
std::size_t after_string(std::string_view text, std::size_t begin) {
    const char quote = text[begin];
    const bool escapes = quote == '"';
    const bool of_lines = is_tripled(text, begin);
    for (std::size_t at = begin + (of_lines ? 3 : 1); at < text.size(); ++at) {
        if (escapes && text[at] == '\\')
            ++at;
        else if (of_lines && text[at] == quote && is_tripled(text, at))
            return std::min(text.find_first_not_of(quote, at), text.size());
        else if (!of_lines && (text[at] == quote || text[at] == '\n'))
            return at + 1;
    }
    return text.size();
}

// Counts what costs the parser memory or time. Each value, table and list item follows one of the marks . = , [ {; the
// parser looks through all tables of dotted keys and headers so far for each further one.
class Marks {
  public:
    Marks(std::string_view text, const std::string& file_name) : text_(text), file_name_(file_name) {}

    void examine() {
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (c == '"' || c == '\'') {
                at_ = after_string(text_, at_);
                line_is_blank_ = false;
            } else if (c == '#') {
                at_ = std::min(text_.find('\n', at_), text_.size());
            } else {
                examine(c);
                ++at_;
            }
        }
    }

  private:
    void examine(char c) {
        if (c == '[' && line_is_blank_) in_header_ = true;
        if (c == '.' && ++dots_ >= kMostKeyParts)
            refuse("a key has more than " + std::to_string(kMostKeyParts) + " parts",
                   "the longest in a scene, member.gear.teeth, has 3");
        if (std::string_view(".=,[{").find(c) != std::string_view::npos && ++values_ > kMostSceneValues)
            refuse("the file holds more than " + std::to_string(kMostSceneValues) + " values",
                   "a scene has at most " + std::to_string(kMostMembers) + " members");
        const bool ends_key = c == '=' || (c == ']' && in_header_);
        if (ends_key) tables_ += in_header_ ? std::max<std::size_t>(dots_, 1) : dots_ * kDottedKeyWeight;
        if (tables_ > kMostSceneTables)
            refuse("the file holds more than " + std::to_string(kMostSceneTables) + " tables",
                   "a scene has at most " + std::to_string(kMostMembers) + " members");
        if (std::string_view("\n=,[]{}").find(c) != std::string_view::npos) dots_ = 0;
        if (ends_key) in_header_ = false;
        line_is_blank_ = c == '\n' || (line_is_blank_ && (c == ' ' || c == '\t'));
    }

    [[noreturn]] void refuse(std::string wrong, std::string right) const {
        throw SceneError(file_name_, line_at(text_, at_), std::move(wrong), std::move(right));
    }

    // A dotted key costs the parser more than a header does.
    static constexpr std::size_t kDottedKeyWeight = 4;

    std::string_view text_;
    const std::string& file_name_;
    std::size_t at_ = 0;
    bool line_is_blank_ = true;
    bool in_header_ = false;
    std::size_t dots_ = 0;
    std::size_t values_ = 0;
    std::size_t tables_ = 0;
};

}  // namespace

void screen(std::string_view text, const std::string& file_name) {
    if (text.size() > kMostSceneBytes)
        throw SceneError(file_name, 0, "the file is larger than " + std::to_string(kMostSceneBytes >> 20U) + " MiB",
                         "give a scene file");
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        throw SceneError(file_name, 1, "the file is empty", "a scene starts with couplet = 1, the format version");
    if (const auto invalid = first_invalid_utf8(text))
        throw SceneError(file_name, line_at(text, *invalid), "this is not valid UTF-8 text",
                         "save the scene as plain text in UTF-8");
    Marks(text, file_name).examine();
}

}  // namespace couplet
