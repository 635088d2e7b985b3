// Step 5 of elimination.hpp: values from reduced rows.

#include "motion/motion.hpp"
#include "motion/reduced_rows.hpp"

namespace couplet {

namespace {

// Counts what large values take, and refuses before the machine does.
class Budget {
  public:
    void charge(const Ratio& value) {
        if (value.is_small()) return;
        bytes_ += value.bits() / 8 + 64;
        if (bytes_ > kMostRateBytes)
            throw RatesTooLarge("the exact rates of this train would take more than 512 MiB; ask for a shorter train");
    }

  private:
    std::size_t bytes_ = 0;
};

// sum += factor x addend, parameter by parameter.
void add_multiple(Ratio* sum, const Ratio* addend, const Ratio& factor, std::size_t width) {
    for (std::size_t i = 0; i < width; ++i) {
        if (addend[i].is_zero()) continue;
        sum[i] = sum[i].is_zero() ? factor * addend[i] : sum[i] + factor * addend[i];
    }
}

// The counter's bits without order: the finalizer of splitmix64 (Steele, Lea, Flood, OOPSLA 2014, from memory).
std::uint64_t scrambled(std::uint64_t counter) {
    std::uint64_t z = counter * 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

// What provisional columns must be so that the relations hold: provisional column by provisional column, a combination
// of the known columns and of those provisional ones that stay free; and the relations left among the known ones.
struct Settlement {
    std::vector<std::vector<Ratio>> values;  // by provisional column: over known columns, then over provisional ones
    std::vector<bool> is_free;
    std::vector<std::vector<Ratio>> relations;  // over known columns
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
    [[nodiscard]] std::vector<Ratio> relation(std::int32_t row_index) {
        return sum_of(reduced_.rows[static_cast<std::size_t>(row_index)], kNone);
    }
    [[nodiscard]] std::size_t known() const { return known_; }

  private:
    void set_unit(std::size_t column, std::size_t parameter) {
        numerators_[column].resize(width_);
        numerators_[column][parameter] = 1;
    }
    const std::vector<Ratio>& up_to_date(std::size_t column) {
        for (; times_[column] < pivots_.size(); ++times_[column])
            for (Ratio& numerator : numerators_[column])
                if (!numerator.is_zero()) numerator *= pivots_[times_[column]];
        return numerators_[column];
    }
    std::vector<Ratio> sum_of(const ReducedRow& row, std::int32_t except) {
        std::vector<Ratio> sum(width_);
        for (const Term& term : reduced_.terms_of(row)) {
            const auto column = static_cast<std::size_t>(term.column);
            if (term.column == except || reduced_.states[column] == ColumnState::zero) continue;
            add_multiple(sum.data(), up_to_date(column).data(), reduced_.coefficient(row, term), width_);
        }
        return sum;
    }
    void take(Pivot pivot) {
        const auto column = static_cast<std::size_t>(pivot.column);
        if (reduced_.states[column] == ColumnState::zero) return;
        const ReducedRow& row = reduced_.rows[static_cast<std::size_t>(pivot.row)];
        std::vector<Ratio> sum = sum_of(row, pivot.column);
        for (const Ratio& numerator : sum) budget_.charge(numerator);
        // x = -sum / p, over the old denominator: so -sum over the new one.
        pivots_.push_back(reduced_.coefficient(row, reduced_.term_at(row, pivot.column)));
        for (Ratio& numerator : sum) numerator = -numerator;
        numerators_[column] = std::move(sum);
        times_[column] = pivots_.size();
    }

    const ReducedRows& reduced_;
    std::size_t known_;
    std::size_t width_;
    std::vector<std::vector<Ratio>> numerators_;  // by column
    std::vector<std::size_t> times_;              // by column: pivots that its numerators have been multiplied by
    std::vector<Ratio> pivots_;
    Budget budget_;
};

Settlement settle(const ReducedRows& reduced) {
    ForwardNumerators forward(reduced);
    const std::size_t known = forward.known();
    const std::size_t provisional = reduced.provisional.size();
    std::vector<std::vector<Ratio>> rows;
    for (const std::int32_t relation : reduced.relations) rows.push_back(forward.relation(relation));

    Settlement settlement{{}, std::vector<bool>(provisional, true), {}};
    settlement.values.assign(provisional, std::vector<Ratio>(known + provisional));
    std::vector<std::pair<std::size_t, std::vector<Ratio>>> solved;
    for (std::size_t p = 0; p < provisional; ++p) {
        const auto row = std::ranges::find_if(rows, [&](const auto& r) { return !r[known + p].is_zero(); });
        if (row == rows.end()) continue;
        std::vector<Ratio> chosen = std::move(*row);
        rows.erase(row);
        const Ratio scale = chosen[known + p].inverse();
        for (Ratio& value : chosen) value *= scale;
        const auto clear = [&](std::vector<Ratio>& other) {
            const Ratio factor = -other[known + p];
            if (!factor.is_zero()) add_multiple(other.data(), chosen.data(), factor, chosen.size());
        };
        std::ranges::for_each(rows, clear);
        for (auto& [column, other] : solved) clear(other);
        solved.emplace_back(p, std::move(chosen));
    }
    for (auto& [p, row] : solved) {
        settlement.is_free[p] = false;
        for (std::size_t i = 0; i < row.size(); ++i)
            if (i != known + p) settlement.values[p][i] = -row[i];
    }
    for (std::vector<Ratio>& row : rows) {
        row.resize(known);
        settlement.relations.push_back(std::move(row));
    }
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
    }

    Solution run() {
        give_parameters_to_free_columns();
        give_values_to_provisional_columns();
        for (const Pivot& pivot : reduced_.forward) take(pivot);
        for (auto pivot = reduced_.backward.rbegin(); pivot != reduced_.backward.rend(); ++pivot) take(*pivot);
        if (reduced_.provisional.empty()) {
            for (const std::int32_t relation : reduced_.relations) take_relation(relation);
        } else {
            for (std::vector<Ratio>& relation : settlement_.relations) keep_relation(std::move(relation));
        }
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
            const std::vector<Ratio>& settled = settlement_.values[p];
            std::copy_n(settled.begin(), known_, value);
            for (std::size_t other = 0; other < reduced_.provisional.size(); ++other)
                if (!settled[known_ + other].is_zero())
                    add_multiple(value, values_of_column(reduced_.provisional[other]), settled[known_ + other],
                                 solution_.parameters);
        }
    }

    // What a term's column adds to the pivot's, per unit: -coefficient / p.
    [[nodiscard]] Ratio share(const ReducedRow& row, const Term& term, const Term& pivot_term) const {
        if (row.large == kNone) return {-term.coefficient, pivot_term.coefficient};
        return -reduced_.coefficient(row, term) / reduced_.coefficient(row, pivot_term);
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
                value[term.column - reduced_.unknown_columns] += share(row, term, pivot_term);
            } else {
                add_multiple(value, values_of_column(term.column), share(row, term, pivot_term), width);
            }
        }
        for (std::size_t i = 0; i < width; ++i) budget_.charge(value[i]);
    }

    void take_relation(std::int32_t row_index) {
        const ReducedRow& row = reduced_.rows[static_cast<std::size_t>(row_index)];
        std::vector<Ratio> sum(known_);
        for (const Term& term : reduced_.terms_of(row)) {
            const Ratio factor = reduced_.coefficient(row, term);
            if (term.column >= reduced_.unknown_columns) {
                sum[static_cast<std::size_t>(term.column - reduced_.unknown_columns)] += factor;
            } else {
                add_multiple(sum.data(), values_of_column(term.column), factor, known_);
            }
        }
        keep_relation(std::move(sum));
    }

    void keep_relation(std::vector<Ratio> relation) {
        if (std::ranges::any_of(relation, [](const Ratio& value) { return !value.is_zero(); }))
            solution_.relations.push_back(std::move(relation));
    }

    const ReducedRows& reduced_;
    std::size_t known_;
    Settlement settlement_;
    Solution solution_;
    Budget budget_;
};

}  // namespace

Solution values_of(const ReducedRows& reduced, std::size_t most_free) {
    return Evaluation(reduced, most_free).run();
}

}  // namespace couplet
