#include "app/crank.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <stdexcept>

#include "motion/pose.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

bool can_turn(const Motion& motion) {
    return motion.outcome == Outcome::moves || motion.outcome == Outcome::free;
}

Ratio in_grains(double turns) {
    if (!(std::abs(turns) < Crank::kMostTurns)) throw std::invalid_argument("too many turns at once");
    return {std::llround(turns * Crank::kGrain), Crank::kGrain};
}

std::vector<Ratio> times(const Ratio& factor, std::vector<Ratio> parameter_turns) {
    for (Ratio& turns : parameter_turns) turns *= factor;
    return parameter_turns;
}

// The turns of one parameter alone at which the rate, which depends on it, comes to one turn.
std::vector<Ratio> by_parameter(std::span<const Ratio> rate, std::size_t parameter) {
    std::vector<Ratio> turns(rate.size());
    turns[parameter] = rate[parameter].inverse();
    return turns;
}

std::optional<std::size_t> own_driver(const Motion& motion, MemberIndex member) {
    const auto found = std::ranges::find(motion.drivers, member, &Drive::member);
    if (found == motion.drivers.end()) return std::nullopt;
    return static_cast<std::size_t>(found - motion.drivers.begin());
}

// The parameter of the member's own joint where it has one that turns it, else the first that does.
std::size_t free_parameter_for(const Motion& motion, std::span<const Ratio> rate, MemberIndex member) {
    const std::size_t drivers = motion.drivers.size();
    const auto own = std::ranges::find(motion.free_joints, member);
    if (own != motion.free_joints.end()) {
        const std::size_t parameter = drivers + static_cast<std::size_t>(own - motion.free_joints.begin());
        if (!rate[parameter].is_zero()) return parameter;
    }
    std::size_t parameter = drivers;
    while (rate[parameter].is_zero()) ++parameter;
    return parameter;
}

// All drivers at their speeds for so many turns of the reference driver the way that it is driven.
std::vector<Ratio> running_turns(const Motion& motion, const Ratio& turns) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    const bool clockwise = reference && motion.drivers[*reference].rpm.sign() < 0;
    return parameter_turns_of_drivers(motion, clockwise ? -turns : turns);
}

int most_teeth(const Train& train, MemberIndex member) {
    int most = 0;
    for (const GearIndex gear : gears_of(train, member)) most = std::max(most, train[gear].teeth);
    return most;
}

// How many teeth pass the arm in a mesh per turn of the reference driver, of the first mesh on this arm where any do.
std::optional<Ratio> teeth_past_arm(const Train& train, const Motion& motion, MemberIndex arm) {
    const std::vector<Ratio> once = running_turns(motion, 1);
    for (const Mesh& mesh : train.meshes) {
        if (arm_of(train, mesh) != arm) continue;
        const Gear& gear = train[mesh.first];
        const Ratio teeth = turned(rate_on(train, motion, gear.member, arm), once) * Ratio(gear.teeth);
        if (!teeth.is_zero()) return teeth.magnitude();
    }
    return std::nullopt;
}

Ratio turns_of_one_tooth(const Train& train, const Motion& motion, MemberIndex driver) {
    if (const int teeth = most_teeth(train, driver); teeth > 0) return {1, teeth};
    return teeth_past_arm(train, motion, driver).value_or(Ratio(36)).inverse();
}

}  // namespace

void Crank::start_again(const Train& train, const Motion& motion) {
    phases_.assign(train.members.size(), Ratio());
    parameter_turns_.assign(motion.parameter_count(), Ratio());
    left_to_run_ = 0.0;
    ++changes_;
}

void Crank::go_on_with(const Train& train, const Motion& motion) {
    if (train.members.size() != phases_.size()) {
        start_again(train, motion);
        return;
    }
    parameter_turns_.assign(motion.parameter_count(), Ratio());
    left_to_run_ = 0.0;
}

void Crank::turn(const Motion& motion, const std::vector<Ratio>& parameter_turns) {
    if (std::ranges::all_of(parameter_turns, &Ratio::is_zero)) return;
    const std::vector<Ratio> further = joint_phases_after(motion, parameter_turns);
    for (std::size_t m = 0; m < phases_.size(); ++m)
        if (!further[m].is_zero()) phases_[m] = (phases_[m] + further[m]).fraction();
    for (std::size_t i = 0; i < parameter_turns_.size(); ++i) parameter_turns_[i] += parameter_turns[i];
    ++changes_;
}

void Crank::run(const Motion& motion, double turns) {
    if (!can_turn(motion) || motion.drivers.empty()) return;
    const double wanted = left_to_run_ + turns;
    const Ratio given = in_grains(wanted);
    left_to_run_ = wanted - given.to_double();
    turn(motion, running_turns(motion, given));
}

void Crank::step_one_tooth(const Train& train, const Motion& motion, int direction) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    if (!can_turn(motion) || !reference) return;
    const Ratio turns = turns_of_one_tooth(train, motion, motion.drivers[*reference].member);
    turn(motion, running_turns(motion, turns * Ratio(direction)));
}

std::vector<Ratio> Crank::parameter_turns_for(const Train& train, const Motion& motion, MemberIndex member,
                                              MemberIndex observer) {
    if (!can_turn(motion)) return {};
    const Combination rate = rate_on(train, motion, member, observer);
    if (const std::optional<std::size_t> own = own_driver(motion, member); own && !rate[*own].is_zero())
        return by_parameter(rate, *own);
    if (needs_missing_driver(motion, rate)) return by_parameter(rate, free_parameter_for(motion, rate, member));
    std::vector<Ratio> together = parameter_turns_of_drivers(motion, 1);
    if (together.empty()) return {};
    const Ratio turns = turned(rate, together);
    return turns.is_zero() ? std::vector<Ratio>{} : times(turns.inverse(), std::move(together));
}

void Crank::turn_parameters(const Motion& motion, const std::vector<Ratio>& per_turn, double turns) {
    if (!can_turn(motion) || per_turn.empty()) return;
    turn(motion, times(in_grains(turns), per_turn));
}

bool Crank::turn_member(const Train& train, const Motion& motion, MemberIndex member, MemberIndex observer,
                        double turns) {
    const std::vector<Ratio> per_turn = parameter_turns_for(train, motion, member, observer);
    turn_parameters(motion, per_turn, turns);
    return !per_turn.empty();
}

Ratio Crank::driver_turns(const Motion& motion) const {
    const std::optional<std::size_t> reference = reference_driver(motion);
    return reference ? parameter_turns_[*reference] : Ratio();
}

}  // namespace couplet
