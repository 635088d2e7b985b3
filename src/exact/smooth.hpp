// Smooth: whole numbers without a prime factor above 251, as tooth counts and their small multiples mostly are.
//
// What two large numbers share, one of them smooth, is told by a few passes over their limbs, where a general greatest
// common divisor takes a time that grows with their square.
#pragma once

#include <gmp.h>

#include <cstdint>

namespace couplet {

[[nodiscard]] bool is_smooth(std::uint64_t number) noexcept;

// Brings a fraction with a positive denominator to lowest terms. No prime above 251 divides both parts.
void reduce_smooth(mpq_ptr fraction);

}  // namespace couplet
