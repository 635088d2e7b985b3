// Pose: where every member stands after an exact number of turns of the driver.
//
// Zero pose: the start pose of the scene. Phases are turns in [0, 1), exact at any number of turns: they are reduced
// modulo one turn while still rational, so a float made from one is as sharp after a million turns as at the start.
#pragma once

#include <span>
#include <vector>

#include "motion/motion.hpp"

namespace couplet {

// What a rate, a combination of a motion's parameters, comes to after so many turns of each of them.
[[nodiscard]] Ratio turned(std::span<const Ratio> rate, std::span<const Ratio> parameter_turns);

// The phase of every member's joint (against what it rides on) after `turns` of the reference driver, all drivers
// running at the speeds given. By member. std::invalid_argument unless the motion moves.
[[nodiscard]] std::vector<Ratio> joint_phases_turns(const Motion& motion, const Ratio& turns);

// The turns of each parameter of the motion (drivers, then free joints) while all drivers run at the speeds given for
// `turns` of the reference driver. Free joints stand; where no driver runs, the reference driver turns alone. Empty
// where there is no driver.
[[nodiscard]] std::vector<Ratio> parameter_turns_of_drivers(const Motion& motion, const Ratio& turns);

// The phase of every member's joint after so many turns of each parameter of the motion (drivers, then free joints), by
// member. std::invalid_argument where the motion neither moves nor is free, or where the number of parameters is wrong.
[[nodiscard]] std::vector<Ratio> joint_phases_after(const Motion& motion, const std::vector<Ratio>& parameter_turns);

// The phase of every member against the frame, from its joints' phases.
[[nodiscard]] std::vector<Ratio> frame_phases_turns(const Train& train, const std::vector<Ratio>& joint_phases_turns);

}  // namespace couplet
