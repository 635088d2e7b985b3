// Ranking: rows of a search in the order of one figure, and which of them no other row beats in everything.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "find/search_result.hpp"

namespace couplet {

// error: the smallest; size: the smallest largest ring (or gear); contact: the largest least contact ratio; hunting:
// rows whose meshes all hunt; balance: the smallest residual of the copies' forces, then the fewest copies in step;
// teeth: the fewest in all. Equal ones stay in the order of comes_before.
enum class RankKey { error, size, contact, hunting, balance, teeth };
inline constexpr std::size_t kRankKeys = 6;

// "error", "size", ...
[[nodiscard]] std::string_view name_of(RankKey key);

// Positions of the rows, which stand in the order of comes_before, best first.
[[nodiscard]] std::vector<std::size_t> ranked(std::span<const SearchRow> rows, RankKey key);

// By row: true where no other row is at least as good in error, size, contact ratio, hunting and balance, and better in
// one of them (V. Pareto's order). Of rows that are equal in all of these, each is marked.
[[nodiscard]] std::vector<bool> unbeaten(std::span<const SearchRow> rows);

}  // namespace couplet
