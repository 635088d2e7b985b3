// Train notation: a train and a setting in a line of text each, for tests.
//
//     "sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)"     "hold ring; tie a=b; drive sun 1, carrier
//     -3/2"
//
// ` x ` joins two external gears, ` in ` an external one and the ring around it; a name may hold spaces and ends at
// the tooth count. The parentheses say what rides on something other than the frame. Members count in the order in
// which they come up. A member named again with another tooth count gets a further gear. Speeds are whole numbers,
// fractions or decimals. Text that breaks these rules throws std::invalid_argument.
#pragma once

#include <string>
#include <string_view>

#include "motion/motion.hpp"
#include "train/train.hpp"

namespace couplet {

[[nodiscard]] Train train_from(std::string_view meshes);
[[nodiscard]] Setting setting_from(const Train& train, std::string_view setting);

// std::invalid_argument where no member has the name.
[[nodiscard]] MemberIndex member_named(const Train& train, const std::string& name);

// A train in a setting, with its motion.
struct SolvedTrain {
    Train train;
    Setting setting;
    Motion motion;

    // The rate of a member against another one, in the unit of the drivers' speeds, all drivers running at theirs.
    // std::logic_error where it depends on a missing driver.
    [[nodiscard]] Ratio turns(const std::string& member, const std::string& against = "frame") const;
};

[[nodiscard]] SolvedTrain solved(std::string_view meshes, std::string_view setting);
[[nodiscard]] SolvedTrain solved(Train train, Setting setting);

// A combination at the drivers' speeds; whatever parameters stand behind the drivers count nothing.
[[nodiscard]] Ratio at_driver_speeds(const Motion& motion, const Combination& combination);

}  // namespace couplet
