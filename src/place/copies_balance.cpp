#include "place/copies_balance.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace couplet {

namespace {

// What is left of unit vectors that cancel exactly.
constexpr double kRounding = 1e-12;

// Of a pitch: places are written as decimals.
bool alike(const Ratio& one, const Ratio& other) {
    constexpr double kAlike = 1e-9;
    const double apart = (one - other).fraction().to_double();
    return std::min(apart, 1.0 - apart) < kAlike;
}

}  // namespace

CopiesBalance balance_of(std::span<const Ratio> places_turns, int central_teeth) {
    CopiesBalance balance;
    std::complex<double> sum = 0.0;
    std::vector<Ratio> phases;
    for (const Ratio& place : places_turns) {
        sum += std::polar(1.0, 2.0 * std::numbers::pi * place.fraction().to_double());
        phases.push_back((place * Ratio(central_teeth)).fraction());
    }
    balance.residual = std::abs(sum) / static_cast<double>(places_turns.size());
    if (balance.residual < kRounding) balance.residual = 0.0;
    for (const Ratio& phase : phases)
        balance.in_step =
            std::max(balance.in_step,
                     static_cast<int>(std::ranges::count_if(phases, [&](const Ratio& p) { return alike(p, phase); })));
    return balance;
}

}  // namespace couplet
