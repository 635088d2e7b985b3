#include "app/given_name.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "scene/limits.hpp"

namespace couplet {

namespace {

bool is_control(char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return byte < 0x20 || byte == 0x7f;
}

bool is_among(const std::string& name, std::span<const std::string> taken) {
    return std::ranges::find(taken, name) != taken.end();
}

// At most kMostNameBytes less what a number behind it needs, and no letter of UTF-8 cut in the middle.
std::string shortened(std::string name) {
    constexpr std::size_t kMost = kMostNameBytes - 12;
    if (name.size() <= kMost) return name;
    const auto goes_on = [&](std::size_t at) { return (static_cast<unsigned char>(name[at]) & 0xc0U) == 0x80U; };
    std::size_t end = kMost;
    while (end > 0 && goes_on(end)) --end;
    name.resize(end);
    return name;
}

struct NumberedName {
    std::string base;
    int number = 1;
};

// A number without a name before it is a name.
NumberedName numbered_name(const std::string& name) {
    constexpr std::size_t kMostDigits = 6;
    const std::size_t digits = name.find_last_not_of("0123456789") + 1;
    const std::size_t count = name.size() - digits;
    NumberedName parts{name, 1};
    if (count > 0 && count <= kMostDigits && digits > 1 && name[digits - 1] == ' ') {
        std::from_chars(name.data() + digits, name.data() + name.size(), parts.number);
        parts.base = name.substr(0, digits - 1);
    }
    parts.base = shortened(std::move(parts.base));
    return parts;
}

}  // namespace

std::string name_fault(const std::string& name, std::string_view what, std::span<const std::string> taken) {
    if (name.find_first_not_of(' ') == std::string::npos) return fmt::format("give the {} a name", what);
    if (std::ranges::any_of(name, is_control)) return "a name is one line of plain letters";
    if (name.size() > kMostNameBytes) return fmt::format("a name has at most {} bytes", kMostNameBytes);
    if (is_among(name, taken)) return fmt::format("there is another {} of that name", what);
    return "";
}

std::string unused_name(const std::string& name, std::span<const std::string> taken) {
    if (!is_among(name, taken)) return name;
    const NumberedName parts = numbered_name(name);
    for (int n = parts.number + 1;; ++n)
        if (std::string tried = fmt::format("{} {}", parts.base, n); !is_among(tried, taken)) return tried;
}

}  // namespace couplet
