// Equations: a train and a setting as sparse rows over joint rates.
//
// Each row is a homogeneous linear equation, sum of coefficient x column = 0, in whole numbers. Columns: the members'
// joint rates in the order of the train, then one known column per driver, its speed. A kind of row for each kind of
// constraint; the solution (elimination.hpp) knows nothing of gears, so a new kind of mesh or joint is a new function
// here:
//     mesh, external    N_A w_A/c + N_B w_B/c = 0        c: the arm of the mesh, w_m/c: the rate of m against c
//     mesh, internal    N_A w_A/c - N_B w_B/c = 0
//     hold m            w_m/frame = 0
//     tie a, b          w_a/frame - w_b/frame = 0
//     drive m           w_m/frame - p = 0                p: the driver's column
// (R. Willis, Principles of Mechanism, 1841, for the mesh rows: rates against the arm are those of a fixed train.)
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "train/train.hpp"

namespace couplet {

struct Term {
    std::int32_t column;
    std::int64_t coefficient;
};

// Rows one after the other; row r is terms[starts[r]] up to terms[starts[r + 1]], by rising column, no column twice.
struct Rows {
    std::int32_t columns = 0;
    std::vector<std::int32_t> starts{0};
    std::vector<Term> terms;

    [[nodiscard]] std::size_t count() const { return starts.size() - 1; }
    [[nodiscard]] std::span<const Term> operator[](std::size_t row) const {
        return {terms.data() + starts[row], terms.data() + starts[row + 1]};
    }
    // Adds coefficient x column to the row that is being written, in any order and more than once for a column.
    void add(std::int32_t column, std::int64_t coefficient) { terms.push_back({column, coefficient}); }
    void end_row();
};

// The rows of the meshes, then of the holds, ties and drivers of the setting, each in its order. Throws what
// solve (motion.hpp) says.
[[nodiscard]] Rows equations(const Train& train, const Setting& setting);

}  // namespace couplet
