#include "support/flint_rates.hpp"

#include <flint/fmpq.h>
#include <flint/fmpq_mat.h>
#include <flint/fmpz_mat.h>

#include <algorithm>
#include <string>

namespace couplet {

namespace {

class IntegerMatrix {
  public:
    IntegerMatrix(const RateRows& rows, std::size_t columns) {
        fmpz_mat_init(value_, static_cast<slong>(rows.size()), static_cast<slong>(columns));
        for (std::size_t r = 0; r < rows.size(); ++r)
            for (const auto& [column, coefficient] : rows[r])
                fmpz_set_si(fmpz_mat_entry(value_, static_cast<slong>(r), static_cast<slong>(column)), coefficient);
    }
    ~IntegerMatrix() { fmpz_mat_clear(value_); }
    IntegerMatrix(const IntegerMatrix&) = delete;
    IntegerMatrix& operator=(const IntegerMatrix&) = delete;

    fmpz_mat_t value_;
};

class RationalMatrix {
  public:
    RationalMatrix(std::size_t rows, std::size_t columns) {
        fmpq_mat_init(value_, static_cast<slong>(rows), static_cast<slong>(columns));
    }
    ~RationalMatrix() { fmpq_mat_clear(value_); }
    RationalMatrix(const RationalMatrix&) = delete;
    RationalMatrix& operator=(const RationalMatrix&) = delete;

    [[nodiscard]] fmpq* at(std::size_t row, std::size_t column) {
        return fmpq_mat_entry(value_, static_cast<slong>(row), static_cast<slong>(column));
    }

    fmpq_mat_t value_;
};

void set(fmpq* target, const Ratio& value) {
    if (value.is_small()) {
        fmpq_set_si(target, value.small_numerator(), static_cast<ulong>(value.small_denominator()));
    } else {
        fmpq_set_str(target, value.to_string().c_str(), 10);
    }
}

Ratio whole_from(const fmpz* value) {
    if (fmpz_fits_si(value) != 0) return static_cast<std::int64_t>(fmpz_get_si(value));
    char* digits = fmpz_get_str(nullptr, 10, value);
    Ratio whole = Ratio::whole_from_digits(digits);
    flint_free(digits);
    return whole;
}

Ratio ratio_from(const fmpq* value) {
    return whole_from(fmpq_numref(value)) / whole_from(fmpq_denref(value));
}

// The columns of a reduced row that are not 0, among the first `columns`.
std::vector<std::size_t> columns_of(RationalMatrix& matrix, std::size_t row, std::size_t columns) {
    std::vector<std::size_t> found;
    for (std::size_t c = 0; c < columns; ++c)
        if (!fmpq_is_zero(matrix.at(row, c))) found.push_back(c);
    return found;
}

}  // namespace

std::size_t rank_by_flint(const RateRows& rows, std::size_t columns) {
    const IntegerMatrix matrix(rows, columns);
    return static_cast<std::size_t>(fmpz_mat_rank(matrix.value_));
}

FlintRates rates_by_flint(const RateRows& rows, const std::vector<std::vector<Ratio>>& right, std::size_t columns) {
    const std::size_t sides = right.empty() ? 0 : right.front().size();
    RationalMatrix matrix(rows.size(), columns + sides);
    for (std::size_t r = 0; r < rows.size(); ++r) {
        for (const auto& [column, coefficient] : rows[r]) fmpq_set_si(matrix.at(r, column), coefficient, 1);
        for (std::size_t side = 0; side < sides; ++side) set(matrix.at(r, columns + side), right[r][side]);
    }
    const auto rank = static_cast<std::size_t>(fmpq_mat_rref(matrix.value_, matrix.value_));
    FlintRates result;
    result.rates.resize(columns);
    for (std::size_t r = 0; r < rank; ++r) {
        const std::vector<std::size_t> unknowns = columns_of(matrix, r, columns);
        if (unknowns.empty()) result.consistent = false;
        if (unknowns.size() != 1) continue;
        std::vector<Ratio>& rate = result.rates[unknowns.front()].emplace();
        for (std::size_t side = 0; side < sides; ++side) rate.push_back(ratio_from(matrix.at(r, columns + side)));
    }
    return result;
}

Ratio product_by_flint(const std::vector<Ratio>& factors) {
    RationalMatrix product(1, 2);
    fmpq_one(product.at(0, 0));
    for (const Ratio& factor : factors) {
        set(product.at(0, 1), factor);
        fmpq_mul(product.at(0, 0), product.at(0, 0), product.at(0, 1));
    }
    return ratio_from(product.at(0, 0));
}

}  // namespace couplet
