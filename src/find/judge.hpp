// Judge: whether one train of given counts keeps all rules, by the code that sizes, places and moves every train.
//
// Nothing is decided here: mesh_findings, assembly_of and solve decide. A caution is no failure, but for undercut.
// Where copies may stand at free angles, those that assembly_of finds misplaced are moved to the nearest place that it
// names.
#pragma once

#include <variant>

#include "find/search_result.hpp"
#include "find/search_wish.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

// The train of a row, with the wish's module, the row's shifts and one setting that holds and drives as the wish says.
[[nodiscard]] Train train_of(const SearchWish& wish, const SearchRow& row);

class Judge {
  public:
    // The wish must outlive the judge.
    explicit Judge(const SearchWish& wish);

    // The finished row, or the rule that is broken. Calls with the counts of the call before cost less. `ratio` is what
    // the closed form says: std::logic_error where the exact solver disagrees.
    [[nodiscard]] std::variant<SearchRow, Rule> judge(const std::vector<int>& counts, int copies, const Ratio& ratio);

    // Of an external gear without shift: with fewer teeth it is undercut. Found by bisection of the same
    // rule, at the first call.
    [[nodiscard]] int fewest_teeth_without_undercut();

  private:
    // What does not depend on the copies.
    struct Judged {
        SearchRow row;
        TrainTeeth teeth;
        std::optional<Rule> broken;
    };

    // The findings of the places; notes cautions and balance.
    [[nodiscard]] std::optional<Rule> judge_places(SearchRow& row) const;
    [[nodiscard]] Judged judge_teeth(const std::vector<int>& counts, int copies, const Ratio& ratio) const;
    void require_ratio(const Train& train, const Ratio& ratio) const;

    const SearchWish& wish_;
    const CountPlaces places_;
    Judged judged_;
    std::optional<int> fewest_teeth_;
};

}  // namespace couplet
