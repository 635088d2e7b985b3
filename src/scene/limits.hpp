// Limits: the range of each number in a scene, wide enough for any real gear, and the keys of the teeth.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "train/train.hpp"

namespace couplet {

// No number of a scene has more decimals, nor a larger magnitude than kMostMagnitude.
inline constexpr int kMostNumberDecimals = 40;
inline constexpr std::int64_t kMostMagnitude = 1000000000000;

inline constexpr std::size_t kMostNameBytes = 200;

// True where the value is a decimal of at most kMostNumberDecimals.
[[nodiscard]] bool has_few_decimals(const Ratio& value);

struct NumberLimits {
    std::int64_t low = -kMostMagnitude;
    std::int64_t high = kMostMagnitude;
    bool low_itself = true;  // whether the bound is itself allowed
    bool high_itself = true;
    std::string_view unit;  // empty: a plain number

    [[nodiscard]] bool allow(const Ratio& value) const;
    // "a number above 0 and at most 1000 (mm)".
    [[nodiscard]] std::string described() const;
};

// A key of [teeth] and of every gear.
struct ToothKey {
    std::string_view key;
    std::optional<Ratio> ToothSpec::*value;
    NumberLimits limits;
};

// In the order of the format's description.
inline constexpr std::array kToothKeys = {
    ToothKey{"module", &ToothSpec::module_mm, {0, 1000, false, true, "mm"}},
    ToothKey{"diametral_pitch", &ToothSpec::diametral_pitch, {0, 10000, false, true, "per inch"}},
    ToothKey{"pressure_angle", &ToothSpec::pressure_angle_deg, {0, 45, false, false, "degrees"}},
    ToothKey{"helix_angle", &ToothSpec::helix_angle_deg, {-60, 60, false, false, "degrees"}},
    ToothKey{"face_width", &ToothSpec::face_width, {0, 100000, false, true, "mm or inches"}},
    ToothKey{"backlash", &ToothSpec::backlash, {0, 1000, true, true, "mm or inches"}},
    ToothKey{"addendum", &ToothSpec::addendum, {0, 10, false, true, "x module"}},
    ToothKey{"dedendum", &ToothSpec::dedendum, {0, 10, false, true, "x module"}},
    ToothKey{"root_radius", &ToothSpec::root_radius, {0, 10, true, true, "x module"}},
};

inline constexpr NumberLimits kAnyNumber{};
inline constexpr NumberLimits kDegrees{-kMostMagnitude, kMostMagnitude, true, true, "degrees"};
inline constexpr NumberLimits kPartLimits{0, 1, true, true, "part of the clip"};
inline constexpr NumberLimits kElevationLimits{-90, 90, true, true, "degrees"};
inline constexpr NumberLimits kZoomLimits{0, 1000, false, true, ""};
inline constexpr NumberLimits kRpm{-kMostMagnitude, kMostMagnitude, true, true, "rpm"};
inline constexpr NumberLimits kShiftLimits{-10, 10, true, true, "x module"};
inline constexpr NumberLimits kBoreLimits{0, 1000000, false, true, "mm or inches"};
inline constexpr NumberLimits kCentreDistanceLimits{0, 1000000000, false, true, "mm or inches"};

}  // namespace couplet
