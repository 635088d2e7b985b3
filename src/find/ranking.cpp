#include "find/ranking.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <tuple>

namespace couplet {

namespace {

// Less is better in each.
struct Figures {
    Ratio error_ppm;
    std::array<double, 5> others;  // size, contact ratio, hunting, residual, copies in step
};

Figures figures_of(const SearchRow& row) {
    return {row.error_ppm.magnitude(),
            {row.ring_diameter_mm, -row.contact_ratio, row.hunting ? 0.0 : 1.0, row.balance.residual,
             static_cast<double>(row.balance.in_step)}};
}

bool is_as_good(const Figures& a, const Figures& b) {
    for (std::size_t figure = 0; figure < a.others.size(); ++figure)
        if (a.others[figure] > b.others[figure]) return false;
    return a.error_ppm <= b.error_ppm;
}

bool beats(const Figures& a, const Figures& b) {
    return is_as_good(a, b) && !is_as_good(b, a);
}

bool ranks_before(const SearchRow& a, const SearchRow& b, RankKey key) {
    switch (key) {
        case RankKey::error:
            return false;  // they stand in this order
        case RankKey::size:
            return a.ring_diameter_mm < b.ring_diameter_mm;
        case RankKey::contact:
            return a.contact_ratio > b.contact_ratio;
        case RankKey::hunting:
            return a.hunting && !b.hunting;
        case RankKey::balance:
            return std::tie(a.balance.residual, a.balance.in_step) < std::tie(b.balance.residual, b.balance.in_step);
        case RankKey::teeth:
            return std::accumulate(a.teeth.begin(), a.teeth.end(), 0) <
                   std::accumulate(b.teeth.begin(), b.teeth.end(), 0);
    }
    return false;
}

}  // namespace

std::string_view name_of(RankKey key) {
    static constexpr std::array<std::string_view, kRankKeys> names = {"error",   "size",    "contact",
                                                                      "hunting", "balance", "teeth"};
    return names[static_cast<std::size_t>(key)];
}

std::vector<std::size_t> ranked(std::span<const SearchRow> rows, RankKey key) {
    std::vector<std::size_t> order(rows.size());
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return ranks_before(rows[a], rows[b], key); });
    return order;
}

// Rows come with rising error, so that only rows of the same error can be beaten by a later one: what is unbeaten so
// far is all that a row has to be compared with, and what it beats is taken out again.
std::vector<bool> unbeaten(std::span<const SearchRow> rows) {
    std::vector<std::pair<std::size_t, Figures>> front;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        Figures figures = figures_of(rows[row]);
        if (std::ranges::any_of(front, [&](const auto& other) { return beats(other.second, figures); })) continue;
        std::erase_if(front, [&](const auto& other) { return beats(figures, other.second); });
        front.emplace_back(row, std::move(figures));
    }
    std::vector<bool> marks(rows.size(), false);
    for (const auto& [row, figures] : front) marks[row] = true;
    return marks;
}

}  // namespace couplet
