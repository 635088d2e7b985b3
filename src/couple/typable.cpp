#include "couple/typable.hpp"

#include <algorithm>
#include <stdexcept>

#include "exact/approximation.hpp"
#include "exact/decimal.hpp"

namespace couplet {

namespace {

bool fits(const Ratio& angle_deg, const TypableLimits& limits) {
    return angle_deg.magnitude() <= limits.cap_deg && rounded(angle_deg, limits.decimals) == angle_deg;
}

bool fits(const DegreePair& pair, const TypableLimits& limits) {
    return fits(pair[0], limits) && fits(pair[1], limits);
}

DegreePair times(const DegreePair& pair, const Ratio& factor) {
    return {pair[0] * factor, pair[1] * factor};
}

// The whole multiple of the pair whose first angle is nearest to the wished one, the smaller of two, within the cap.
DegreePair near_wished(const DegreePair& pair, const TypableLimits& limits) {
    const Ratio wished = limits.first_deg.magnitude() / pair[0];
    const Ratio nearest = -(Ratio(1, 2) - wished).floor();
    const Ratio most = (limits.cap_deg / std::max(pair[0], pair[1].magnitude())).floor();
    return times(pair, std::clamp(nearest, Ratio(1), std::max(Ratio(1), most)));
}

// An exact pair within the limits, if there is one: all exact pairs are whole multiples of the smallest one written in
// the last decimal's unit.
std::optional<DegreePair> exact_pair(const Ratio& second_per_first, const TypableLimits& limits) {
    const DegreePair whole = whole_degrees(second_per_first);
    if (fits(whole, limits)) return near_wished(whole, limits);
    for (int decimals = 1; decimals <= limits.decimals; ++decimals)
        if (const DegreePair finer = times(whole, power_of_ten(-decimals)); fits(finer, limits)) return finer;
    return std::nullopt;
}

DegreePair best_pair(const Ratio& second_per_first, const TypableLimits& limits) {
    const Ratio unit = power_of_ten(-limits.decimals);
    const Ratio most = (limits.cap_deg / unit).floor();
    const Ratio nearest = best_approximation(second_per_first, most, most);
    return times(whole_degrees(nearest), unit);
}

}  // namespace

DegreePair whole_degrees(const Ratio& second_per_first) {
    return {second_per_first.denominator(), second_per_first.numerator()};
}

Ratio drift_deg_per_1000_turns(const Ratio& second_per_first, const DegreePair& typed) {
    if (typed[0].is_zero()) throw std::invalid_argument("the first angle of a coupling is 0");
    return (typed[1] / typed[0] - second_per_first) * Ratio(360) * Ratio(1000);
}

TypablePair typable_pair(const Ratio& second_per_first, const TypableLimits& limits) {
    const DegreePair wished = {limits.first_deg, limits.first_deg * second_per_first};
    if (fits(wished, limits)) return {wished, true, {}};
    if (const std::optional<DegreePair> exact = exact_pair(second_per_first, limits)) return {*exact, true, {}};
    // A small pair serves as well as its multiples; the one nearest to the wished angle reads best.
    const DegreePair best = near_wished(best_pair(second_per_first, limits), limits);
    return {best, false, drift_deg_per_1000_turns(second_per_first, best)};
}

}  // namespace couplet
