#include "scene/names.hpp"

#include <algorithm>
#include <vector>

#include "scene/error.hpp"

namespace couplet {

namespace {

// Longer names are not typed by hand; comparing a great many of them would take long.
constexpr std::size_t kLongestCompared = 64;

std::string listed(std::span<const std::string_view> names) {
    constexpr std::size_t kMostListed = 16;
    const std::size_t count = std::min(names.size(), kMostListed);
    std::string list;
    for (std::size_t i = 0; i < count; ++i) {
        if (i > 0) list += i + 1 == names.size() ? " and " : ", ";
        list += in_quotes(names[i]);
    }
    if (count < names.size()) list += " and " + std::to_string(names.size() - count) + " more";
    return list;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t most) {
    if (std::max(a.size(), b.size()) - std::min(a.size(), b.size()) > most) return most + 1;
    std::vector<std::size_t> before_last(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::swap(before_last, last);
        std::swap(last, row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t changed = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({changed, last[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        if (std::ranges::min(row) > most) return most + 1;
    }
    return std::min(row[b.size()], most + 1);
}

std::optional<std::string_view> nearest_name(std::string_view name, std::span<const std::string_view> names) {
    if (name.empty() || name.size() > kLongestCompared) return std::nullopt;
    std::size_t most = std::clamp<std::size_t>((name.size() + 1) / 3, 1, 4);
    std::optional<std::string_view> found;
    for (const std::string_view candidate : names) {
        const std::size_t distance = edit_distance(name, candidate, most);
        if (distance > most) continue;
        found = candidate;
        if (distance == 0) break;
        most = distance - 1;
    }
    return found;
}

std::string suggestion(std::string_view name, std::span<const std::string_view> names, std::string_view what_they_are,
                       std::string_view where_none) {
    if (const auto near = nearest_name(name, names)) return "did you mean " + in_quotes(*near) + "?";
    if (names.empty()) return std::string(where_none);
    return std::string(what_they_are) + " " + listed(names);
}

}  // namespace couplet
