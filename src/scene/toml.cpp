#include "scene/toml.hpp"

#include <algorithm>
#include <array>

#include "scene/error.hpp"
#include "scene/screen.hpp"

namespace couplet {

namespace {

struct Hint {
    std::string_view mistake;  // part of the library's description
    std::string_view right;
};

// The first that fits counts.
constexpr std::array kHints = {
    Hint{"cannot redefine", "write [[name]] for each entry of a list, and each other key or table once"},
    Hint{"expected '='", "write key = value"},
    Hint{"expected a comment or whitespace", "put each key = value on a line of its own"},
    Hint{"string: unescaped control", "close the string on its line, or put three quotes round text of several lines"},
    Hint{"string: encountered end-of-file", "close the string with the quotes that opened it"},
    Hint{"array: encountered end-of-file", "close the list with ]"},
    Hint{"or closing ']'", "write a list as [1, 2, 3]"},
    Hint{"inline table", "write { key = value, key = value } on one line, without a comma before the }"},
    Hint{"unknown escape", "write \\\\ for \\, or put the text in single quotes"},
    Hint{"table header", "write [name] or, for an entry of a list, [[name]]"},
    Hint{"boolean", "write true or false"},
    Hint{"number", "write a number as 21, -0.5 or 1e-3, with at most 40 digits"},
    Hint{"integer", "write a number as 21, -0.5 or 1e-3, with at most 40 digits"},
    Hint{"floating-point", "write a number as 21, -0.5 or 1e-3, with at most 40 digits"},
    Hint{"nested", "a scene nests at most a few lists and tables"},
    Hint{"expected value", "write a value after the =: text in quotes, a number, true, false or a list"},
};

std::string_view hint_for(std::string_view description) {
    const auto hint = std::ranges::find_if(
        kHints, [&](const Hint& h) { return description.find(h.mistake) != std::string_view::npos; });
    return hint == kHints.end() ? "each line is empty, a # comment, a [table], a [[list entry]] or key = value"
                                : hint->right;
}

// The library's "Error while parsing integer: what is wrong" without its beginning and its compile-time names.
std::string_view without_trimmings(std::string_view description) {
    constexpr std::string_view kBeginning = "Error while parsing ";
    if (description.starts_with(kBeginning)) {
        const std::size_t colon = description.find(": ");
        if (colon != std::string_view::npos) description.remove_prefix(colon + 2);
    }
    return description.substr(0, description.find(" (TOML_"));
}

[[noreturn]] void raise(const toml::parse_error& error, std::string_view text, const std::string& file_name) {
    const auto line_count = 1 + std::ranges::count(text, '\n');
    const auto line = std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(error.source().begin.line), 1, line_count);
    std::string_view description = error.description();
    const std::string_view right = hint_for(description);
    description = without_trimmings(description);
    constexpr std::string_view kGivenTwice = "cannot redefine existing ";
    const bool twice = description.starts_with(kGivenTwice) && description.ends_with('\'');
    if (twice) description = description.substr(description.find('\''));
    throw SceneError(file_name, static_cast<int>(line),
                     twice ? shown(description) + " is given twice" : "this is not valid TOML: " + shown(description),
                     std::string(right));
}

}  // namespace

toml::table parse_toml(std::string_view text, const std::string& file_name) {
    screen(text, file_name);
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& error) {
        raise(error, text, file_name);
    }
}

}  // namespace couplet
