// Decimal: exact rationals to and from the decimals that people write.
//
// A decimal means what is written: "0.1" is one tenth, not the double nearest to it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "exact/ratio.hpp"

namespace couplet {

// "6", "-4.3", "+1.5e-3", "1_000.5" (TOML 1.0 numbers in base 10) or a fraction of two whole numbers, "43/10". Nothing
// where the text is anything else, divides by zero, or has an exponent beyond +-kMostDecimals or more digits than that.
inline constexpr int kMostDecimals = 4000;
[[nodiscard]] std::optional<Ratio> parse_ratio(std::string_view text);

// How many decimals write the value exactly; nothing where none do (its denominator has primes other than 2 and 5).
[[nodiscard]] std::optional<int> decimals_needed(const Ratio& value);

// The value rounded to that many decimals, half away from zero.
[[nodiscard]] Ratio rounded(const Ratio& value, int decimals);

// The value with at most that many decimals, rounded half away from zero, without trailing zeros: "-241.5", "0".
[[nodiscard]] std::string decimal_text(const Ratio& value, int decimals);

// As a decimal where that is exact within kMostDecimals, else as a fraction: "-241.5", "-550/48".
[[nodiscard]] std::string exact_text(const Ratio& value);

// 10 to the power of `exponent`, any sign.
[[nodiscard]] Ratio power_of_ten(int exponent);

}  // namespace couplet
