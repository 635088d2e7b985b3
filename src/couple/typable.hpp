// Typable: two angles that fit the fields of a modeller and turn by the exact ratio, or nearly.
//
// Angles in degrees: of the first joint and of the second one. A field accepts a number of decimals; angles beyond a
// cap are refused by modellers or by patience. Where no exact pair exists within both limits, the best pair is found
// from the continued fraction of the ratio (Khinchin, Continued Fractions, section 6: best approximations are
// convergents or intermediate fractions), and the drift that it causes is told.
#pragma once

#include <array>
#include <optional>

#include "exact/ratio.hpp"

namespace couplet {

using DegreePair = std::array<Ratio, 2>;

struct TypableLimits {
    Ratio first_deg = 360;  // the first angle that the user would like; not 0
    int decimals = 3;       // 0 to 12
    Ratio cap_deg = 36000;  // the largest angle of either field; at least 1

    friend bool operator==(const TypableLimits&, const TypableLimits&) = default;
};

struct TypablePair {
    DegreePair degrees;
    bool exact = true;
    // How far the second joint leaves its true place, in degrees, in 1000 turns of the first; signed, 0 where exact.
    Ratio drift_deg_per_1000_turns;
};

// The smallest pair of whole degrees that turns by the ratio, the first one positive.
[[nodiscard]] DegreePair whole_degrees(const Ratio& second_per_first);

// The pair to type: the wished first angle where that is exact, else the exact pair nearest to it, else the best one.
[[nodiscard]] TypablePair typable_pair(const Ratio& second_per_first, const TypableLimits& limits);

// The drift of a pair as typed; the first angle is not 0.
[[nodiscard]] Ratio drift_deg_per_1000_turns(const Ratio& second_per_first, const DegreePair& typed);

}  // namespace couplet
