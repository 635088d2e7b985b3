// Joint edits: what the user changes of joints, couplings and typed angles, each as a new train.
//
// Default joints and couplings (couple/joints.hpp, couple/coupling.hpp) are written down as soon as one of them is
// changed: a joint by itself, couplings all together, since a list of couplings stands for all of them. Trains that
// come out have no faults and names that a scene file can hold, as the trains that go in do.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "couple/coupling.hpp"
#include "train/train.hpp"

namespace couplet {

// The changed train, or in words why it cannot be; the words are empty where it can.
struct ChangedTrain {
    std::optional<Train> train;
    std::string why_not;
};

// Members that a joint of `turns` can be added against: none that it has a joint with already. kFrame is first.
[[nodiscard]] std::vector<MemberIndex> could_turn_against(const Train& train, MemberIndex turns);
// With a joint of two members, named after them.
[[nodiscard]] ChangedTrain with_joint(const Train& train, MemberIndex turns, MemberIndex against);

// `joint` is one of joints_of(train); couplings that name it follow.
[[nodiscard]] ChangedTrain with_joint_named(const Train& train, const Joint& joint, const std::string& name);
[[nodiscard]] Train with_joint_flipped(const Train& train, const Joint& joint, bool flipped);
[[nodiscard]] bool is_explicit(const Train& train, const Joint& joint);
// For an explicit joint; couplings that named it name its two members.
[[nodiscard]] Train without_joint(const Train& train, const Joint& joint);

// `couplings` are those of the train's sheet, `which` a position in them. Nothing typed: what was is forgotten.
[[nodiscard]] ChangedTrain with_typed(const Train& train, const std::vector<Coupling>& couplings, std::size_t which,
                                      const std::optional<DegreePair>& typed);
[[nodiscard]] ChangedTrain with_coupling(const Train& train, const std::vector<Coupling>& couplings, const Joint& first,
                                         const Joint& second);
[[nodiscard]] ChangedTrain without_coupling(const Train& train, const std::vector<Coupling>& couplings,
                                            std::size_t which);
// The default couplings again; what was typed is forgotten.
[[nodiscard]] Train with_default_couplings(Train train);

}  // namespace couplet
