#include "scene/limits.hpp"

#include <fmt/format.h>

#include "exact/decimal.hpp"

namespace couplet {

bool NumberLimits::allow(const Ratio& value) const {
    if (value < Ratio(low) || value > Ratio(high)) return false;
    if (!low_itself && value == Ratio(low)) return false;
    return high_itself || value != Ratio(high);
}

std::string NumberLimits::described() const {
    const std::string in = unit.empty() ? "" : fmt::format(" ({})", unit);
    if (low == -kMostMagnitude && high == kMostMagnitude) return fmt::format("a number from -1e12 to 1e12{}", in);
    if (low_itself && high_itself) return fmt::format("a number from {} to {}{}", low, high, in);
    return fmt::format("a number {} {} and {} {}{}", low_itself ? "from" : "above", low,
                       high_itself ? "at most" : "below", high, in);
}

bool has_few_decimals(const Ratio& value) {
    const std::optional<int> decimals = decimals_needed(value);
    return decimals && *decimals <= kMostNumberDecimals;
}

}  // namespace couplet
