#include "find/loosen.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace couplet {

namespace {

std::optional<SearchRow> first_row(const SearchWish& wish, const SearchListener& listener) {
    std::vector<SearchRow> rows = search(wish, {}, listener).rows;
    return rows.empty() ? std::nullopt : std::optional(std::move(rows.front()));
}

std::optional<Loosening> loosen_tolerance(const SearchWish& wish, const SearchListener& listener) {
    if (!wish.tolerance) return std::nullopt;
    SearchWish looser = wish;
    looser.tolerance.reset();
    looser.most_nearest = 1;
    std::optional<SearchRow> row = first_row(looser, listener);
    if (!row) return std::nullopt;
    const double part = std::abs(row->error_ppm.to_double()) * 1e-6;
    if (part > kMostLoosened) return std::nullopt;
    return Loosening{Limit::tolerance, part, std::move(*row)};
}

// How far a value lies outside a range, as a part of the end that it passed.
double part_beyond(int value, int fewest, int most) {
    if (value < fewest) return static_cast<double>(fewest - value) / fewest;
    return value > most ? static_cast<double>(value - most) / most : 0.0;
}

// Ranges are widened by steps: a half wider at once would be a search of its own.
constexpr std::array<double, 5> kSteps = {0.03, 0.0625, 0.125, 0.25, kMostLoosened};

std::optional<Loosening> loosen_teeth(const SearchWish& wish, const SearchListener& listener) {
    const std::vector<std::string> names = count_names(wish);
    const std::vector<ToothRange> ranges = ranges_of(wish);
    for (const double step : kSteps) {
        SearchWish looser = wish;
        for (std::size_t count = 0; count < names.size(); ++count) {
            if (ranges[count].most > kMostSearchedTeeth) continue;
            looser.teeth[names[count]] = {
                std::max(kFewestTeeth, static_cast<int>(std::floor(ranges[count].fewest * (1.0 - step)))),
                std::min(kMostSearchedTeeth, static_cast<int>(std::ceil(ranges[count].most * (1.0 + step))))};
        }
        std::optional<SearchRow> row = first_row(looser, listener);
        if (!row) continue;
        double part = 0.0;
        for (std::size_t count = 0; count < names.size(); ++count)
            part = std::max(part, part_beyond(row->teeth[count], ranges[count].fewest, ranges[count].most));
        return Loosening{Limit::tooth_ranges, part, std::move(*row)};
    }
    return std::nullopt;
}

std::optional<Loosening> loosen_copies(const SearchWish& wish, const SearchListener& listener) {
    const bool has_copies = form_of(wish.arrangement).has_copies;
    if (!has_copies) return std::nullopt;
    std::optional<Loosening> least;
    SearchWish looser = wish;
    for (int copies = 1; copies <= kMostSearchedCopies; ++copies) {
        const double part = part_beyond(copies, wish.copies.fewest, wish.copies.most);
        if (part == 0.0 || part > kMostLoosened || (least && part >= *least->part)) continue;
        looser.copies = {copies, copies};
        if (std::optional<SearchRow> row = first_row(looser, listener))
            least = Loosening{Limit::copies, part, std::move(*row)};
    }
    return least;
}

std::optional<Loosening> loosen_diameter(const SearchWish& wish, const SearchListener& listener) {
    if (!wish.largest_ring_diameter_mm) return std::nullopt;
    SearchWish looser = wish;
    looser.largest_ring_diameter_mm = *wish.largest_ring_diameter_mm * (1.0 + kMostLoosened);
    std::vector<SearchRow> rows = search(looser, {}, listener).rows;
    if (rows.empty()) return std::nullopt;
    SearchRow& row = *std::ranges::min_element(rows, {}, &SearchRow::ring_diameter_mm);
    const double part = row.ring_diameter_mm / *wish.largest_ring_diameter_mm - 1.0;
    return Loosening{Limit::ring_diameter, part, std::move(row)};
}

// Limits that are kept or not.
std::optional<Loosening> loosened(Limit limit, const SearchWish& looser, const SearchListener& listener) {
    std::optional<SearchRow> row = first_row(looser, listener);
    if (!row) return std::nullopt;
    return Loosening{limit, std::nullopt, std::move(*row)};
}

std::optional<Loosening> loosen_hunting(const SearchWish& wish, const SearchListener& listener) {
    if (wish.hunting == HuntingUse::any) return std::nullopt;
    SearchWish looser = wish;
    looser.hunting = HuntingUse::any;
    return loosened(Limit::hunting, looser, listener);
}

std::optional<Loosening> loosen_shift(const SearchWish& wish, const SearchListener& listener) {
    if (wish.shift == ShiftUse::allowed) return std::nullopt;
    SearchWish looser = wish;
    looser.shift = ShiftUse::allowed;
    return loosened(Limit::shift, looser, listener);
}

std::optional<Loosening> loosen_spacing(const SearchWish& wish, const SearchListener& listener) {
    const bool has_copies = form_of(wish.arrangement).has_copies;
    if (!has_copies || wish.spacing == SpacingUse::free) return std::nullopt;
    SearchWish looser = wish;
    looser.spacing = SpacingUse::free;
    return loosened(Limit::spacing, looser, listener);
}

std::optional<Loosening> turn_sense(const SearchWish& wish, const SearchListener& listener) {
    SearchWish other = wish;
    other.target = -wish.target;
    return loosened(Limit::sense, other, listener);
}

}  // namespace

std::string_view name_of(Limit limit) {
    static constexpr std::array<std::string_view, 8> names = {"tolerance", "tooth ranges", "copies",  "ring diameter",
                                                              "hunting",   "shift",        "spacing", "sense"};
    return names[static_cast<std::size_t>(limit)];
}

std::vector<Loosening> loosenings(const SearchWish& wish, const SearchListener& listener) {
    std::vector<Loosening> found;
    for (const auto loosen : {loosen_tolerance, loosen_teeth, loosen_copies, loosen_diameter, loosen_hunting,
                              loosen_shift, loosen_spacing, turn_sense})
        if (std::optional<Loosening> loosening = loosen(wish, listener)) found.push_back(std::move(*loosening));
    std::ranges::stable_sort(
        found, [](const Loosening& a, const Loosening& b) { return a.part && (!b.part || *a.part < *b.part); });
    return found;
}

}  // namespace couplet
