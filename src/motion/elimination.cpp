#include "motion/elimination.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <memory_resource>
#include <queue>
#include <tuple>

#include "motion/motion.hpp"

namespace couplet {

namespace {

template <class Value>
using Pool = std::pmr::vector<Value>;

constexpr std::int32_t kNone = -1;

// A row of the elimination: its terms in the term pool, by rising column.
struct Row {
    std::int32_t begin = 0;
    std::int32_t length = 0;
    std::int32_t unknowns = 0;   // terms whose column is still unknown
    std::int32_t weight = 0;     // terms whose column is not known to be 0: what the row's value will cost
    std::int32_t large = kNone;  // where its coefficients are kept once they have left machine words
    std::int32_t coefficient_bits = 0;
    std::int32_t last_visit = 0;
    bool active = true;
};

enum class ColumnState : std::uint8_t { unknown, known, zero, set_aside };

// One entry of the list of rows that contain a column, or once did.
struct Link {
    std::int32_t row;
    std::int32_t next;
};

struct Pivot {
    std::int32_t row;
    std::int32_t column;
};

struct Candidate {
    std::int64_t cost;
    std::int32_t age;
    std::int32_t column;

    friend bool operator>(const Candidate& a, const Candidate& b) {
        return a.cost != b.cost ? a.cost > b.cost : a.age > b.age;
    }
};

std::int32_t bits_of(std::int64_t value) {
    return static_cast<std::int32_t>(std::bit_width(detail::word_magnitude(value)));
}

class Elimination {
  public:
    Elimination(const Rows& rows, std::int32_t known, std::pmr::memory_resource* memory);

    void run();
    [[nodiscard]] Solution values(std::size_t most_free);
    [[nodiscard]] std::vector<EliminationStep> steps() const;

  private:
    [[nodiscard]] bool is_unknown(std::int32_t column) const {
        return states_[static_cast<std::size_t>(column)] == ColumnState::unknown;
    }
    [[nodiscard]] Row& row(std::int32_t index) { return rows_[static_cast<std::size_t>(index)]; }
    [[nodiscard]] const Row& row(std::int32_t index) const { return rows_[static_cast<std::size_t>(index)]; }
    [[nodiscard]] std::span<const Term> terms_of(const Row& r) const {
        return {terms_.data() + r.begin, static_cast<std::size_t>(r.length)};
    }
    [[nodiscard]] const Term* find_term(const Row& r, std::int32_t column) const;
    [[nodiscard]] Ratio coefficient(const Row& r, const Term& term) const;

    void link(std::int32_t row_index, std::int32_t column);
    template <class Visit>
    void each_active_row_of(std::int32_t column, Visit visit);
    void row_lost_unknown(std::int32_t row_index);
    void column_lost_row(std::int32_t column);
    void set_aside(std::int32_t row_index, std::int32_t column);

    void take_short_row(std::int32_t row_index);
    void take_single_column(std::int32_t column);
    void offer(std::int32_t column);
    [[nodiscard]] std::int64_t cost_of(std::int32_t column, std::int32_t* shortest_row);
    [[nodiscard]] std::optional<Pivot> cheapest_pivot();
    void eliminate_column(Pivot pivot);
    void combine(std::int32_t target, std::int32_t source, std::int32_t column);
    [[nodiscard]] bool combine_words(std::int32_t target, std::int32_t source, std::int32_t column);
    void combine_large(std::int32_t target, std::int32_t source, std::int32_t column);
    void replace_terms(std::int32_t target, std::int32_t begin);

    [[nodiscard]] Ratio share(const Row& r, const Term& term, const Term& pivot_term) const;
    void evaluate(Solution& solution, Pivot pivot) const;
    void evaluate_relation(Solution& solution, std::int32_t row_index) const;
    void charge(const Ratio& value) const;

    std::int32_t unknown_columns_;
    Pool<Row> rows_;
    Pool<Term> terms_;
    Pool<std::int32_t> first_link_;  // by column
    Pool<Link> links_;
    Pool<std::int32_t> row_counts_;  // active rows by column
    Pool<ColumnState> states_;
    Pool<std::int32_t> short_rows_;
    Pool<std::int32_t> single_columns_;
    Pool<Pivot> forward_;
    Pool<Pivot> backward_;
    Pool<std::int32_t> relations_;
    Pool<EliminationStep> combined_;
    std::priority_queue<Candidate, Pool<Candidate>, std::greater<>> candidates_;
    std::vector<std::vector<Ratio>> large_;
    std::int32_t next_age_ = 0;
    std::int32_t visit_ = 0;
    bool offering_ = false;
    int steps_beyond_words_ = 0;
    mutable std::size_t value_bytes_ = 0;
};

Elimination::Elimination(const Rows& rows, std::int32_t known, std::pmr::memory_resource* memory)
    : unknown_columns_(rows.columns - known),
      rows_(rows.count(), memory),
      terms_(rows.terms.begin(), rows.terms.end(), memory),
      first_link_(static_cast<std::size_t>(rows.columns), kNone, memory),
      links_(memory),
      row_counts_(static_cast<std::size_t>(rows.columns), 0, memory),
      states_(static_cast<std::size_t>(rows.columns), ColumnState::unknown, memory),
      short_rows_(memory),
      single_columns_(memory),
      forward_(memory),
      backward_(memory),
      relations_(memory),
      combined_(memory),
      candidates_(std::greater<>{}, Pool<Candidate>(memory)) {
    links_.reserve(rows.terms.size() * 2);
    std::fill(states_.begin() + unknown_columns_, states_.end(), ColumnState::known);
    for (std::int32_t r = 0; r < static_cast<std::int32_t>(rows.count()); ++r) {
        Row& made = row(r);
        made.begin = rows.starts[static_cast<std::size_t>(r)];
        made.length = rows.starts[static_cast<std::size_t>(r) + 1] - made.begin;
        for (const Term& term : terms_of(made)) {
            made.coefficient_bits = std::max(made.coefficient_bits, bits_of(term.coefficient));
            ++made.weight;
            if (!is_unknown(term.column)) continue;
            ++made.unknowns;
            link(r, term.column);
        }
        if (made.unknowns <= 1) short_rows_.push_back(r);
    }
    // From the end, since lists are taken from their ends: earlier rows and columns go first.
    std::ranges::reverse(short_rows_);
    for (std::int32_t c = unknown_columns_ - 1; c >= 0; --c)
        if (row_counts_[static_cast<std::size_t>(c)] == 1) single_columns_.push_back(c);
}

const Term* Elimination::find_term(const Row& r, std::int32_t column) const {
    const std::span<const Term> terms = terms_of(r);
    if (terms.size() <= 8) {
        for (const Term& term : terms)
            if (term.column == column) return &term;
        return nullptr;
    }
    const auto found = std::ranges::lower_bound(terms, column, {}, &Term::column);
    return found != terms.end() && found->column == column ? &*found : nullptr;
}

Ratio Elimination::coefficient(const Row& r, const Term& term) const {
    if (r.large == kNone) return term.coefficient;
    return large_[static_cast<std::size_t>(r.large)][static_cast<std::size_t>(&term - (terms_.data() + r.begin))];
}

void Elimination::link(std::int32_t row_index, std::int32_t column) {
    std::int32_t& first = first_link_[static_cast<std::size_t>(column)];
    links_.push_back({row_index, first});
    first = static_cast<std::int32_t>(links_.size()) - 1;
    ++row_counts_[static_cast<std::size_t>(column)];
}

// Visits each active row that contains the column once, and drops stale links on the way: of rows set aside, of rows
// that lost the column, and the older of two links of a row that lost the column and got it back.
template <class Visit>
void Elimination::each_active_row_of(std::int32_t column, Visit visit) {
    ++visit_;
    std::int32_t* from = &first_link_[static_cast<std::size_t>(column)];
    while (*from != kNone) {
        Link& current = links_[static_cast<std::size_t>(*from)];
        const std::int32_t row_index = current.row;
        Row& candidate = row(row_index);
        if (candidate.active && candidate.last_visit != visit_ && find_term(candidate, column) != nullptr) {
            candidate.last_visit = visit_;
            from = &current.next;
            visit(row_index);
        } else {
            *from = current.next;
        }
    }
}

void Elimination::row_lost_unknown(std::int32_t row_index) {
    if (--row(row_index).unknowns <= 1) short_rows_.push_back(row_index);
}

void Elimination::column_lost_row(std::int32_t column) {
    const std::int32_t left = --row_counts_[static_cast<std::size_t>(column)];
    if (left == 1) single_columns_.push_back(column);
    if (left > 1 && offering_) offer(column);
}

// Step 2's bookkeeping: the row waits for its other unknowns.
void Elimination::set_aside(std::int32_t row_index, std::int32_t column) {
    backward_.push_back({row_index, column});
    row(row_index).active = false;
    states_[static_cast<std::size_t>(column)] = ColumnState::set_aside;
    for (const Term& term : terms_of(row(row_index)))
        if (is_unknown(term.column)) column_lost_row(term.column);
}

// Steps 1 and 4.
void Elimination::take_short_row(std::int32_t row_index) {
    Row& r = row(row_index);
    if (!r.active) return;
    r.active = false;
    if (r.unknowns == 0) {
        relations_.push_back(row_index);
        return;
    }
    std::int32_t unknown = kNone;
    bool zero = true;
    for (const Term& term : terms_of(r)) {
        const ColumnState state = states_[static_cast<std::size_t>(term.column)];
        if (state == ColumnState::unknown) unknown = term.column;
        if (state == ColumnState::known) zero = false;
    }
    forward_.push_back({row_index, unknown});
    states_[static_cast<std::size_t>(unknown)] = zero ? ColumnState::zero : ColumnState::known;
    each_active_row_of(unknown, [&](std::int32_t other) {
        if (zero) --row(other).weight;
        row_lost_unknown(other);
    });
}

// Step 2.
void Elimination::take_single_column(std::int32_t column) {
    if (!is_unknown(column) || row_counts_[static_cast<std::size_t>(column)] != 1) return;
    std::int32_t only = kNone;
    each_active_row_of(column, [&](std::int32_t row_index) { only = row_index; });
    if (only != kNone) set_aside(only, column);
}

// A column of many rows is offered at a bound below its cost: looking at all its rows each time one changes would be
// quadratic in the planets round a sun.
void Elimination::offer(std::int32_t column) {
    const std::int64_t count = row_counts_[static_cast<std::size_t>(column)];
    std::int32_t shortest = kNone;
    candidates_.push({count <= 4 ? cost_of(column, &shortest) : (count - 1) << 20, next_age_++, column});
}

std::int64_t Elimination::cost_of(std::int32_t column, std::int32_t* shortest_row) {
    std::int64_t count = 0;
    each_active_row_of(column, [&](std::int32_t row_index) {
        ++count;
        const Row& r = row(row_index);
        const auto key = [&](const Row& x) { return std::tuple{x.unknowns, x.weight, x.coefficient_bits}; };
        if (*shortest_row == kNone || key(r) < key(row(*shortest_row))) *shortest_row = row_index;
    });
    if (count == 0) return 0;
    const Row& shortest = row(*shortest_row);
    return ((count - 1) * (shortest.unknowns - 1) << 20) + (shortest.coefficient_bits >> 3);
}

std::optional<Pivot> Elimination::cheapest_pivot() {
    if (!offering_) {
        offering_ = true;
        for (std::int32_t c = 0; c < unknown_columns_; ++c)
            if (is_unknown(c) && row_counts_[static_cast<std::size_t>(c)] > 0) offer(c);
    }
    while (!candidates_.empty()) {
        const Candidate candidate = candidates_.top();
        candidates_.pop();
        if (!is_unknown(candidate.column) || row_counts_[static_cast<std::size_t>(candidate.column)] == 0) continue;
        std::int32_t shortest = kNone;
        const std::int64_t cost = cost_of(candidate.column, &shortest);
        if (shortest == kNone) continue;
        if (cost <= candidate.cost) return Pivot{shortest, candidate.column};
        candidates_.push({cost, candidate.age, candidate.column});
    }
    return std::nullopt;
}

// Step 3.
void Elimination::eliminate_column(Pivot pivot) {
    std::pmr::vector<std::int32_t> others(rows_.get_allocator().resource());
    each_active_row_of(pivot.column, [&](std::int32_t other) {
        if (other != pivot.row) others.push_back(other);
    });
    for (const std::int32_t other : others) combine(other, pivot.row, pivot.column);
    set_aside(pivot.row, pivot.column);
}

void Elimination::combine(std::int32_t target, std::int32_t source, std::int32_t column) {
    combined_.push_back({EliminationStep::Kind::combine, target, source, column});
    const bool words = row(target).large == kNone && row(source).large == kNone;
    if (words && combine_words(target, source, column)) return;
    ++steps_beyond_words_;
    combine_large(target, source, column);
}

// Walks two rows of terms by rising column: visit(term of a or null, term of b or null).
template <class Visit>
void merge_terms(std::span<const Term> a, std::span<const Term> b, Visit visit) {
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() || j < b.size()) {
        const bool take_a = j == b.size() || (i < a.size() && a[i].column <= b[j].column);
        const bool take_b = i == a.size() || (j < b.size() && b[j].column <= a[i].column);
        visit(take_a ? &a[i] : nullptr, take_b ? &b[j] : nullptr);
        i += take_a ? 1 : 0;
        j += take_b ? 1 : 0;
    }
}

bool Elimination::combine_words(std::int32_t target, std::int32_t source, std::int32_t column) {
    const std::int64_t p = find_term(row(source), column)->coefficient;
    const std::int64_t a = find_term(row(target), column)->coefficient;
    const auto g = static_cast<std::int64_t>(detail::gcd_words(detail::word_magnitude(p), detail::word_magnitude(a)));
    const std::int64_t target_factor = p / g;
    const std::int64_t source_factor = -(a / g);

    const auto begin = terms_.size();
    terms_.resize(begin + static_cast<std::size_t>(row(target).length + row(source).length));
    auto end = begin;
    std::uint64_t content = 0;
    bool overflow = false;
    merge_terms(terms_of(row(target)), terms_of(row(source)), [&](const Term* t, const Term* s) {
        const std::int32_t at = t != nullptr ? t->column : s->column;
        if (at == column || states_[static_cast<std::size_t>(at)] == ColumnState::zero) return;
        std::int64_t left = 0;
        std::int64_t right = 0;
        std::int64_t sum = 0;
        overflow |= t != nullptr && __builtin_mul_overflow(target_factor, t->coefficient, &left);
        overflow |= s != nullptr && __builtin_mul_overflow(source_factor, s->coefficient, &right);
        overflow |= __builtin_add_overflow(left, right, &sum) || sum == INT64_MIN;
        if (sum == 0) return;
        terms_[end++] = {at, sum};
        content = content == 1 ? 1 : detail::gcd_words(content, detail::word_magnitude(sum));
    });
    terms_.resize(overflow ? begin : end);
    if (overflow) return false;

    std::int32_t bits = 0;
    for (std::size_t i = begin; i < end; ++i) {
        if (content > 1) terms_[i].coefficient /= static_cast<std::int64_t>(content);
        bits = std::max(bits, bits_of(terms_[i].coefficient));
    }
    row(target).coefficient_bits = bits;
    replace_terms(target, static_cast<std::int32_t>(begin));
    return true;
}

void Elimination::combine_large(std::int32_t target, std::int32_t source, std::int32_t column) {
    const Ratio p = coefficient(row(source), *find_term(row(source), column));
    const Ratio a = coefficient(row(target), *find_term(row(target), column));
    const Ratio factor = a / p;

    std::vector<std::int32_t> columns;
    std::vector<Ratio> sums;
    Ratio common_denominator = factor.denominator();
    Ratio content;
    merge_terms(terms_of(row(target)), terms_of(row(source)), [&](const Term* t, const Term* s) {
        const std::int32_t at = t != nullptr ? t->column : s->column;
        if (at == column || states_[static_cast<std::size_t>(at)] == ColumnState::zero) return;
        Ratio sum = t != nullptr ? coefficient(row(target), *t) * common_denominator : Ratio();
        if (s != nullptr) sum -= coefficient(row(source), *s) * factor.numerator();
        if (sum.is_zero()) return;
        content = whole_gcd(content, sum);
        columns.push_back(at);
        sums.push_back(std::move(sum));
    });

    const auto begin = static_cast<std::int32_t>(terms_.size());
    std::size_t bits = 0;
    bool words = true;
    for (std::size_t i = 0; i < sums.size(); ++i) {
        sums[i] /= content;
        words = words && sums[i].is_small();
        bits = std::max(bits, sums[i].bits());
        terms_.push_back({columns[i], sums[i].is_small() ? sums[i].small_numerator() : 0});
    }
    Row& changed = row(target);
    changed.coefficient_bits = static_cast<std::int32_t>(bits);
    changed.large = words ? kNone : static_cast<std::int32_t>(large_.size());
    if (!words) large_.push_back(std::move(sums));
    replace_terms(target, begin);
}

// Makes the terms from `begin` to the end of the pool the target's, and keeps the counts and links true.
void Elimination::replace_terms(std::int32_t target, std::int32_t begin) {
    const Row before = row(target);
    Row& changed = row(target);
    changed.begin = begin;
    changed.length = static_cast<std::int32_t>(terms_.size()) - begin;
    changed.unknowns = 0;
    changed.weight = changed.length;
    merge_terms(terms_of(before), terms_of(changed), [&](const Term* was, const Term* is) {
        const std::int32_t column = was != nullptr ? was->column : is->column;
        if (!is_unknown(column)) return;
        if (is != nullptr) ++changed.unknowns;
        if (was == nullptr) link(target, column);
        if (is == nullptr) column_lost_row(column);
    });
    if (changed.unknowns <= 1) short_rows_.push_back(target);
}

void Elimination::run() {
    while (true) {
        if (!short_rows_.empty()) {
            const std::int32_t next = short_rows_.back();
            short_rows_.pop_back();
            take_short_row(next);
        } else if (!single_columns_.empty()) {
            const std::int32_t next = single_columns_.back();
            single_columns_.pop_back();
            take_single_column(next);
        } else if (const std::optional<Pivot> pivot = cheapest_pivot()) {
            eliminate_column(*pivot);
        } else {
            return;
        }
    }
}

// sum += factor x addend, parameter by parameter.
void add_multiple(Ratio* sum, const Ratio* addend, const Ratio& factor, std::size_t width) {
    for (std::size_t i = 0; i < width; ++i) {
        if (addend[i].is_zero()) continue;
        sum[i] = sum[i].is_zero() ? factor * addend[i] : sum[i] + factor * addend[i];
    }
}

void Elimination::charge(const Ratio& value) const {
    if (value.is_small()) return;
    value_bytes_ += value.bits() / 8 + 64;
    if (value_bytes_ > kMostRateBytes)
        throw RatesTooLarge("the exact rates of this train would take more than 512 MiB; ask for a shorter train");
}

// What a term's column adds to the pivot's, per unit: -coefficient / p.
Ratio Elimination::share(const Row& r, const Term& term, const Term& pivot_term) const {
    if (r.large == kNone) return {-term.coefficient, pivot_term.coefficient};
    return -coefficient(r, term) / coefficient(r, pivot_term);
}

// Step 5: the column's value from its row, all other columns of which have theirs.
void Elimination::evaluate(Solution& solution, Pivot pivot) const {
    const Row& r = row(pivot.row);
    const std::size_t width = solution.parameters;
    Ratio* const value = solution.values.data() + static_cast<std::size_t>(pivot.column) * width;
    const Term& pivot_term = *find_term(r, pivot.column);
    for (const Term& term : terms_of(r)) {
        const auto column = static_cast<std::size_t>(term.column);
        if (term.column == pivot.column || states_[column] == ColumnState::zero) continue;
        if (term.column >= unknown_columns_) {
            value[term.column - unknown_columns_] += share(r, term, pivot_term);
            continue;
        }
        if (!solution.undetermined.empty() && solution.undetermined[column])
            solution.undetermined[static_cast<std::size_t>(pivot.column)] = true;
        add_multiple(value, solution.values.data() + column * width, share(r, term, pivot_term), width);
    }
    for (std::size_t i = 0; i < width; ++i) charge(value[i]);
}

void Elimination::evaluate_relation(Solution& solution, std::int32_t row_index) const {
    const Row& r = row(row_index);
    const std::size_t known = solution.parameters;
    std::vector<Ratio> sum(known);
    for (const Term& term : terms_of(r)) {
        const Ratio factor = coefficient(r, term);
        if (term.column >= unknown_columns_) {
            sum[static_cast<std::size_t>(term.column - unknown_columns_)] += factor;
            continue;
        }
        const Ratio* const other = solution.values.data() + static_cast<std::size_t>(term.column) * known;
        add_multiple(sum.data(), other, factor, known);
    }
    if (std::ranges::any_of(sum, [](const Ratio& value) { return !value.is_zero(); }))
        solution.relations.push_back(std::move(sum));
}

Solution Elimination::values(std::size_t most_free) {
    Solution solution;
    const auto known = static_cast<std::size_t>(static_cast<std::int32_t>(states_.size()) - unknown_columns_);
    for (std::int32_t c = 0; c < unknown_columns_; ++c)
        if (is_unknown(c)) solution.free_columns.push_back(c);
    const bool named = solution.free_columns.size() <= most_free;
    solution.parameters = known + (named ? solution.free_columns.size() : 0);
    solution.steps_beyond_words = steps_beyond_words_;
    const auto unknowns = static_cast<std::size_t>(unknown_columns_);
    if (unknowns * solution.parameters * sizeof(Ratio) > kMostRateBytes)
        throw RatesTooLarge("so many drivers on so many members would take more than 512 MiB; drive fewer members");
    solution.values.resize(unknowns * solution.parameters);
    if (!named) solution.undetermined.resize(unknowns);

    for (const Pivot& pivot : forward_) evaluate(solution, pivot);
    for (std::size_t i = 0; i < solution.free_columns.size(); ++i) {
        const auto column = static_cast<std::size_t>(solution.free_columns[i]);
        if (named) {
            solution.values[column * solution.parameters + known + i] = 1;
        } else {
            solution.undetermined[column] = true;
        }
    }
    for (auto pivot = backward_.rbegin(); pivot != backward_.rend(); ++pivot) evaluate(solution, *pivot);
    for (const std::int32_t relation : relations_) evaluate_relation(solution, relation);
    return solution;
}

std::vector<EliminationStep> Elimination::steps() const {
    std::vector<EliminationStep> steps(combined_.begin(), combined_.end());
    const auto give = [&](Pivot pivot) {
        steps.push_back({EliminationStep::Kind::give, kNone, pivot.row, pivot.column});
    };
    std::for_each(forward_.begin(), forward_.end(), give);
    std::for_each(backward_.rbegin(), backward_.rend(), give);
    return steps;
}

}  // namespace

std::vector<EliminationStep> elimination_steps(const Rows& rows, std::int32_t known) {
    std::pmr::monotonic_buffer_resource memory;
    Elimination elimination(rows, known, &memory);
    elimination.run();
    return elimination.steps();
}

Solution eliminate(const Rows& rows, std::int32_t known, std::size_t most_free) {
    alignas(std::max_align_t) std::array<std::byte, 16384> first_memory;
    std::pmr::monotonic_buffer_resource memory(first_memory.data(), first_memory.size());
    Elimination elimination(rows, known, &memory);
    elimination.run();
    return elimination.values(most_free);
}

std::optional<FourWords> null_vector(const std::array<FourWords, 3>& rows) {
    const FourWords& a = rows[0];
    const FourWords& b = rows[1];
    const FourWords& c = rows[2];
    // Six products of three factors below 2^19 each stay below 2^60.
    constexpr std::int64_t kMost = std::int64_t{1} << 19;
    std::int64_t outside = 0;
    for (std::size_t i = 0; i < 4; ++i)
        for (const std::int64_t entry : {a[i], b[i], c[i]})
            outside |= static_cast<std::int64_t>(entry > kMost || entry < -kMost);
    if (outside != 0) return std::nullopt;

    // The 2 x 2 minors of the first two rows, then each 3 x 3 minor along the third row.
    const auto two = [&](std::size_t i, std::size_t j) { return a[i] * b[j] - a[j] * b[i]; };
    const std::int64_t m01 = two(0, 1);
    const std::int64_t m02 = two(0, 2);
    const std::int64_t m03 = two(0, 3);
    const std::int64_t m12 = two(1, 2);
    const std::int64_t m13 = two(1, 3);
    const std::int64_t m23 = two(2, 3);
    const FourWords minors = {c[1] * m23 - c[2] * m13 + c[3] * m12, -(c[0] * m23 - c[2] * m03 + c[3] * m02),
                              c[0] * m13 - c[1] * m03 + c[3] * m01, -(c[0] * m12 - c[1] * m02 + c[2] * m01)};
    if (minors == FourWords{}) return std::nullopt;
    return minors;
}

}  // namespace couplet
