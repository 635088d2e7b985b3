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

// As a part of the target.
Ratio error_of(const SearchRow& row) {
    return row.error_ppm.magnitude() / Ratio(1000000);
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

Sieve::Sieve(const SearchWish& wish, const std::vector<SearchRow>* found, std::function<void()> breathe)
    : wish_(wish),
      breathe_(std::move(breathe)),
      found_(found),
      ends_at_found_(found != nullptr && !wish.tolerance && found->size() >= wish.most_nearest),
      places_(count_places(wish)),
      ranges_(ranges_of(wish)),
      judge_(wish) {
    result_.target = wish.target;
    const bool has_copies = form_of(wish.arrangement).has_copies;
    const CopiesRange copies = has_copies ? wish.copies : CopiesRange{1, 1};
    for (int n = copies.fewest; n <= copies.most; ++n) copies_ |= bit_of(n);
    copies_count_ = std::popcount(copies_);
    for (int n = 1; n <= kMostSearchedCopies; ++n)
        half_angle_sines_[static_cast<std::size_t>(n)] = std::sin(std::numbers::pi / n);
    if (wish.tolerance) window_ = window_of(wish.target, *wish.tolerance);
    if (ends_at_found_) window_ = window_of(wish.target, error_of(found_->back()));
}

SearchResult Sieve::finish() {
    return std::move(result_);
}

void Sieve::keep(Rule rule, CopiesSet allowed, CopiesSet& copies) {
    reject(rule, std::popcount(copies & ~allowed));
    copies &= allowed;
}

void Sieve::weigh(const Candidate& candidate, const ClosedRatio& closed) {
    const Ratio ratio(closed.numerator, closed.denominator);
    if (!suits(ratio)) return reject(Rule::ratio, copies_count_);
    const std::vector<int> counts(candidate.counts.begin(),
                                  candidate.counts.begin() + static_cast<std::ptrdiff_t>(candidate.size));
    CopiesSet copies = copies_;
    keep(Rule::ratio, wanted(counts, ratio, copies), copies);
    if (copies == 0) return;
    if (const std::optional<Rule> broken = broken_by_counts(candidate)) return reject(*broken, std::popcount(copies));
    keep(Rule::assembly, copies_that(copies, [&](int n) { return assembles(candidate, n); }), copies);
    // A shift moves centres and tips, free spacing the copies: then the judge alone knows.
    if (wish_.shift == ShiftUse::none && wish_.spacing == SpacingUse::equal)
        for (std::size_t r = 0; r < candidate.room_count; ++r)
            keep(Rule::neighbour_clearance, copies_that(copies, [&](int n) { return is_room(candidate.rooms[r], n); }),
                 copies);
    if (!candidate.closes) return reject(Rule::centre_distance, std::popcount(copies));
    if (copies != 0 && is_undercut(candidate)) return reject(Rule::undercut, std::popcount(copies));
    for (; copies != 0; copies &= copies - 1) judge(counts, std::countr_zero(copies), ratio);
}

// At free angles there are as many places as the sum says.
bool Sieve::assembles(const Candidate& candidate, int copies) const {
    return std::ranges::all_of(
        candidate.sums.begin(), candidate.sums.begin() + candidate.sum_count,
        [&](std::int64_t sum) { return wish_.spacing == SpacingUse::free ? copies <= sum : sum % copies == 0; });
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
    if (ends_at_found_) return error <= error_of(found_->back());
    return !is_full() || error <= error_of(result_.rows.back());
}

const SearchRow* Sieve::row_of(const SearchRow& sought) const {
    if (wish_.tolerance && found_ == nullptr) {
        const auto known = row_of_ratio_.find(sought.ratio);
        return known == row_of_ratio_.end() ? nullptr : &result_.rows[known->second];
    }
    const std::vector<SearchRow>& rows = found_ != nullptr ? *found_ : result_.rows;
    const auto error = [](const SearchRow& row) { return row.error_ppm.magnitude(); };
    for (auto row = std::ranges::lower_bound(rows, error(sought), {}, error);
         row != rows.end() && error(*row) == error(sought); ++row)
        if (row->ratio == sought.ratio) return &*row;
    return nullptr;
}

const SearchRow* Sieve::limit_for(const SearchRow& sought) const {
    if (wish_.rows == RowsUse::each_ratio)
        if (const SearchRow* row = row_of(sought)) return row;
    if (wish_.tolerance) return nullptr;
    if (ends_at_found_) return &found_->back();
    return is_full() ? &result_.rows.back() : nullptr;
}

CopiesSet Sieve::wanted(const std::vector<int>& counts, const Ratio& ratio, CopiesSet copies) const {
    SearchRow row;
    row.teeth = counts;
    row.ratio = ratio;
    row.error_ppm = error_in_ppm(ratio, wish_.target);
    const SearchRow* limit = limit_for(row);
    if (limit == nullptr) return copies;
    return copies_that(copies, [&](int n) {
        row.copies = n;
        return !comes_before(*limit, row);
    });
}

void Sieve::judge(const std::vector<int>& counts, int copies, const Ratio& ratio) {
    if (wanted(counts, ratio, bit_of(copies)) == 0) return reject(Rule::ratio, 1);
    work(kWorkOfJudging);
    std::variant<SearchRow, Rule> judgement = judge_.judge(counts, copies, ratio);
    if (const Rule* broken = std::get_if<Rule>(&judgement)) return reject(*broken, 1);
    keep_row(std::get<SearchRow>(std::move(judgement)));
}

void Sieve::keep_row(SearchRow row) {
    std::vector<SearchRow>& rows = result_.rows;
    if (found_ != nullptr) return rows.push_back(std::move(row));
    const bool one_of_ratio = wish_.rows == RowsUse::each_ratio;
    if (const SearchRow* known = one_of_ratio ? row_of(row) : nullptr; known != nullptr) {
        reject(Rule::ratio, 1);
        const auto at = rows.begin() + (known - rows.data());
        if (wish_.tolerance) {
            *at = std::move(row);
            return;
        }
        rows.erase(at);
    }
    if (wish_.tolerance) {
        if (rows.size() == kMostSearchRows)
            throw std::length_error("too many trains suit: narrow a range or the tolerance, or ask for the nearest");
        if (one_of_ratio) row_of_ratio_.emplace(row.ratio, rows.size());
        rows.push_back(std::move(row));
        return;
    }
    rows.insert(std::ranges::upper_bound(rows, row, comes_before), std::move(row));
    if (rows.size() > wish_.most_nearest) {
        rows.pop_back();
        reject(Rule::ratio, 1);
    }
    if (is_full()) window_ = window_of(wish_.target, error_of(rows.back()));
}

}  // namespace couplet
