#include "place/angle.hpp"

#include <cmath>
#include <cstdint>

namespace couplet {

namespace {

Angle sum(const Angle& a, const Angle& b, int sign) {
    Angle result{sign < 0 ? a.turns - b.turns : a.turns + b.turns, {}};
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.directions.size() || j < b.directions.size()) {
        const bool take_a =
            j == b.directions.size() || (i < a.directions.size() && a.directions[i].first <= b.directions[j].first);
        const bool take_b =
            i == a.directions.size() || (j < b.directions.size() && b.directions[j].first <= a.directions[i].first);
        const int direction = take_a ? a.directions[i].first : b.directions[j].first;
        Ratio coefficient = take_a ? a.directions[i++].second : Ratio(0);
        if (take_b) {
            const Ratio& other = b.directions[j++].second;
            coefficient = sign < 0 ? coefficient - other : coefficient + other;
        }
        if (!coefficient.is_zero()) result.directions.emplace_back(direction, coefficient);
    }
    return result;
}

// floor(x) as a Ratio, for an x that came from angles of a train.
Ratio whole_below(double x) {
    return {static_cast<std::int64_t>(std::floor(x))};
}

}  // namespace

double Angle::value(const std::vector<double>& direction_turns) const {
    double result = turns.to_double();
    for (const auto& [direction, coefficient] : directions)
        result += coefficient.to_double() * direction_turns[static_cast<std::size_t>(direction)];
    return result;
}

Angle exact_angle(const Ratio& turns) {
    return {turns, {}};
}

Angle direction_angle(int direction) {
    return {Ratio(0), {{direction, Ratio(1)}}};
}

Angle operator+(const Angle& a, const Angle& b) {
    return sum(a, b, 1);
}

Angle operator-(const Angle& a, const Angle& b) {
    return sum(a, b, -1);
}

Angle operator*(const Angle& a, const Ratio& factor) {
    Angle result{a.turns * factor, {}};
    if (factor.is_zero()) return result;
    for (const auto& [direction, coefficient] : a.directions)
        result.directions.emplace_back(direction, coefficient * factor);
    return result;
}

ShownAngle shown(const Angle& angle, const std::vector<double>& direction_turns) {
    if (!angle.is_exact()) return {std::nullopt, 360.0 * angle.value(direction_turns)};
    const Ratio degrees = angle.turns * Ratio(360);
    return {degrees, degrees.to_double()};
}

Angle reduced(const Angle& angle, const Ratio& period_turns, const std::vector<double>& direction_turns) {
    Angle result = angle;
    const Ratio periods = angle.is_exact() ? (angle.turns / period_turns).floor()
                                           : whole_below(angle.value(direction_turns) / period_turns.to_double());
    result.turns -= periods * period_turns;
    return result;
}

Angle reduced_to_least(const Angle& angle, const Ratio& period_turns, const std::vector<double>& direction_turns) {
    Angle result = reduced(angle, period_turns, direction_turns);
    const Ratio half = period_turns / Ratio(2);
    const bool above = result.is_exact() ? result.turns > half : result.value(direction_turns) > half.to_double();
    if (above) result.turns -= period_turns;
    return result;
}

}  // namespace couplet
