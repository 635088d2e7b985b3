// Sieve: takes candidates, sorts them out by closed forms, has the rest judged and keeps the rows.
//
// A part of search.hpp, which gives the method. Each candidate stands for as many as there are numbers of copies.
//
// Where not every sound train is a row (the nearest ones are wanted, or one for each ratio), what is rejected depends
// on the order of candidates: less is known at first of what is before them. With the rows given that were found it
// does not.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <limits>
#include <map>
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
    // The wish, and the rows found before if there are any, must outlive the sieve. `breathe` is called a few times a
    // second while candidates are taken; what it throws leaves the sieve with the rows kept by then.
    explicit Sieve(const SearchWish& wish, const std::vector<SearchRow>* found = nullptr,
                   std::function<void()> breathe = {});

    [[nodiscard]] const Window& window() const { return window_; }
    [[nodiscard]] const std::vector<SearchRow>& rows() const { return result_.rows; }

    // `describe` makes the candidate; it is called only where the ratio suits.
    template <class Describe>
    void take(const ClosedRatio& ratio, const Describe& describe) {
        work(1);
        result_.examined += copies_count_;
        if (!window_.contains(ratio))
            reject(Rule::ratio, copies_count_);
        else
            weigh(describe(), ratio);
    }

    // Candidates that all break a rule, without looking at each.
    void pass_over(Rule rule, std::int64_t candidates) {
        work(1);
        result_.examined += candidates * copies_count_;
        reject(rule, candidates * copies_count_);
    }

    // Once, at the end. Rows are as they were met where a tolerance is given, else in their order.
    [[nodiscard]] SearchResult finish();

  private:
    // In steps of what one candidate costs that is sorted out by its ratio, about 10 ns.
    static constexpr std::int64_t kWorkOfJudging = std::int64_t{1} << 12;
    static constexpr std::int64_t kWorkPerBreath = std::int64_t{1} << 22;
    void work(std::int64_t more) {
        work_ += more;
        if (work_ < kWorkPerBreath) return;
        work_ = 0;
        if (breathe_) breathe_();
    }

    // One bit per number of copies.
    using CopiesSet = std::uint64_t;

    void reject(Rule rule, std::int64_t candidates) { result_.rejected[static_cast<std::size_t>(rule)] += candidates; }

    void weigh(const Candidate& candidate, const ClosedRatio& closed);
    // Takes the copies out that the rule does not let through.
    void keep(Rule rule, CopiesSet allowed, CopiesSet& copies);
    [[nodiscard]] bool is_room(const CopiesRoom& room, int copies) const;
    [[nodiscard]] bool is_undercut(const Candidate& candidate);
    [[nodiscard]] bool assembles(const Candidate& candidate, int copies) const;
    [[nodiscard]] std::optional<Rule> broken_by_counts(const Candidate& candidate) const;
    [[nodiscard]] bool suits(const Ratio& ratio) const;
    // The row of this ratio, if there is one already.
    [[nodiscard]] const SearchRow* row_of(const SearchRow& sought) const;
    // The row that one of this ratio has to come before, or be, to be wanted; null where any is.
    [[nodiscard]] const SearchRow* limit_for(const SearchRow& sought) const;
    [[nodiscard]] bool is_full() const { return !wish_.tolerance && result_.rows.size() >= wish_.most_nearest; }
    // The copies with which the row would be kept, before it is known to be sound.
    [[nodiscard]] CopiesSet wanted(const std::vector<int>& counts, const Ratio& ratio, CopiesSet copies) const;
    void judge(const std::vector<int>& counts, int copies, const Ratio& ratio);
    void keep_row(SearchRow row);

    const SearchWish& wish_;
    const std::function<void()> breathe_;
    std::int64_t work_ = 0;
    const std::vector<SearchRow>* found_;
    const bool ends_at_found_;  // the nearest rows were found, and no candidate behind them counts
    const CountPlaces places_;
    const std::vector<ToothRange> ranges_;
    Judge judge_;
    SearchResult result_;
    std::map<Ratio, std::size_t> row_of_ratio_;  // where each ratio has one row, and a tolerance is given
    Window window_;
    CopiesSet copies_ = 0;
    std::int64_t copies_count_ = 0;
    std::array<double, kMostSearchedCopies + 1> half_angle_sines_{};
};

}  // namespace couplet
