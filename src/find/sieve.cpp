#include "find/sieve.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <numeric>
#include <stdexcept>

#include "find/search.hpp"

namespace couplet {

namespace {

using CopiesSet = std::uint64_t;

// Room that is none: touching tips collide, however their sizes round.
constexpr double kTouching_teeth = 1e-9;

Window window_of(const Ratio& target, const Ratio& error) {
    const double value = target.to_double();
    const double reach = std::abs(value) * (error.to_double() + kRounding);
    return {value - reach, value + reach};
}

CopiesSet bit_of(int copies) {
    return CopiesSet{1} << copies;
}

template <class Allows>
CopiesSet copies_that(CopiesSet among, const Allows& allows) {
    CopiesSet allowed = 0;
    for (CopiesSet left = among; left != 0; left &= left - 1) {
        const int copies = std::countr_zero(left);
        if (allows(copies)) allowed |= bit_of(copies);
    }
    return allowed;
}

}  // namespace

Sieve::Sieve(const SearchWish& wish)
    : wish_(wish), places_(count_places(wish)), ranges_(ranges_of(wish)), judge_(wish) {
    result_.target = wish.target;
    const bool has_copies = arrangement_forms()[static_cast<std::size_t>(wish.arrangement)].has_copies;
    const CopiesRange copies = has_copies ? wish.copies : CopiesRange{1, 1};
    for (int n = copies.fewest; n <= copies.most; ++n) copies_ |= bit_of(n);
    copies_count_ = std::popcount(copies_);
    for (int n = 1; n <= kMostSearchedCopies; ++n)
        half_angle_sines_[static_cast<std::size_t>(n)] = std::sin(std::numbers::pi / n);
    if (wish.tolerance) window_ = window_of(wish.target, *wish.tolerance);
}

SearchResult Sieve::finish(SearchExtent extent) {
    std::ranges::sort(result_.rows, comes_before);
    result_.extent = extent;
    return std::move(result_);
}

void Sieve::keep(Rule rule, CopiesSet allowed, CopiesSet& copies) {
    reject(rule, std::popcount(copies & ~allowed));
    copies &= allowed;
}

void Sieve::weigh(const Candidate& candidate, const ClosedRatio& closed) {
    const Ratio ratio(closed.numerator, closed.denominator);
    if (!suits(ratio)) return reject(Rule::ratio, copies_count_);
    if (const std::optional<Rule> broken = broken_by_counts(candidate)) return reject(*broken, copies_count_);
    CopiesSet copies = copies_;
    for (std::size_t s = 0; s < candidate.sum_count; ++s)
        keep(Rule::assembly, copies_that(copies, [&](int n) { return candidate.sums[s] % n == 0; }), copies);
    // A shift moves centres and tips: then the judge alone knows.
    if (wish_.shift == ShiftUse::none)
        for (std::size_t r = 0; r < candidate.room_count; ++r)
            keep(Rule::neighbour_clearance, copies_that(copies, [&](int n) { return is_room(candidate.rooms[r], n); }),
                 copies);
    if (!candidate.closes) return reject(Rule::centre_distance, std::popcount(copies));
    if (copies != 0 && is_undercut(candidate)) return reject(Rule::undercut, std::popcount(copies));
    const std::vector<int> counts(candidate.counts.begin(),
                                  candidate.counts.begin() + static_cast<std::ptrdiff_t>(candidate.size));
    for (; copies != 0; copies &= copies - 1) judge(counts, std::countr_zero(copies), ratio);
}

bool Sieve::is_room(const CopiesRoom& room, int copies) const {
    return copies == 1 ||
           room.centre_teeth * half_angle_sines_[static_cast<std::size_t>(copies)] > room.tip_teeth + kTouching_teeth;
}

bool Sieve::is_undercut(const Candidate& candidate) {
    if (wish_.shift == ShiftUse::allowed) return false;
    const int fewest = judge_.fewest_teeth_without_undercut();
    for (std::size_t count = 0; count < candidate.size; ++count)
        if (candidate.counts[count] < fewest && std::ranges::find(places_.rings, count) == places_.rings.end())
            return true;
    return false;
}

std::optional<Rule> Sieve::broken_by_counts(const Candidate& candidate) const {
    for (std::size_t count = 0; count < candidate.size; ++count)
        if (!ranges_[count].contains(candidate.counts[count])) return Rule::tooth_range;
    for (const std::size_t ring : places_.rings)
        if (wish_.largest_ring_diameter_mm &&
            (Ratio(candidate.counts[ring]) * wish_.module_mm).to_double() > *wish_.largest_ring_diameter_mm)
            return Rule::ring_diameter;
    if (wish_.hunting == HuntingUse::required)
        for (const auto& [one, other] : places_.meshes)
            if (std::gcd(candidate.counts[one], candidate.counts[other]) != 1) return Rule::hunting;
    return std::nullopt;
}

bool Sieve::suits(const Ratio& ratio) const {
    if (ratio.sign() != wish_.target.sign()) return false;
    const Ratio error = (ratio / wish_.target - Ratio(1)).magnitude();
    if (wish_.tolerance) return error <= *wish_.tolerance;
    return !is_full() || error * Ratio(1000000) <= result_.rows.back().error_ppm.magnitude();
}

bool Sieve::is_wanted(const std::vector<int>& counts, int copies, const Ratio& ratio) const {
    if (!is_full()) return true;
    SearchRow row;
    row.teeth = counts;
    row.copies = copies;
    row.error_ppm = (ratio / wish_.target - Ratio(1)) * Ratio(1000000);
    return comes_before(row, result_.rows.back());
}

void Sieve::judge(const std::vector<int>& counts, int copies, const Ratio& ratio) {
    if (!is_wanted(counts, copies, ratio)) return reject(Rule::ratio, 1);
    std::variant<SearchRow, Rule> judgement = judge_.judge(counts, copies, ratio);
    if (const Rule* broken = std::get_if<Rule>(&judgement)) return reject(*broken, 1);
    SearchRow& row = std::get<SearchRow>(judgement);
    if (wish_.tolerance) {
        if (rows() == kMostSearchRows) throw std::length_error("too many trains suit: narrow a range or tolerance");
        result_.rows.push_back(std::move(row));
    } else {
        keep_nearest(std::move(row));
    }
}

void Sieve::keep_nearest(SearchRow row) {
    result_.rows.insert(std::ranges::upper_bound(result_.rows, row, comes_before), std::move(row));
    if (rows() > wish_.most_nearest) {
        result_.rows.pop_back();
        reject(Rule::ratio, 1);
    }
    if (is_full()) window_ = window_of(wish_.target, result_.rows.back().error_ppm.magnitude() / Ratio(1000000));
}

}  // namespace couplet
