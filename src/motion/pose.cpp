#include "motion/pose.hpp"

#include <stdexcept>

namespace couplet {

std::vector<Ratio> joint_phases_turns(const Motion& motion, const Ratio& turns) {
    if (motion.outcome != Outcome::moves) throw std::invalid_argument("only a setting that moves has poses");
    const std::size_t width = motion.parameter_count();
    const std::size_t members = width == 0 ? 0 : motion.joint_rates.size() / width;
    std::vector<Ratio> phases;
    phases.reserve(members);
    if (width == 1) {
        for (const Ratio& rate : motion.joint_rates) phases.push_back((rate * turns).fraction());
        return phases;
    }
    for (std::size_t m = 0; m < members; ++m) {
        const std::optional<Ratio> rate =
            turns_per_driver_turn(motion, motion.joint_rate({static_cast<std::int32_t>(m)}));
        phases.push_back((*rate * turns).fraction());
    }
    return phases;
}

std::vector<Ratio> frame_phases_turns(const Train& train, const std::vector<Ratio>& joint_phases_turns) {
    std::vector<Ratio> phases(joint_phases_turns.size());
    each_member_from_the_frame(train, [&](MemberIndex member) {
        const MemberIndex under = rides_on(train, member);
        const Ratio& own = joint_phases_turns[member.position()];
        phases[member.position()] = under == kFrame ? own : (own + phases[under.position()]).fraction();
    });
    return phases;
}

}  // namespace couplet
