#include "motion/loop.hpp"

#include "exact/common_measure.hpp"

namespace couplet {

std::optional<Ratio> strict_loop_turns(const Motion& motion) {
    const std::size_t width = motion.parameter_count();
    if (motion.outcome != Outcome::moves || width == 0) return std::nullopt;
    Ratio measure;
    for (std::size_t start = 0; start < motion.joint_rates.size(); start += width) {
        const std::span<const Ratio> rate(motion.joint_rates.data() + start, width);
        measure = common_measure(measure, turns_per_driver_turn(motion, rate).value_or(Ratio()));
    }
    return measure.is_zero() ? std::nullopt : std::optional(measure.inverse());
}

}  // namespace couplet
