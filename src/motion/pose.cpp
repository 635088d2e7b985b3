#include "motion/pose.hpp"

#include <stdexcept>

namespace couplet {

Ratio turned(std::span<const Ratio> rate, std::span<const Ratio> parameter_turns) {
    Ratio turns;
    for (std::size_t i = 0; i < rate.size(); ++i)
        if (!rate[i].is_zero()) turns += rate[i] * parameter_turns[i];
    return turns;
}

std::vector<Ratio> parameter_turns_of_drivers(const Motion& motion, const Ratio& turns) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    if (!reference) return {};
    std::vector<Ratio> parameter_turns(motion.parameter_count());
    const Ratio& speed = motion.drivers[*reference].rpm;
    for (std::size_t i = 0; i < motion.drivers.size(); ++i)
        if (i != *reference && !speed.is_zero()) parameter_turns[i] = motion.drivers[i].rpm / speed * turns;
    parameter_turns[*reference] = turns;
    return parameter_turns;
}

std::vector<Ratio> joint_phases_turns(const Motion& motion, const Ratio& turns) {
    if (motion.outcome != Outcome::moves) throw std::invalid_argument("only a setting that moves has poses");
    return joint_phases_after(motion, parameter_turns_of_drivers(motion, turns));
}

std::vector<Ratio> joint_phases_after(const Motion& motion, const std::vector<Ratio>& parameter_turns) {
    if (motion.outcome != Outcome::moves && motion.outcome != Outcome::free)
        throw std::invalid_argument("only a setting that moves or is free has poses");
    const std::size_t width = motion.parameter_count();
    if (parameter_turns.size() != width) throw std::invalid_argument("a pose needs the turns of each parameter");
    const std::size_t members = width == 0 ? 0 : motion.joint_rates.size() / width;
    std::vector<Ratio> phases;
    phases.reserve(members);
    if (width == 1) {
        for (const Ratio& rate : motion.joint_rates) phases.push_back((rate * parameter_turns[0]).fraction());
        return phases;
    }
    for (std::size_t m = 0; m < members; ++m)
        phases.push_back(turned(motion.joint_rate({static_cast<std::int32_t>(m)}), parameter_turns).fraction());
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
