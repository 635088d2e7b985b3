// Ratio printer: lets a failing test show exact values as fractions.
#pragma once

#include <ostream>

#include "exact/ratio.hpp"

namespace couplet {

inline void PrintTo(const Ratio& value, std::ostream* out) {
    *out << value.to_string();
}

}  // namespace couplet
