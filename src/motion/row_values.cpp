// Step 5 of elimination.hpp: values from reduced rows.

#include <functional>
#include <numeric>
#include <optional>

#include "exact/smooth.hpp"
#include "motion/motion.hpp"
#include "motion/reduced_rows.hpp"

namespace couplet {

namespace {

// Counts what large values take, and refuses before the machine does.
class Budget {
  public:
    // A value that will be divided by the divisor.
    void charge(const Ratio& value, const Ratio& divisor = 1) {
        if (value.is_zero() || (value.is_small() && divisor.is_small())) return;
        bytes_ += (value.bits() + divisor.bits()) / 8 + 64;
        if (bytes_ > kMostRateBytes)
            throw RatesTooLarge("the exact rates of this train would take more than 512 MiB; ask for a shorter train");
    }

  private:
    std::size_t bytes_ = 0;
};

// sum += factor x addend, parameter by parameter.
template <class Plus = std::plus<Ratio>>
void add_multiple(Ratio* sum, const Ratio* addend, const Ratio& factor, std::size_t width, Plus plus = {}) {
    for (std::size_t i = 0; i < width; ++i) {
        if (addend[i].is_zero()) continue;
        sum[i] = sum[i].is_zero() ? factor * addend[i] : plus(sum[i], factor * addend[i]);
    }
}

// The counter's bits without order: the finalizer of splitmix64 (Steele, Lea, Flood, OOPSLA 2014, from memory).
std::uint64_t scrambled(std::uint64_t counter) {
    std::uint64_t z = counter * 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

using DenseRow = std::vector<Ratio>;

struct SolvedRow {
    std::size_t column;
    DenseRow row;
};

// Solves rows for the columns given, in that order, as far as they can be: a solved row has 1 in its column, and no
// other row has that column. Rows that were not needed stay in `rows`.
std::vector<SolvedRow> solve_for(const std::vector<std::size_t>& columns, std::vector<DenseRow>& rows) {
    std::vector<SolvedRow> solved;
    for (const std::size_t column : columns) {
        const auto pivot = std::ranges::find_if(rows, [&](const DenseRow& row) { return !row[column].is_zero(); });
        if (pivot == rows.end()) continue;
        DenseRow chosen = std::move(*pivot);
        rows.erase(pivot);
        const Ratio scale = chosen[column].inverse();
        for (Ratio& value : chosen) value *= scale;
        const auto clear = [&](DenseRow& other) {
            const Ratio factor = -other[column];
            if (!factor.is_zero()) add_multiple(other.data(), chosen.data(), factor, chosen.size());
        };
        std::ranges::for_each(rows, clear);
        std::ranges::for_each(solved, clear, &SolvedRow::row);
        solved.push_back({column, std::move(chosen)});
    }
    return solved;
}

// The columns from `first` up to but not including `end`.
std::vector<std::size_t> column_range(std::size_t first, std::size_t end) {
    std::vector<std::size_t> columns(end - first);
    std::iota(columns.begin(), columns.end(), first);
    return columns;
}

// What provisional columns must be so that the relations hold: provisional column by provisional column, a combination
// of the known columns and of those provisional ones that stay free; and the relations left among the known ones.
struct Settlement {
    std::vector<DenseRow> values;  // by provisional column: over known columns, then over provisional ones
    std::vector<bool> is_free;
    std::vector<DenseRow> relations;  // over known columns
};

// The forward columns over one common denominator that grows by each pivot, so that no gcd is taken: a column's whole
// numbers are brought up to date by the pivots since they were last used.
class ForwardNumerators {
  public:
    explicit ForwardNumerators(const ReducedRows& reduced)
        : reduced_(reduced),
          known_(static_cast<std::size_t>(static_cast<std::int32_t>(reduced.states.size()) - reduced.unknown_columns)),
          width_(known_ + reduced.provisional.size()),
          numerators_(reduced.states.size()),
          times_(reduced.states.size(), 0) {
        for (std::size_t i = 0; i < known_; ++i) set_unit(static_cast<std::size_t>(reduced.unknown_columns) + i, i);
        for (std::size_t i = 0; i < reduced.provisional.size(); ++i)
            set_unit(static_cast<std::size_t>(reduced.provisional[i]), known_ + i);
        for (const Pivot& pivot : reduced.forward) take(pivot);
    }

    // The row's sum, which must be 0: over known columns, then provisional ones.
    [[nodiscard]] DenseRow relation(std::int32_t row_index) {
        return sum_of(reduced_.rows[static_cast<std::size_t>(row_index)], kNone);
    }
    [[nodiscard]] std::size_t known() const { return known_; }

  private:
    void set_unit(std::size_t column, std::size_t parameter) {
        numerators_[column].resize(width_);
        numerators_[column][parameter] = 1;
    }
    const DenseRow& up_to_date(std::size_t column) {
        while (times_[column] < pivots_.size()) {
            const Ratio factor = next_factor(times_[column]);
            for (Ratio& numerator : numerators_[column])
                if (!numerator.is_zero()) numerator *= factor;
        }
        return numerators_[column];
    }
    // The product of the pivots from `time` on, as many as it has room for in a word, but at least one.
    Ratio next_factor(std::size_t& time) const {
        std::int64_t product = 1;
        std::int64_t longer = 1;
        const std::size_t first = time;
        while (time < pivots_.size() && pivots_[time].is_small() &&
               !__builtin_mul_overflow(product, pivots_[time].small_numerator(), &longer)) {
            product = longer;
            ++time;
        }
        return time == first ? pivots_[time++] : product;
    }
    // What the row's other terms come to on the other side of the equation.
    DenseRow sum_of(const ReducedRow& row, std::int32_t except) {
        DenseRow sum(width_);
        for (const Term& term : reduced_.terms_of(row)) {
            const auto column = static_cast<std::size_t>(term.column);
            if (term.column == except || reduced_.states[column] == ColumnState::zero) continue;
            add_multiple(sum.data(), up_to_date(column).data(), -reduced_.coefficient(row, term), width_);
        }
        return sum;
    }
    void take(Pivot pivot) {
        const auto column = static_cast<std::size_t>(pivot.column);
        if (reduced_.states[column] == ColumnState::zero) return;
        const ReducedRow& row = reduced_.rows[static_cast<std::size_t>(pivot.row)];
        // x = sum / p, over the old denominator: so sum over the new one.
        DenseRow sum = sum_of(row, pivot.column);
        for (const Ratio& numerator : sum) budget_.charge(numerator);
        pivots_.push_back(reduced_.coefficient(row, reduced_.term_at(row, pivot.column)));
        numerators_[column] = std::move(sum);
        times_[column] = pivots_.size();
    }

    const ReducedRows& reduced_;
    std::size_t known_;
    std::size_t width_;
    std::vector<DenseRow> numerators_;  // by column
    std::vector<std::size_t> times_;    // by column: pivots that its numerators have been multiplied by
    std::vector<Ratio> pivots_;
    Budget budget_;
};

Settlement settle(const ReducedRows& reduced) {
    ForwardNumerators forward(reduced);
    const std::size_t known = forward.known();
    const std::size_t provisional = reduced.provisional.size();
    std::vector<DenseRow> rows;
    for (const std::int32_t relation : reduced.relations) rows.push_back(forward.relation(relation));

    Settlement settlement{{}, std::vector<bool>(provisional, true), {}};
    settlement.values.assign(provisional, DenseRow(known + provisional));
    for (const auto& [column, row] : solve_for(column_range(known, known + provisional), rows)) {
        settlement.is_free[column - known] = false;
        for (std::size_t i = 0; i < row.size(); ++i)
            if (i != column) settlement.values[column - known][i] = -row[i];
    }
    for (DenseRow& row : rows) row.resize(known);
    settlement.relations = std::move(rows);
    return settlement;
}

class Evaluation {
  public:
    Evaluation(const ReducedRows& reduced, std::size_t most_free)
        : reduced_(reduced),
          known_(static_cast<std::size_t>(static_cast<std::int32_t>(reduced.states.size()) - reduced.unknown_columns)) {
        if (!reduced.provisional.empty()) settlement_ = settle(reduced);
        for (std::int32_t c = 0; c < reduced.unknown_columns; ++c)
            if (reduced.states[static_cast<std::size_t>(c)] == ColumnState::unknown)
                solution_.free_columns.push_back(c);
        for (std::size_t i = 0; i < reduced.provisional.size(); ++i)
            if (settlement_.is_free[i]) solution_.free_columns.push_back(reduced.provisional[i]);
        std::ranges::sort(solution_.free_columns);
        const std::size_t free = solution_.free_columns.size();
        solution_.free_parameters = free <= most_free ? free : kSharedParameters;
        solution_.parameters = known_ + solution_.free_parameters;
        solution_.steps_beyond_words = reduced.steps_beyond_words;
        const auto unknowns = static_cast<std::size_t>(reduced.unknown_columns);
        if (unknowns * solution_.parameters * sizeof(Ratio) > kMostRateBytes)
            throw RatesTooLarge("so many drivers on so many members would take more than 512 MiB; drive fewer members");
        solution_.values.resize(unknowns * solution_.parameters);
        units_.assign(solution_.parameters, 1);
    }

    Solution run() {
        give_parameters_to_free_columns();
        give_values_to_provisional_columns();
        if (!reduced_.provisional.empty()) choose_units();
        for (const Pivot& pivot : reduced_.forward) take(pivot);
        for (auto pivot = reduced_.backward.rbegin(); pivot != reduced_.backward.rend(); ++pivot) take(*pivot);
        divide_by_units();
        std::vector<DenseRow> relations = std::move(settlement_.relations);
        if (reduced_.provisional.empty())
            for (const std::int32_t row : reduced_.relations) relations.push_back(relation(row));
        keep_relations(std::move(relations));
        return std::move(solution_);
    }

  private:
    [[nodiscard]] Ratio* values_of_column(std::int32_t column) {
        return solution_.values.data() + static_cast<std::size_t>(column) * solution_.parameters;
    }

    void give_parameters_to_free_columns() {
        const bool share = solution_.free_parameters != solution_.free_columns.size();
        std::uint64_t weight = 0;
        for (std::size_t i = 0; i < solution_.free_columns.size(); ++i) {
            Ratio* const value = values_of_column(solution_.free_columns[i]) + known_;
            if (!share) value[i] = 1;
            for (std::size_t k = 0; share && k < kSharedParameters; ++k)
                value[k] = static_cast<std::int64_t>(scrambled(++weight) >> 2 | 1);
        }
    }

    void give_values_to_provisional_columns() {
        for (std::size_t p = 0; p < reduced_.provisional.size(); ++p) {
            if (settlement_.is_free[p]) continue;
            Ratio* const value = values_of_column(reduced_.provisional[p]);
            const DenseRow& settled = settlement_.values[p];
            std::copy_n(settled.begin(), known_, value);
            for (std::size_t other = 0; other < reduced_.provisional.size(); ++other)
                if (!settled[known_ + other].is_zero())
                    add_multiple(value, values_of_column(reduced_.provisional[other]), settled[known_ + other],
                                 solution_.parameters);
        }
    }

    // The settled values share large denominators, and so would all that is worked out from them: leave those out and
    // divide by them once, at the end.
    void choose_units() {
        for (std::size_t i = 0; i < units_.size(); ++i) {
            for (const std::int32_t column : reduced_.provisional) {
                const Ratio denominator = values_of_column(column)[i].denominator();
                units_[i] *= denominator / whole_gcd(units_[i], denominator);
            }
        }
        const auto scale = [this](std::int32_t column) {
            for (std::size_t i = 0; i < units_.size(); ++i) values_of_column(column)[i] *= units_[i];
        };
        for (std::size_t p = 0; p < reduced_.provisional.size(); ++p)
            if (!settlement_.is_free[p]) scale(reduced_.provisional[p]);
        std::ranges::for_each(solution_.free_columns, scale);
    }

    void divide_by_units() {
        for (std::size_t i = 0; i < units_.size(); ++i) {
            if (units_[i] == 1) continue;
            std::vector<Ratio*> values;
            for (std::size_t at = i; at < solution_.values.size(); at += units_.size())
                values.push_back(&solution_.values[at]);
            divide_each(values, units_[i]);
        }
    }

    // What a term's column adds to the pivot's, per unit: -coefficient / p.
    [[nodiscard]] Ratio share(const ReducedRow& row, const Term& term, const Term& pivot_term) const {
        if (row.large == kNone) return {-term.coefficient, pivot_term.coefficient};
        return -reduced_.coefficient(row, term) / reduced_.coefficient(row, pivot_term);
    }

    [[nodiscard]] Ratio plus(const Ratio& a, const Ratio& b) {
        constexpr std::size_t kLargeBits = 384;
        const bool large = a.bits() > kLargeBits && b.bits() > kLargeBits;
        return large && denominators_are_smooth() ? smooth_sum(a, b) : a + b;
    }

    // Denominators are made of the pivots alone, since units leave out those of provisional columns.
    [[nodiscard]] bool denominators_are_smooth() {
        const auto smooth = [this](Pivot pivot) {
            const ReducedRow& row = reduced_.rows[static_cast<std::size_t>(pivot.row)];
            return row.large == kNone &&
                   is_smooth(detail::word_magnitude(reduced_.term_at(row, pivot.column).coefficient));
        };
        if (!smooth_)
            smooth_ = std::ranges::all_of(reduced_.forward, smooth) && std::ranges::all_of(reduced_.backward, smooth);
        return *smooth_;
    }

    // The column's value from its row, all other columns of which have theirs.
    void take(Pivot pivot) {
        if (reduced_.states[static_cast<std::size_t>(pivot.column)] == ColumnState::zero) return;
        const ReducedRow& row = reduced_.rows[static_cast<std::size_t>(pivot.row)];
        const std::size_t width = solution_.parameters;
        Ratio* const value = values_of_column(pivot.column);
        const Term& pivot_term = reduced_.term_at(row, pivot.column);
        for (const Term& term : reduced_.terms_of(row)) {
            const auto column = static_cast<std::size_t>(term.column);
            if (term.column == pivot.column || reduced_.states[column] == ColumnState::zero) continue;
            if (term.column >= reduced_.unknown_columns) {
                const auto known = static_cast<std::size_t>(term.column - reduced_.unknown_columns);
                value[known] += share(row, term, pivot_term) * units_[known];
            } else {
                add_multiple(value, values_of_column(term.column), share(row, term, pivot_term), width,
                             [this](const Ratio& a, const Ratio& b) { return plus(a, b); });
            }
        }
        for (std::size_t i = 0; i < width; ++i) budget_.charge(value[i], units_[i]);
    }

    [[nodiscard]] DenseRow relation(std::int32_t row_index) {
        const ReducedRow& row = reduced_.rows[static_cast<std::size_t>(row_index)];
        DenseRow sum(known_);
        for (const Term& term : reduced_.terms_of(row)) {
            const Ratio factor = reduced_.coefficient(row, term);
            if (term.column >= reduced_.unknown_columns) {
                sum[static_cast<std::size_t>(term.column - reduced_.unknown_columns)] += factor;
            } else {
                add_multiple(sum.data(), values_of_column(term.column), factor, known_);
            }
        }
        return sum;
    }

    // Later known columns are told by earlier ones.
    void keep_relations(std::vector<DenseRow> relations) {
        if (relations.empty()) return;
        std::vector<std::size_t> columns = column_range(0, known_);
        std::ranges::reverse(columns);
        for (SolvedRow& solved : solve_for(columns, relations)) solution_.relations.push_back(std::move(solved.row));
        std::ranges::reverse(solution_.relations);
    }

    const ReducedRows& reduced_;
    std::size_t known_;
    Settlement settlement_;
    Solution solution_;
    std::vector<Ratio> units_;  // by parameter: what each value still is to be divided by
    Budget budget_;
    std::optional<bool> smooth_;  // once asked for
};

}  // namespace

Solution values_of(const ReducedRows& reduced, std::size_t most_free) {
    return Evaluation(reduced, most_free).run();
}

}  // namespace couplet
