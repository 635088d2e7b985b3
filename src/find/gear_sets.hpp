// Gear sets: every choice of gears for one side (driving or driven) of a train of pairs, by the product of their teeth.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "find/tooth_range.hpp"

namespace couplet {

inline constexpr std::size_t kMostGearsOfASide = 4;

struct GearSet {
    std::int64_t product = 1;
    std::array<std::int16_t, kMostGearsOfASide> teeth{};  // of as many as there are ranges

    friend bool operator==(const GearSet&, const GearSet&) = default;
};

// rising: the gears may stand in any order, so each choice is given once, its counts rising. as_given: each gear is in
// the range of its own.
enum class GearOrder { as_given, rising };

// A choice beyond this many is refused with std::length_error.
inline constexpr std::size_t kMostGearSets = std::size_t{1} << 24;

// By product, then by teeth. One to four ranges of up to 10,000 teeth; in rising order all ranges are the same.
[[nodiscard]] std::vector<GearSet> gear_sets(std::span<const ToothRange> ranges, GearOrder order);

// How many there would be.
[[nodiscard]] double gear_set_count(std::span<const ToothRange> ranges, GearOrder order);

}  // namespace couplet
