// Joints: the turning pairs that the user really has, explicit and default.
//
// A member whose joint is not described gets the default one, against what it rides on. An explicit joint stands for
// the default one of the member that it turns; written the other way round (a carrier against its planet) it stands
// for the planet's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "train/train.hpp"

namespace couplet {

// The train's explicit joints in their order, then the defaults of members that have none, in the members' order.
[[nodiscard]] std::vector<Joint> joints_of(const Train& train);

// The joint of that name: one of joints_of, or any two members written "a on b". Nothing where a member is unknown.
[[nodiscard]] std::optional<Joint> find_joint(const Train& train, const std::vector<Joint>& joints,
                                              const std::string& name);

// The driver's joint: the one that turns it against the frame, else one that turns it, else its joint on the frame.
[[nodiscard]] Joint joint_of_driver(const Train& train, const std::vector<Joint>& joints, MemberIndex driver);

}  // namespace couplet
