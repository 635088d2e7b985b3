// Elimination: exact solution of sparse homogeneous rows in whole numbers.
//
// INPUT     rows over `columns` columns; the last `known` of them are known quantities (drivers), the rest unknown.
// OUTPUT    every unknown as a combination of parameters: the known columns, then columns that the rows leave free;
//           and the relations that the rows impose on the known columns themselves.
// ALPHABET  r row, c column, p pivot coefficient, a coefficient to be eliminated, g the content of a row (gcd).
// METHOD    1  A row with one unknown left gives that unknown: put it on the forward list and call it known. Nothing
//              is multiplied: the row keeps its tooth counts, and numbers grow only when values are computed.
//           2  An unknown left in one row only is given by that row once the others are known: put it on the backward
//              list and set the row aside.
//           3  Where neither is left, eliminate one unknown: of the cheapest column (Markowitz: rows x terms that it
//              touches, then size of coefficients, then age) and its shortest row r, replace each other row s of the
//              column by (p s - a r) / g, and set r aside as in 2. Back to 1.
//              Ageing matters as much as size: it lets a chain of equal stages be taken apart stage by stage, so that
//              products of tooth counts never pile up in a row.
//              Where a row would leave machine words all the same, products have begun to pile up: call the column
//              provisionally known instead, and go on with 1. Its value follows at the end from a relation (4). Beyond
//              kMostProvisional such columns rows are let grow, in exact whole numbers of any size.
//           4  A row without unknowns is a relation among known columns. A column without rows is free.
//           5  Values: provisional columns from the relations, for which the forward list is evaluated over one common
//              denominator, without gcds; then forward list in order, then backward list from its end, each a sum over
//              its row in lowest terms. Two things keep gcds short: the denominator that provisional columns bring in
//              is left out until the end and then divided by once for all; and without it denominators are made of
//              pivots only, so that where these are products of small primes a sum shares no others with its own.
// COST      linear in the size of the rows for trains that are chains or trees of sets; the values themselves grow by
//           a few bits a stage, so that writing them all down is quadratic in the length of a chain, with the constant
//           of one machine word multiplication per 64 bits.
// (J. R. Bunch, D. J. Rose, eds., Sparse Matrix Computations, 1976, for 1 to 3; H. M. Markowitz, Management Science 3,
// 1957, 255-269, for the order.)
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "exact/ratio.hpp"
#include "motion/equations.hpp"

namespace couplet {

// One step of an elimination, so that it can be done again with other coefficients in the same places.
struct EliminationStep {
    // combine: row `target` lost the column by way of row `source`. give: `source` gives the column its value once
    // every other column has one; these steps stand in the order of evaluation. `target` is -1 there.
    enum class Kind { combine, give } kind;
    std::int32_t target;
    std::int32_t source;
    std::int32_t column;
};

// Where more columns are free than get parameters of their own, they share this many, each column with weights of its
// own, fixed 62-bit numbers without order: what depends on a free column and what does not, and whether two unknowns
// are multiples of one another, is still told, but for chances of one in 2^60.
inline constexpr std::size_t kSharedParameters = 2;
inline constexpr std::size_t kMostProvisional = 16;

struct Solution {
    // known columns, then free_parameters
    std::size_t parameters = 0;
    // One for each free column, or kSharedParameters.
    std::size_t free_parameters = 0;
    // Values of the unknowns: by column, then by parameter.
    std::vector<Ratio> values;
    // Unknown columns that no row decides.
    std::vector<std::int32_t> free_columns;
    // Sums over the known columns that the rows force to 0, each with its last nonzero coefficient 1 and that column in
    // no other; by that column.
    std::vector<std::vector<Ratio>> relations;
    // Rows that left machine words.
    int steps_beyond_words = 0;
};

// The steps of the same elimination: every combine, in order, then every give. Empty where a column was provisional.
[[nodiscard]] std::vector<EliminationStep> elimination_steps(const Rows& rows, std::int32_t known);

// Free columns get parameters of their own where there are at most `most_free` of them. Throws RatesTooLarge
// (motion.hpp).
[[nodiscard]] Solution eliminate(const Rows& rows, std::int32_t known, std::size_t most_free);

// The same for three rows in four unknowns, the size of every simple planetary set: the signed 3 x 3 minors (Cramer's
// rule), a vector that all rows send to 0. Nothing where the rows are dependent or a coefficient is beyond 2^19, for
// which the minors might leave 64 bits.
using FourWords = std::array<std::int64_t, 4>;
[[nodiscard]] std::optional<FourWords> null_vector(const std::array<FourWords, 3>& rows);

}  // namespace couplet
