#include "couple/rates.hpp"

#include <algorithm>

namespace couplet {

Combination rate_of(const Train& train, const Motion& motion, const Joint& joint) {
    return joint.flipped ? rate_on(train, motion, joint.against, joint.turns)
                         : rate_on(train, motion, joint.turns, joint.against);
}

bool is_still(const Combination& rate) {
    return std::ranges::all_of(rate, [](const Ratio& coefficient) { return coefficient.is_zero(); });
}

std::optional<Ratio> parallel_ratio(const Combination& second, const Combination& first) {
    const auto leading = std::ranges::find_if(first, [](const Ratio& coefficient) { return !coefficient.is_zero(); });
    if (leading == first.end() || second.size() != first.size()) return std::nullopt;
    const Ratio ratio = second[static_cast<std::size_t>(leading - first.begin())] / *leading;
    for (std::size_t i = 0; i < first.size(); ++i)
        if (second[i] != ratio * first[i]) return std::nullopt;
    return ratio;
}

}  // namespace couplet
