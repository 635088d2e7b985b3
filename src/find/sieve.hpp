// Sieve: takes candidates, sorts them out by closed forms, has the rest judged and keeps the rows.
//
// A part of search.hpp, which gives the method. Each candidate stands for as many as there are numbers of copies.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "find/candidate.hpp"
#include "find/judge.hpp"

namespace couplet {

// Wider than a quotient of doubles rounds.
inline constexpr double kRounding = 1e-12;

// Where the target lies between, as doubles that lose nothing; what passes is compared exactly.
struct Window {
    double low = std::numeric_limits<double>::lowest();
    double high = std::numeric_limits<double>::max();

    [[nodiscard]] bool contains(double value) const { return low <= value && value <= high; }
    [[nodiscard]] bool contains(const ClosedRatio& ratio) const {
        return contains(static_cast<double>(ratio.numerator) / static_cast<double>(ratio.denominator));
    }
};

class Sieve {
  public:
    // The wish must outlive the sieve.
    explicit Sieve(const SearchWish& wish);

    [[nodiscard]] const Window& window() const { return window_; }
    [[nodiscard]] std::size_t rows() const { return result_.rows.size(); }

    // `describe` makes the candidate; it is called only where the ratio suits.
    template <class Describe>
    void take(const ClosedRatio& ratio, const Describe& describe) {
        result_.examined += copies_count_;
        if (!window_.contains(ratio))
            reject(Rule::ratio, copies_count_);
        else
            weigh(describe(), ratio);
    }

    // Candidates whose ratio cannot suit, without looking at each.
    void pass_over(std::int64_t candidates) {
        result_.examined += candidates * copies_count_;
        reject(Rule::ratio, candidates * copies_count_);
    }

    // Once, at the end.
    [[nodiscard]] SearchResult finish(SearchExtent extent);

  private:
    // One bit per number of copies.
    using CopiesSet = std::uint64_t;

    void reject(Rule rule, std::int64_t candidates) { result_.rejected[static_cast<std::size_t>(rule)] += candidates; }

    void weigh(const Candidate& candidate, const ClosedRatio& closed);
    // Takes the copies out that the rule does not let through.
    void keep(Rule rule, CopiesSet allowed, CopiesSet& copies);
    [[nodiscard]] bool is_room(const CopiesRoom& room, int copies) const;
    [[nodiscard]] bool is_undercut(const Candidate& candidate);
    [[nodiscard]] std::optional<Rule> broken_by_counts(const Candidate& candidate) const;
    [[nodiscard]] bool suits(const Ratio& ratio) const;
    [[nodiscard]] bool is_full() const { return !wish_.tolerance && result_.rows.size() >= wish_.most_nearest; }
    // Whether the row would be kept, before it is known to be sound.
    [[nodiscard]] bool is_wanted(const std::vector<int>& counts, int copies, const Ratio& ratio) const;
    void judge(const std::vector<int>& counts, int copies, const Ratio& ratio);
    void keep_nearest(SearchRow row);

    const SearchWish& wish_;
    const CountPlaces places_;
    const std::vector<ToothRange> ranges_;
    Judge judge_;
    SearchResult result_;
    Window window_;
    CopiesSet copies_ = 0;
    std::int64_t copies_count_ = 0;
    std::array<double, kMostSearchedCopies + 1> half_angle_sines_{};
};

}  // namespace couplet
