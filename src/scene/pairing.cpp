#include "scene/pairing.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace couplet {

namespace {

using Partners = std::vector<std::optional<std::size_t>>;

Partners by_identity(const std::vector<Entry>& before, const std::vector<Entry>& after) {
    // Entries of one identity, such as two meshes of the same gears, pair up in their order.
    std::unordered_map<std::string_view, std::size_t> first_of;
    std::vector<std::size_t> next_of(before.size(), before.size());
    for (std::size_t i = before.size(); i-- > 0;) {
        const auto [same, is_new] = first_of.try_emplace(before[i].identity, i);
        if (!is_new) next_of[i] = std::exchange(same->second, i);
    }
    Partners partners(after.size());
    for (std::size_t i = 0; i < after.size(); ++i) {
        const auto same = first_of.find(after[i].identity);
        if (same == first_of.end() || same->second == before.size()) continue;
        partners[i] = same->second;
        same->second = next_of[same->second];
    }
    return partners;
}

}  // namespace

std::optional<Partners> paired(const std::vector<Entry>& before, const std::vector<Entry>& after) {
    Partners partners = by_identity(before, after);
    std::size_t gap_before = 0;
    std::size_t gap_after = 0;
    for (std::size_t i = 0; i <= after.size(); ++i) {
        if (i < after.size() && !partners[i]) continue;
        const std::size_t partner = i < after.size() ? *partners[i] : before.size();
        if (partner < gap_before) return std::nullopt;
        const std::size_t went = partner - gap_before;
        const std::size_t came = i - gap_after;
        const bool was_nameless = went > 0 && before[gap_before].identity.empty();
        const std::size_t renamed = went == came ? went : std::min<std::size_t>(came, was_nameless ? 1 : 0);
        for (std::size_t k = 0; k < renamed; ++k) partners[gap_after + k] = gap_before + k;
        gap_before = partner + 1;
        gap_after = i + 1;
    }
    return partners;
}

}  // namespace couplet
