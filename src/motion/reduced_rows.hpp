// Reduced rows: what an elimination leaves behind, ready to be evaluated (private to motion/).
//
// Rows in the order of their making, their terms in one pool, and the order in which they give the columns their
// values: provisional columns first, then `forward`, then `backward` from its end. `relations` have no unknown left.
#pragma once

#include <algorithm>
#include <cstdint>
#include <memory_resource>
#include <span>
#include <stdexcept>
#include <vector>

#include "exact/ratio.hpp"
#include "motion/elimination.hpp"

namespace couplet {

template <class Value>
using Pool = std::pmr::vector<Value>;

inline constexpr std::int32_t kNone = -1;

struct ReducedRow {
    std::int32_t begin = 0;
    std::int32_t length = 0;
    std::int32_t unknowns = 0;   // terms whose column is still unknown
    std::int32_t weight = 0;     // terms whose column is not known to be 0: what the row's value will cost
    std::int32_t large = kNone;  // where its coefficients are kept once they have left machine words
    std::int32_t coefficient_bits = 0;
    std::int32_t last_visit = 0;
    bool active = true;
};

// known: on the forward list, a driver, or provisional. zero: known, and known to be 0.
enum class ColumnState : std::uint8_t { unknown, known, zero, set_aside };

struct Pivot {
    std::int32_t row;
    std::int32_t column;
};

struct ReducedRows {
    explicit ReducedRows(std::pmr::memory_resource* memory)
        : rows(memory),
          terms(memory),
          states(memory),
          provisional(memory),
          forward(memory),
          backward(memory),
          relations(memory),
          combined(memory) {}

    std::int32_t unknown_columns = 0;
    Pool<ReducedRow> rows;
    Pool<Term> terms;
    std::vector<std::vector<Ratio>> large;
    Pool<ColumnState> states;
    Pool<std::int32_t> provisional;
    Pool<Pivot> forward;
    Pool<Pivot> backward;
    Pool<std::int32_t> relations;
    Pool<EliminationStep> combined;
    int steps_beyond_words = 0;

    [[nodiscard]] std::span<const Term> terms_of(const ReducedRow& row) const {
        return {terms.data() + row.begin, static_cast<std::size_t>(row.length)};
    }
    [[nodiscard]] const Term* find_term(const ReducedRow& row, std::int32_t column) const {
        const std::span<const Term> all = terms_of(row);
        if (all.size() <= 8) {
            for (const Term& term : all)
                if (term.column == column) return &term;
            return nullptr;
        }
        const auto found = std::ranges::lower_bound(all, column, {}, &Term::column);
        return found != all.end() && found->column == column ? &*found : nullptr;
    }
    // The term of a column that the row is known to contain.
    [[nodiscard]] const Term& term_at(const ReducedRow& row, std::int32_t column) const {
        const Term* term = find_term(row, column);
        if (term == nullptr) throw std::logic_error("a row of the elimination lacks its own pivot");
        return *term;
    }
    [[nodiscard]] Ratio coefficient(const ReducedRow& row, const Term& term) const {
        if (row.large == kNone) return term.coefficient;
        return large[static_cast<std::size_t>(row.large)][static_cast<std::size_t>(&term - (terms.data() + row.begin))];
    }
};

// Free columns get parameters as Solution says. Throws RatesTooLarge (motion.hpp).
[[nodiscard]] Solution values_of(const ReducedRows& reduced, std::size_t most_free);

}  // namespace couplet
