#include "motion/elimination.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <memory_resource>
#include <optional>
#include <tuple>

#include "motion/reduced_rows.hpp"

namespace couplet {

namespace {

// One entry of the list of rows that contain a column, or once did.
struct Link {
    std::int32_t row;
    std::int32_t next;
};

// Columns waiting to be eliminated, cheapest first and among equals oldest first: a queue for each class of cost, exact
// up to 15 and four to each doubling beyond, and in each a half for rows with large coefficients.
class Candidates {
  public:
    // The queues' ends are set when a queue is first used: most trains use two or three.
    explicit Candidates(std::pmr::memory_resource* memory) : entries_(memory) {}

    static std::int32_t class_of(std::int64_t cost, std::int32_t coefficient_bits) {
        constexpr std::int32_t kLargeBits = 32;
        const auto size = static_cast<std::uint64_t>(cost);
        const auto width = static_cast<std::int32_t>(std::bit_width(size));
        const std::int32_t step = width < 5 ? static_cast<std::int32_t>(size)
                                            : 4 * (width - 1) + static_cast<std::int32_t>((size >> (width - 3)) & 3);
        return 2 * step + (coefficient_bits >= kLargeBits ? 1 : 0);
    }

    void push(std::int32_t cost_class, std::int32_t column) {
        const auto at = static_cast<std::size_t>(cost_class);
        entries_.push_back({column, kNone});
        const auto added = static_cast<std::int32_t>(entries_.size()) - 1;
        std::uint64_t& waiting = waiting_[at / 64];
        const std::uint64_t bit = std::uint64_t{1} << (at % 64);
        ((waiting & bit) == 0 ? first_[at] : entries_[static_cast<std::size_t>(last_[at])].next) = added;
        last_[at] = added;
        waiting |= bit;
    }

    // The class and the column of the next candidate.
    std::optional<std::pair<std::int32_t, std::int32_t>> pop() {
        for (std::size_t word = 0; word < waiting_.size(); ++word) {
            if (waiting_[word] == 0) continue;
            const std::size_t at = word * 64 + static_cast<std::size_t>(std::countr_zero(waiting_[word]));
            const Entry& entry = entries_[static_cast<std::size_t>(first_[at])];
            if (entry.next == kNone) waiting_[word] &= waiting_[word] - 1;
            first_[at] = entry.next;
            return std::pair{static_cast<std::int32_t>(at), entry.column};
        }
        return std::nullopt;
    }

  private:
    static constexpr std::size_t kClasses = std::size_t{2} * 4 * 40;  // costs below 2^40
    struct Entry {
        std::int32_t column;
        std::int32_t next;
    };
    Pool<Entry> entries_;
    std::array<std::uint64_t, kClasses / 64> waiting_{};  // a bit for each queue that is not empty
    std::array<std::int32_t, kClasses> first_;            // of entries_; only where the queue is not empty
    std::array<std::int32_t, kClasses> last_;
};

std::int32_t bits_of(std::int64_t value) {
    return static_cast<std::int32_t>(std::bit_width(detail::word_magnitude(value)));
}

class Elimination {
  public:
    Elimination(const Rows& rows, std::int32_t known, std::pmr::memory_resource* memory);

    void run();
    [[nodiscard]] const ReducedRows& reduced() const { return reduced_; }

  private:
    [[nodiscard]] ColumnState& state(std::int32_t column) { return reduced_.states[static_cast<std::size_t>(column)]; }
    [[nodiscard]] bool is_unknown(std::int32_t column) const {
        return reduced_.states[static_cast<std::size_t>(column)] == ColumnState::unknown;
    }
    [[nodiscard]] ReducedRow& row(std::int32_t index) { return reduced_.rows[static_cast<std::size_t>(index)]; }
    [[nodiscard]] std::int32_t& row_count(std::int32_t column) { return row_counts_[static_cast<std::size_t>(column)]; }

    void link(std::int32_t row_index, std::int32_t column);
    template <class Visit>
    void each_active_row_of(std::int32_t column, Visit visit);
    void column_lost_row(std::int32_t column);
    void set_aside(std::int32_t row_index, std::int32_t column);
    void call_known(std::int32_t column, ColumnState known_or_zero);

    void take_short_row(std::int32_t row_index);
    void take_single_column(std::int32_t column);
    void offer(std::int32_t column);
    struct Cheapest {
        std::int32_t cost_class;
        std::int32_t row;
    };
    [[nodiscard]] Cheapest cheapest_row_of(std::int32_t column);
    [[nodiscard]] std::optional<Pivot> cheapest_pivot();
    void eliminate_column(Pivot pivot);
    [[nodiscard]] bool combine_words(std::int32_t target, std::int32_t source, std::int32_t column);
    void combine_large(std::int32_t target, std::int32_t source, std::int32_t column);
    void replace_terms(std::int32_t target, std::int32_t begin);

    ReducedRows reduced_;
    Pool<std::int32_t> first_link_;  // by column
    Pool<Link> links_;
    Pool<std::int32_t> row_counts_;  // active rows by column
    Pool<std::int32_t> short_rows_;
    Pool<std::int32_t> single_columns_;
    Candidates candidates_;
    std::int32_t visit_ = 0;
    bool offering_ = false;
};

Elimination::Elimination(const Rows& rows, std::int32_t known, std::pmr::memory_resource* memory)
    : reduced_(memory),
      first_link_(static_cast<std::size_t>(rows.columns), kNone, memory),
      links_(memory),
      row_counts_(static_cast<std::size_t>(rows.columns), 0, memory),
      short_rows_(memory),
      single_columns_(memory),
      candidates_(memory) {
    reduced_.unknown_columns = rows.columns - known;
    reduced_.rows.resize(rows.count());
    // Room for what elimination adds: growing in this memory would leave the old room behind.
    reduced_.terms.reserve(rows.terms.size() * 2);
    reduced_.terms.assign(rows.terms.begin(), rows.terms.end());
    reduced_.forward.reserve(static_cast<std::size_t>(reduced_.unknown_columns));
    reduced_.backward.reserve(static_cast<std::size_t>(reduced_.unknown_columns));
    reduced_.combined.reserve(rows.count());
    short_rows_.reserve(rows.count() * 2);
    reduced_.states.resize(static_cast<std::size_t>(rows.columns), ColumnState::unknown);
    std::fill(reduced_.states.begin() + reduced_.unknown_columns, reduced_.states.end(), ColumnState::known);
    links_.reserve(rows.terms.size() * 2);
    for (std::int32_t r = 0; r < static_cast<std::int32_t>(rows.count()); ++r) {
        ReducedRow& made = row(r);
        made.begin = rows.starts[static_cast<std::size_t>(r)];
        made.length = rows.starts[static_cast<std::size_t>(r) + 1] - made.begin;
        made.weight = made.length;
        for (const Term& term : reduced_.terms_of(made)) {
            made.coefficient_bits = std::max(made.coefficient_bits, bits_of(term.coefficient));
            if (!is_unknown(term.column)) continue;
            ++made.unknowns;
            link(r, term.column);
        }
        if (made.unknowns <= 1) short_rows_.push_back(r);
    }
    // From the end, since lists are taken from their ends: earlier rows and columns go first.
    std::ranges::reverse(short_rows_);
    for (std::int32_t c = reduced_.unknown_columns - 1; c >= 0; --c)
        if (row_count(c) == 1) single_columns_.push_back(c);
}

void Elimination::link(std::int32_t row_index, std::int32_t column) {
    std::int32_t& first = first_link_[static_cast<std::size_t>(column)];
    links_.push_back({row_index, first});
    first = static_cast<std::int32_t>(links_.size()) - 1;
    ++row_count(column);
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
        ReducedRow& candidate = row(row_index);
        if (candidate.active && candidate.last_visit != visit_ && reduced_.find_term(candidate, column) != nullptr) {
            candidate.last_visit = visit_;
            from = &current.next;
            visit(row_index);
        } else {
            *from = current.next;
        }
    }
}

void Elimination::column_lost_row(std::int32_t column) {
    const std::int32_t left = --row_count(column);
    if (left == 1) single_columns_.push_back(column);
    if (left > 1 && offering_) offer(column);
}

// Step 2's bookkeeping: the row waits for its other unknowns.
void Elimination::set_aside(std::int32_t row_index, std::int32_t column) {
    reduced_.backward.push_back({row_index, column});
    row(row_index).active = false;
    state(column) = ColumnState::set_aside;
    for (const Term& term : reduced_.terms_of(row(row_index)))
        if (is_unknown(term.column)) column_lost_row(term.column);
}

void Elimination::call_known(std::int32_t column, ColumnState known_or_zero) {
    state(column) = known_or_zero;
    each_active_row_of(column, [&](std::int32_t row_index) {
        ReducedRow& other = row(row_index);
        if (known_or_zero == ColumnState::zero) --other.weight;
        if (--other.unknowns <= 1) short_rows_.push_back(row_index);
    });
}

// Steps 1 and 4.
void Elimination::take_short_row(std::int32_t row_index) {
    ReducedRow& r = row(row_index);
    if (!r.active) return;
    r.active = false;
    if (r.unknowns == 0) {
        reduced_.relations.push_back(row_index);
        return;
    }
    std::int32_t unknown = kNone;
    bool zero = true;
    for (const Term& term : reduced_.terms_of(r)) {
        if (is_unknown(term.column)) unknown = term.column;
        if (state(term.column) == ColumnState::known) zero = false;
    }
    reduced_.forward.push_back({row_index, unknown});
    call_known(unknown, zero ? ColumnState::zero : ColumnState::known);
}

// Step 2.
void Elimination::take_single_column(std::int32_t column) {
    if (!is_unknown(column) || row_count(column) != 1) return;
    std::int32_t only = kNone;
    each_active_row_of(column, [&](std::int32_t row_index) { only = row_index; });
    if (only != kNone) set_aside(only, column);
}

// A column of many rows is offered at a bound below its cost: looking at all its rows each time one changes would be
// quadratic in the planets round a sun.
void Elimination::offer(std::int32_t column) {
    constexpr std::int32_t kFewRows = 4;
    const std::int32_t count = row_count(column);
    candidates_.push(count <= kFewRows ? cheapest_row_of(column).cost_class : Candidates::class_of(count - 1, 0),
                     column);
}

Elimination::Cheapest Elimination::cheapest_row_of(std::int32_t column) {
    std::int64_t count = 0;
    std::int32_t shortest = kNone;
    const auto key = [](const ReducedRow& r) { return std::tuple{r.unknowns, r.weight, r.coefficient_bits}; };
    each_active_row_of(column, [&](std::int32_t row_index) {
        ++count;
        if (shortest == kNone || key(row(row_index)) < key(row(shortest))) shortest = row_index;
    });
    if (shortest == kNone) return {0, kNone};
    const ReducedRow& r = row(shortest);
    return {Candidates::class_of((count - 1) * (r.unknowns - 1), r.coefficient_bits), shortest};
}

std::optional<Pivot> Elimination::cheapest_pivot() {
    if (!offering_) {
        offering_ = true;
        for (std::int32_t c = 0; c < reduced_.unknown_columns; ++c)
            if (is_unknown(c) && row_count(c) > 0) offer(c);
    }
    while (const auto candidate = candidates_.pop()) {
        const auto [offered, column] = *candidate;
        if (!is_unknown(column)) continue;
        const Cheapest now = cheapest_row_of(column);
        if (now.row == kNone) continue;
        if (now.cost_class <= offered) return Pivot{now.row, column};
        candidates_.push(now.cost_class, column);
    }
    return std::nullopt;
}

// Step 3.
void Elimination::eliminate_column(Pivot pivot) {
    Pool<std::int32_t> others(links_.get_allocator().resource());
    each_active_row_of(pivot.column, [&](std::int32_t other) {
        if (other != pivot.row) others.push_back(other);
    });
    for (const std::int32_t other : others) {
        reduced_.combined.push_back({EliminationStep::Kind::combine, other, pivot.row, pivot.column});
        if (combine_words(other, pivot.row, pivot.column)) continue;
        if (reduced_.provisional.size() < kMostProvisional) {
            // Rows combined so far only say the same without the column.
            reduced_.provisional.push_back(pivot.column);
            call_known(pivot.column, ColumnState::known);
            return;
        }
        ++reduced_.steps_beyond_words;
        combine_large(other, pivot.row, pivot.column);
    }
    set_aside(pivot.row, pivot.column);
}

// Walks two rows of terms by rising column: visit(column, term of a or null, term of b or null).
template <class Visit>
void merge_terms(std::span<const Term> a, std::span<const Term> b, Visit visit) {
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() || j < b.size()) {
        const bool take_a = j == b.size() || (i < a.size() && a[i].column <= b[j].column);
        const bool take_b = i == a.size() || (j < b.size() && b[j].column <= a[i].column);
        visit(take_a ? a[i].column : b[j].column, take_a ? &a[i] : nullptr, take_b ? &b[j] : nullptr);
        i += take_a ? 1 : 0;
        j += take_b ? 1 : 0;
    }
}

// False, and nothing changed, where a coefficient would leave its word.
bool Elimination::combine_words(std::int32_t target, std::int32_t source, std::int32_t column) {
    if (row(target).large != kNone || row(source).large != kNone) return false;
    const std::int64_t p = reduced_.term_at(row(source), column).coefficient;
    const std::int64_t a = reduced_.term_at(row(target), column).coefficient;
    const auto g = static_cast<std::int64_t>(detail::gcd_words(detail::word_magnitude(p), detail::word_magnitude(a)));
    const std::int64_t target_factor = p / g;
    const std::int64_t source_factor = -(a / g);

    Pool<Term>& terms = reduced_.terms;
    const auto begin = terms.size();
    terms.resize(begin + static_cast<std::size_t>(row(target).length + row(source).length));
    auto end = begin;
    std::uint64_t content = 0;
    bool overflow = false;
    merge_terms(reduced_.terms_of(row(target)), reduced_.terms_of(row(source)),
                [&](std::int32_t at, const Term* t, const Term* s) {
                    if (at == column || state(at) == ColumnState::zero) return;
                    std::int64_t left = 0;
                    std::int64_t right = 0;
                    std::int64_t sum = 0;
                    overflow |= t != nullptr && __builtin_mul_overflow(target_factor, t->coefficient, &left);
                    overflow |= s != nullptr && __builtin_mul_overflow(source_factor, s->coefficient, &right);
                    overflow |= __builtin_add_overflow(left, right, &sum) || sum == INT64_MIN;
                    if (sum == 0) return;
                    terms[end++] = {at, sum};
                    content = content == 1 ? 1 : detail::gcd_words(content, detail::word_magnitude(sum));
                });
    terms.resize(overflow ? begin : end);
    if (overflow) return false;

    std::int32_t bits = 0;
    for (std::size_t i = begin; i < end; ++i) {
        if (content > 1) terms[i].coefficient /= static_cast<std::int64_t>(content);
        bits = std::max(bits, bits_of(terms[i].coefficient));
    }
    row(target).coefficient_bits = bits;
    replace_terms(target, static_cast<std::int32_t>(begin));
    return true;
}

void Elimination::combine_large(std::int32_t target, std::int32_t source, std::int32_t column) {
    const auto coefficient = [&](std::int32_t r, const Term& term) { return reduced_.coefficient(row(r), term); };
    const Ratio factor = coefficient(target, reduced_.term_at(row(target), column)) /
                         coefficient(source, reduced_.term_at(row(source), column));
    const Ratio target_factor = factor.denominator();
    const Ratio source_factor = factor.numerator();
    std::vector<std::int32_t> columns;
    std::vector<Ratio> sums;
    Ratio content;
    merge_terms(reduced_.terms_of(row(target)), reduced_.terms_of(row(source)),
                [&](std::int32_t at, const Term* t, const Term* s) {
                    if (at == column || state(at) == ColumnState::zero) return;
                    Ratio sum = t != nullptr ? coefficient(target, *t) * target_factor : Ratio();
                    if (s != nullptr) sum -= coefficient(source, *s) * source_factor;
                    if (sum.is_zero()) return;
                    content = whole_gcd(content, sum);
                    columns.push_back(at);
                    sums.push_back(std::move(sum));
                });

    const auto begin = static_cast<std::int32_t>(reduced_.terms.size());
    std::size_t bits = 0;
    bool words = true;
    for (std::size_t i = 0; i < sums.size(); ++i) {
        sums[i] /= content;
        words = words && sums[i].is_small();
        bits = std::max(bits, sums[i].bits());
        reduced_.terms.push_back({columns[i], sums[i].is_small() ? sums[i].small_numerator() : 0});
    }
    ReducedRow& changed = row(target);
    changed.coefficient_bits = static_cast<std::int32_t>(bits);
    changed.large = words ? kNone : static_cast<std::int32_t>(reduced_.large.size());
    if (!words) reduced_.large.push_back(std::move(sums));
    replace_terms(target, begin);
}

// Makes the terms from `begin` to the end of the pool the target's, and keeps the counts and links true.
void Elimination::replace_terms(std::int32_t target, std::int32_t begin) {
    const ReducedRow before = row(target);
    ReducedRow& changed = row(target);
    changed.begin = begin;
    changed.length = static_cast<std::int32_t>(reduced_.terms.size()) - begin;
    changed.unknowns = 0;
    changed.weight = changed.length;
    merge_terms(reduced_.terms_of(before), reduced_.terms_of(changed),
                [&](std::int32_t column, const Term* was, const Term* is) {
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

}  // namespace

std::vector<EliminationStep> elimination_steps(const Rows& rows, std::int32_t known) {
    std::pmr::monotonic_buffer_resource memory;
    Elimination elimination(rows, known, &memory);
    elimination.run();
    const ReducedRows& reduced = elimination.reduced();
    if (!reduced.provisional.empty()) return {};
    std::vector<EliminationStep> steps(reduced.combined.begin(), reduced.combined.end());
    const auto give = [&](Pivot pivot) {
        steps.push_back({EliminationStep::Kind::give, kNone, pivot.row, pivot.column});
    };
    std::for_each(reduced.forward.begin(), reduced.forward.end(), give);
    std::for_each(reduced.backward.rbegin(), reduced.backward.rend(), give);
    return steps;
}

Solution eliminate(const Rows& rows, std::int32_t known, std::size_t most_free) {
    alignas(std::max_align_t) std::array<std::byte, 16384> first_memory;
    std::pmr::monotonic_buffer_resource memory(first_memory.data(), first_memory.size());
    Elimination elimination(rows, known, &memory);
    elimination.run();
    return values_of(elimination.reduced(), most_free);
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
