#include "record/schedule.hpp"

#include <stdexcept>

#include "motion/pose.hpp"

namespace couplet {

namespace {

// 0 to 1 with no speed at either end, and 3/2 in the middle.
Ratio eased(const Ratio& part) {
    return part * part * (Ratio(3) - Ratio(2) * part);
}

std::vector<Ratio> phases_of(const Leg& leg, const Ratio& turns) {
    if (leg.motion.outcome != Outcome::moves) return {};
    return joint_phases_turns(leg.motion, turns);
}

void add(std::vector<Ratio>& phases, const std::vector<Ratio>& more) {
    if (phases.empty()) phases.resize(more.size());
    for (std::size_t m = 0; m < more.size(); ++m) phases[m] = (phases[m] + more[m]).fraction();
}

std::size_t leg_of(const Ratio& position, std::size_t legs) {
    std::size_t leg = 0;
    while (leg + 1 < legs && position >= Ratio(static_cast<std::int64_t>(leg + 1))) ++leg;
    return leg;
}

}  // namespace

Ratio top_speed(std::size_t legs) {
    return legs == 1 ? Ratio(1) : Ratio(3, 2);
}

Instant instant_at(const Schedule& schedule, const Ratio& frame) {
    if (schedule.legs.empty() || schedule.frames < 1) throw std::invalid_argument("the clip is empty");
    if (frame.sign() < 0 || frame > Ratio(schedule.frames)) throw std::invalid_argument("the clip has no such frame");
    Instant instant;
    instant.part = frame / Ratio(schedule.frames);
    const std::size_t legs = schedule.legs.size();
    const Ratio position = instant.part * Ratio(static_cast<std::int64_t>(legs));
    instant.leg = leg_of(position, legs);
    const Ratio part = position - Ratio(static_cast<std::int64_t>(instant.leg));
    const Leg& leg = schedule.legs[instant.leg];
    instant.leg_turns = leg.turns * (legs == 1 ? part : eased(part));
    for (std::size_t i = 0; i < instant.leg; ++i)
        add(instant.joint_phases_turns, phases_of(schedule.legs[i], schedule.legs[i].turns));
    add(instant.joint_phases_turns, phases_of(leg, instant.leg_turns));
    return instant;
}

}  // namespace couplet
