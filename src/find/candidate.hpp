// Candidate: one choice of tooth counts as the closed forms see it, before any train is made of it.
//
// Ratios are of the carrier method: with the carrier at rest, members turn in proportion to whole numbers k; held h,
// driver d and output o give the ratio (k_d - k_h) / (k_o - k_h), and the carrier's own k is 0. (Willis; any text on
// planetary gears. The solver confirms each row.) Lengths are in teeth: a pitch radius counts half its teeth, a tooth
// of unit addendum ends one beyond.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>

namespace couplet {

inline constexpr std::size_t kMostCounts = 8;

// Turns of the driver to turns of the output, as numerator and denominator; the denominator may be 0: no ratio.
struct ClosedRatio {
    std::int64_t numerator = 1;
    std::int64_t denominator = 1;
};

// Copies of a gear round an axis.
struct CopiesRoom {
    int centre_teeth;  // twice the centre distance
    int tip_teeth;     // the tip diameter
};

struct Candidate {
    std::array<int, kMostCounts> counts{};
    std::size_t size = 0;
    // Each must be a multiple of the copies (AssemblyCondition::sum); none where there are no copies.
    std::array<std::int64_t, 2> sums{};
    std::size_t sum_count = 0;
    std::array<CopiesRoom, 2> rooms{};
    std::size_t room_count = 0;
    // False: the axes are too far apart for their gears, whatever a shift adds.
    bool closes = true;

    void add_counts(std::initializer_list<int> more) {
        for (const int teeth : more) counts[size++] = teeth;
    }
    void add_sum(std::int64_t sum) { sums[sum_count++] = sum; }
    void add_room(int centre_teeth, int tip_teeth) { rooms[room_count++] = {centre_teeth, tip_teeth}; }
};

// k of sun, carrier and ring, and of the second ring of two.
using CentralRates = std::array<std::int64_t, 4>;

// Sun -1/S, ring 1/R of the planet's teeth, both times S R.
[[nodiscard]] constexpr CentralRates simple_rates(std::int64_t sun, std::int64_t ring) {
    return {-ring, 0, sun, 0};
}
// Sun -P1/S, ring P2/R.
[[nodiscard]] constexpr CentralRates stepped_rates(std::int64_t sun, std::int64_t first, std::int64_t second,
                                                   std::int64_t ring) {
    return {-first * ring, 0, second * sun, 0};
}
// The two planets turn against each other, so that sun and ring turn alike.
[[nodiscard]] constexpr CentralRates paired_rates(std::int64_t sun, std::int64_t ring) {
    return {ring, 0, sun, 0};
}
// Sun -P1/S, rings P1/R1 and P2/R2.
[[nodiscard]] constexpr CentralRates two_rings_rates(std::int64_t sun, std::int64_t first, std::int64_t held,
                                                     std::int64_t second, std::int64_t output) {
    return {-first * held * output, 0, first * sun * output, second * sun * held};
}

}  // namespace couplet
