#include "scene/toml.hpp"

#include <algorithm>
#include <array>

#include "scene/error.hpp"
#include "scene/screen.hpp"

namespace couplet {

namespace {

struct Wording {
    std::string_view mistake;  // part of the library's description
    std::string_view right;
    std::string_view wrong{};  // empty: the library's own words
};

constexpr std::string_view kNumber = "write a number as 21, -0.5 or 1e-3, with at most 40 digits";

// The first that fits counts.
constexpr std::array kWordings = {
    Wording{"cannot redefine", "write [[name]] for each entry of a list, and each other key or table once"},
    Wording{"expected '='", "write key = value"},
    Wording{"expected a comment or whitespace", "put each key = value on a line of its own"},
    Wording{"string: unescaped control", "close it on its line, or put three quotes round text of several lines",
            "a string holds a line end or another control character"},
    Wording{"string: encountered end-of-file", "close the string with the quotes that opened it"},
    Wording{"array: encountered end-of-file", "close the list with ]"},
    Wording{"or closing ']'", "write a list as [1, 2, 3]"},
    Wording{"inline table", "write { key = value, key = value } on one line, without a comma before the }"},
    Wording{"unknown escape", "write \\\\ for \\, or put the text in single quotes"},
    Wording{"table header", "write [name] or, for an entry of a list, [[name]]"},
    Wording{"boolean", "write true or false"},
    Wording{"integer", kNumber},
    Wording{"floating-point", kNumber},
    Wording{"nested", "a scene nests at most a few lists and tables"},
    Wording{"expected value", "write a value after the =: text in quotes, a number, true, false or a list"},
    Wording{"", "each line is empty, a # comment, a [table], a [[list entry]] or key = value"},
};

const Wording& wording_for(std::string_view description) {
    return *std::ranges::find_if(
        kWordings, [&](const Wording& wording) { return description.find(wording.mistake) != std::string_view::npos; });
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

std::string wrong_in(std::string_view description, const Wording& wording) {
    constexpr std::size_t kMostDescription = 200;
    constexpr std::string_view kGivenTwice = "cannot redefine existing ";
    if (!wording.wrong.empty()) return std::string(wording.wrong);
    description = without_trimmings(description);
    if (description.starts_with(kGivenTwice) && description.ends_with('\''))
        return shown(description.substr(description.find('\''))) + " is given twice";
    return "this is not valid TOML: " + shown(description, kMostDescription);
}

// An unclosed list is missed at the end of the text, perhaps past its last line.
int line_of(const toml::parse_error& error, std::string_view text) {
    const auto line_count = std::ranges::count(text, '\n') + (text.ends_with('\n') ? 0 : 1);
    return static_cast<int>(std::min<std::ptrdiff_t>(error.source().begin.line, line_count));
}

}  // namespace

toml::table parse_toml(std::string_view text, const std::string& file_name) {
    screen(text, file_name);
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& error) {
        const Wording& wording = wording_for(error.description());
        throw SceneError(file_name, line_of(error, text), wrong_in(error.description(), wording),
                         std::string(wording.right));
    }
}

}  // namespace couplet
