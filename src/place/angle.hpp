// Angle: an exact angle, in turns, that may hold directions which no fraction names.
//
// turns + sum of coefficient x direction, where the directions are those that the triangle of three centre distances
// gives (paired planets): irrational as a rule, and known as doubles in a list that the angle's owner keeps. They are
// carried as symbols, so that a loop of meshes in which they cancel closes exactly.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "exact/ratio.hpp"

namespace couplet {

struct Angle {
    Ratio turns;
    // Position in the list of directions, rising, and its coefficient, never 0.
    std::vector<std::pair<int, Ratio>> directions;

    [[nodiscard]] bool is_exact() const { return directions.empty(); }
    // In turns. `direction_turns` is the list that the positions mean.
    [[nodiscard]] double value(const std::vector<double>& direction_turns) const;

    friend bool operator==(const Angle&, const Angle&) = default;
};

[[nodiscard]] Angle exact_angle(const Ratio& turns);
[[nodiscard]] Angle direction_angle(int direction);

[[nodiscard]] Angle operator+(const Angle& a, const Angle& b);
[[nodiscard]] Angle operator-(const Angle& a, const Angle& b);
[[nodiscard]] Angle operator*(const Angle& a, const Ratio& factor);

// An angle as it is shown: `exact` is absent where directions are left in it.
struct ShownAngle {
    std::optional<Ratio> exact_deg;
    double value_deg = 0.0;
};

[[nodiscard]] ShownAngle shown(const Angle& angle, const std::vector<double>& direction_turns);

// The angle less a whole number of periods (above 0), in [0, period) or in (-period/2, period/2]. Where directions are
// left in the angle, their doubles decide which period.
[[nodiscard]] Angle reduced(const Angle& angle, const Ratio& period_turns, const std::vector<double>& direction_turns);
[[nodiscard]] Angle reduced_to_least(const Angle& angle, const Ratio& period_turns,
                                     const std::vector<double>& direction_turns);

}  // namespace couplet
