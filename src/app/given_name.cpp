#include "app/given_name.hpp"

#include <fmt/format.h>

#include <algorithm>

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

// At most kMostNameBytes less what a number behind it needs, and no letter cut in the middle.
std::string shortened(std::string name) {
    constexpr std::size_t kNumberBytes = 12;
    if (name.size() <= kMostNameBytes - kNumberBytes) return name;
    name.resize(kMostNameBytes - kNumberBytes);
    const auto continues = [](char letter) { return (static_cast<unsigned char>(letter) & 0xc0U) == 0x80U; };
    while (!name.empty() && continues(name.back())) name.pop_back();
    if (!name.empty() && (static_cast<unsigned char>(name.back()) & 0x80U) != 0) name.pop_back();
    return name;
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
    const std::string base = shortened(name);
    for (int n = 2;; ++n)
        if (std::string tried = fmt::format("{} {}", base, n); !is_among(tried, taken)) return tried;
}

}  // namespace couplet
