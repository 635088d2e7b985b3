// Index: a position in one particular list of a train.
//
// Each list has an index type of its own, so that a gear's number cannot be used where a member's is meant. A plain
// value; -1 means nothing unless the list says otherwise (kFrame among members).
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>

namespace couplet {

template <class List>
struct Index {
    std::int32_t value = -1;

    [[nodiscard]] constexpr std::size_t position() const noexcept { return static_cast<std::size_t>(value); }
    friend constexpr auto operator<=>(const Index&, const Index&) = default;
};

}  // namespace couplet
