#include "scene/error.hpp"

#include <fmt/format.h>

namespace couplet {

namespace {

std::string message(const std::string& file, int line, const std::string& wrong, const std::string& right) {
    const std::string place = line > 0 ? fmt::format("{}:{}", file, line) : file;
    return fmt::format("{}: {}; {}", place, wrong, right);
}

bool is_control(char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
}

// At most so many bytes, cut between code points.
std::string_view beginning_of(std::string_view text, std::size_t most) {
    if (text.size() <= most) return text;
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return text.substr(0, end);
}

}  // namespace

SceneError::SceneError(std::string file_name, int at_line, std::string what_is_wrong, std::string what_is_right)
    : std::runtime_error(message(file_name, at_line, what_is_wrong, what_is_right)),
      file(std::move(file_name)),
      line(at_line),
      wrong(std::move(what_is_wrong)),
      right(std::move(what_is_right)) {}

void FirstError::add(int line, std::string wrong, std::string right) {
    if (wants(line)) first_.emplace(file_, line, std::move(wrong), std::move(right));
}

void FirstError::raise() const {
    if (first_) throw SceneError(*first_);
}

std::string shown(std::string_view found, std::size_t most) {
    const std::string_view beginning = beginning_of(found, most);
    std::string text;
    for (const char c : beginning) {
        if (c == '\n')
            text += "\\n";
        else if (is_control(c))
            text += fmt::format("\\x{:02X}", static_cast<unsigned char>(c));
        else
            text += c;
    }
    return beginning.size() < found.size() ? text + "..." : text;
}

std::string in_quotes(std::string_view found) {
    return fmt::format("'{}'", shown(found));
}

}  // namespace couplet
