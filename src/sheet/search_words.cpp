#include "sheet/search_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "exact/decimal.hpp"
#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

bool has_copies(const SearchWish& wish) {
    return form_of(wish.arrangement).has_copies;
}

// What a looser limit is, as a part of a sentence.
std::string_view what_is_loosened(Limit limit) {
    switch (limit) {
        case Limit::tolerance:
            return "A wider tolerance";
        case Limit::tooth_ranges:
            return "Wider tooth ranges";
        case Limit::copies:
            return "Another number of copies";
        case Limit::ring_diameter:
            return "A larger ring";
        case Limit::hunting:
            return "Letting some teeth never meet";
        case Limit::shift:
            return "Allowing profile shift";
        case Limit::spacing:
            return "Free spacing of the copies";
        case Limit::sense:
            return "The other sense of turning (the ratio with its sign changed)";
    }
    return "";
}

std::string grouped(std::int64_t number) {
    std::string text = std::to_string(number);
    for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, ",");
    return text;
}

}  // namespace

std::string_view short_name(Arrangement arrangement) {
    switch (arrangement) {
        case Arrangement::simple:
            return "simple";
        case Arrangement::stepped:
            return "stepped";
        case Arrangement::paired:
            return "paired";
        case Arrangement::two_rings:
            return "two-rings";
        case Arrangement::in_series:
            return "in-series";
        case Arrangement::pairs:
            return "pairs";
        case Arrangement::reverted:
            return "reverted";
        case Arrangement::differential:
            break;
    }
    return "";
}

std::string teeth_text(const SearchWish& wish, const SearchRow& row) {
    const std::string teeth = fmt::format("{}", fmt::join(row.teeth, ", "));
    return has_copies(wish) ? fmt::format("{} x {}", teeth, row.copies) : teeth;
}

std::string wanted_text(const SearchWish& wish, const Ratio& ratio) {
    const CentralChoice choice = choice_of(wish);
    const std::string turns =
        fmt::format("{} turns of {} per turn of {}", decimal_cell(ratio).shown, choice.driver, choice.output);
    if (choice.held == "frame") return turns;
    return fmt::format("{}, {} held", turns, wish.arrangement == Arrangement::in_series ? "both rings" : choice.held);
}

std::string ranges_text(const SearchWish& wish) {
    const std::vector<std::string> names = count_names(wish);
    const std::vector<ToothRange> ranges = ranges_of(wish);
    std::vector<std::string> texts;
    for (std::size_t count = 0; count < names.size(); ++count)
        texts.push_back(ranges[count].most > kMostSearchedTeeth
                            ? names[count] + " whatever fits"
                            : fmt::format("{} {} to {}", names[count], ranges[count].fewest, ranges[count].most));
    return fmt::format("{}", fmt::join(texts, ", "));
}

std::string limits_text(const SearchWish& wish) {
    std::vector<std::string> texts = {"module " + exact_text(wish.module_mm) + " mm"};
    if (has_copies(wish)) {
        texts.push_back(wish.copies.fewest == wish.copies.most
                            ? fmt::format("{} copies", wish.copies.fewest)
                            : fmt::format("{} to {} copies", wish.copies.fewest, wish.copies.most));
        texts.emplace_back(wish.spacing == SpacingUse::free ? "at free angles" : "equally spaced");
    }
    if (wish.largest_ring_diameter_mm) texts.push_back(fmt::format("ring up to {} mm", *wish.largest_ring_diameter_mm));
    texts.emplace_back(wish.shift == ShiftUse::allowed ? "profile shift allowed" : "no profile shift");
    if (wish.hunting == HuntingUse::required) texts.emplace_back("hunting required");
    return fmt::format("{}", fmt::join(texts, ", "));
}

std::string rejected_text(const SearchResult& result) {
    std::vector<std::size_t> rules;
    for (std::size_t rule = 0; rule < kRules; ++rule)
        if (result.rejected[rule] > 0) rules.push_back(rule);
    std::ranges::stable_sort(rules, std::ranges::greater{}, [&](std::size_t rule) { return result.rejected[rule]; });
    std::vector<std::string> texts;
    for (const std::size_t rule : rules)
        texts.push_back(fmt::format("{} {}", grouped(result.rejected[rule]), name_of(static_cast<Rule>(rule))));
    const std::string rejected = texts.empty() ? "none" : fmt::format("{}", fmt::join(texts, ", "));
    return fmt::format("{} within the ranges; rejected by: {}", grouped(result.examined), rejected);
}

std::string loosening_text(const SearchWish& wish, const Loosening& loosening) {
    std::string beyond;
    if (loosening.limit == Limit::tolerance)
        beyond = fmt::format(" (error {} ppm)", rough_text(loosening.row.error_ppm));
    else if (loosening.part)
        beyond = fmt::format(" ({:.3g} % beyond the limit)", *loosening.part * 100.0);
    return fmt::format("{}{} gives {}, with a ratio of {}.", what_is_loosened(loosening.limit), beyond,
                       teeth_text(wish, loosening.row), fraction_cell(loosening.row.ratio).shown);
}

std::string shifts_text(const SearchWish& wish, const SearchRow& row) {
    const std::vector<std::string> names = count_names(wish);
    std::vector<std::string> texts;
    for (std::size_t count = 0; count < row.shifts.size(); ++count)
        if (!row.shifts[count].is_zero())
            texts.push_back(fmt::format("{} {}{}", names[count], row.shifts[count].sign() > 0 ? "+" : "",
                                        rough_text(row.shifts[count])));
    return fmt::format("{}", fmt::join(texts, ", "));
}

std::string places_text(const SearchRow& row) {
    std::vector<std::string> carriers;
    for (const std::vector<Ratio>& places : row.places_deg) {
        std::vector<std::string> texts;
        for (const Ratio& place : places) texts.push_back(decimal_text(place, 3));
        carriers.push_back(fmt::format("{}", fmt::join(texts, ", ")));
    }
    return fmt::format("{}", fmt::join(carriers, "; "));
}

std::string qualities_text(const SearchWish& wish, const SearchRow& row) {
    std::string text = fmt::format("contact ratio {:.2f}; {}", row.contact_ratio,
                                   row.hunting ? "all meshes hunt" : "not all meshes hunt");
    if (has_copies(wish))
        text += fmt::format("; {} of {} copies come into mesh at once", row.balance.in_step, row.copies);
    if (!row.places_deg.empty())
        text += fmt::format("; copies at {} degrees, load residual {:.3f}", places_text(row), row.balance.residual);
    if (const std::string shifts = shifts_text(wish, row); !shifts.empty()) text += "; shifts: " + shifts;
    if (!row.cautions.empty()) text += fmt::format("; caution: {}", fmt::join(row.cautions, ", "));
    return text;
}

}  // namespace couplet
