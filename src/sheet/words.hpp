// Words: members, joints and settings as they are called in sentences.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "motion/motion.hpp"
#include "train/train.hpp"

namespace couplet {

// "a", "a and b", "a, b and c"; from kLongestList on the rest is counted: "..., k and 88 others".
inline constexpr std::size_t kLongestList = 12;
[[nodiscard]] std::string list_text(const std::vector<std::string>& names, std::string_view last = "and");

[[nodiscard]] std::vector<std::string> names_of(const Train& train, const std::vector<MemberIndex>& members);

// "crank", or "planet/outer" wherever the gear has a name of its own: what a program finds a gear by.
[[nodiscard]] std::string full_name(const Train& train, GearIndex gear);

// "crank", "planet (3 copies)".
[[nodiscard]] std::string member_label(const Train& train, MemberIndex member);

// The name it was given, else "planet on drum".
[[nodiscard]] std::string joint_name(const Train& train, const Joint& joint);
// The name, and behind it both members where the name does not say them, and whether it is flipped:
// "planet pin (planet on drum, flipped)".
[[nodiscard]] std::string joint_label(const Train& train, const Joint& joint);

// "crank at 30 rpm".
[[nodiscard]] std::string drive_text(const Train& train, const Drive& drive);
// "sun = drum".
[[nodiscard]] std::string tie_text(const Train& train, const std::pair<MemberIndex, MemberIndex>& tie);

// What the parameters of a motion are called: the drivers, then the joints that could take a missing one.
[[nodiscard]] std::vector<std::string> parameter_names(const Train& train, const Motion& motion);
// "3/10 sun + 7/10 ring" of such parameters; "0" where none counts.
[[nodiscard]] std::string combination_text(const Combination& combination, const std::vector<std::string>& parameters);

// "3 drivers", "1 driver".
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);

// "same", "opposite" or "stands still", of turns per turn of something.
[[nodiscard]] std::string_view sense_text(const Ratio& turns_per_turn);

// "moves", "free", "locked", "conflicting".
[[nodiscard]] std::string_view outcome_name(Outcome outcome);

}  // namespace couplet
