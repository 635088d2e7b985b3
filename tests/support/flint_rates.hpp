// FLINT rates: ranks and solutions of rate rows by a general-purpose exact library (FLINT's fmpz_mat and fmpq_mat).
#pragma once

#include <optional>
#include <vector>

#include "exact/ratio.hpp"
#include "support/equations.hpp"

namespace couplet {

[[nodiscard]] std::size_t rank_by_flint(const RateRows& rows, std::size_t columns);

// What rows x q = right says of each q, by fmpq_mat_rref.
struct FlintRates {
    // False where no q satisfies it.
    bool consistent = true;
    // By column of the rows, then by column of `right`; nothing where q is not determined.
    std::vector<std::optional<std::vector<Ratio>>> rates;
};

// `right` holds one row of right-hand sides per row, all of one length.
[[nodiscard]] FlintRates rates_by_flint(const RateRows& rows, const std::vector<std::vector<Ratio>>& right,
                                        std::size_t columns);

// A product of many fractions, by fmpq.
[[nodiscard]] Ratio product_by_flint(const std::vector<Ratio>& factors);

}  // namespace couplet
