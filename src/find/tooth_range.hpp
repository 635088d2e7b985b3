// Tooth range: the counts that a gear may have, from fewest to most, both included.
#pragma once

#include <cstddef>

namespace couplet {

struct ToothRange {
    int fewest = 12;
    int most = 100;

    [[nodiscard]] bool contains(int teeth) const { return fewest <= teeth && teeth <= most; }
    [[nodiscard]] std::size_t size() const { return most < fewest ? 0 : static_cast<std::size_t>(most - fewest) + 1; }

    friend bool operator==(const ToothRange&, const ToothRange&) = default;
};

}  // namespace couplet
