// Named families: the families of trains by the names that the benchmarks print.
#pragma once

#include <array>
#include <stdexcept>
#include <string>

#include "support/train_families.hpp"

namespace couplet {

// A, B driven beside its held member, B driven at the other end, C (support/train_families.hpp).
inline constexpr std::array kFamilyNames{"A", "B_near", "B_far", "C"};

[[nodiscard]] inline FamilyTrain family_named(const std::string& name, int members) {
    if (name == "A") return family_a(members);
    if (name == "B_near") return family_b(members, DriverPlace::beside_the_held);
    if (name == "B_far") return family_b(members, DriverPlace::far_end);
    if (name == "C") return family_c(members);
    throw std::invalid_argument("no family is named '" + name + "'; there are A, B_near, B_far and C");
}

}  // namespace couplet
