// Cautions: what every sheet says at its end.
//
// Common practice for tools that people build machines from.
#pragma once

#include <array>
#include <string_view>

namespace couplet {

inline constexpr std::array<std::string_view, 3> kCautions = {
    "Kinematics only: no strength, wear or heat is calculated.", "Turning gears trap fingers: guard them.",
    "Follow local codes, and have a licensed engineer check what can hurt someone."};

}  // namespace couplet
