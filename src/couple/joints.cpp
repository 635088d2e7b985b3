#include "couple/joints.hpp"

#include <algorithm>

namespace couplet {

namespace {

Joint default_joint(const Train& train, MemberIndex turns, MemberIndex against) {
    return {default_joint_name(train, turns, against), turns, against, false};
}

// The member whose default joint an explicit one replaces.
MemberIndex member_placed_by(const Train& train, const Joint& joint) {
    const bool written_from_below =
        joint.against != kFrame && joint.turns != kFrame && rides_on(train, joint.against) == joint.turns;
    return written_from_below || joint.turns == kFrame ? joint.against : joint.turns;
}

}  // namespace

std::vector<Joint> joints_of(const Train& train) {
    std::vector<Joint> joints = train.joints;
    std::vector<bool> placed(train.members.size(), false);
    for (const Joint& joint : train.joints) placed[member_placed_by(train, joint).position()] = true;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m)
        if (!placed[static_cast<std::size_t>(m)]) joints.push_back(default_joint(train, {m}, rides_on(train, {m})));
    return joints;
}

std::optional<Joint> find_joint(const Train& train, const std::vector<Joint>& joints, const std::string& name) {
    const auto named = std::ranges::find(joints, name, &Joint::name);
    if (named != joints.end()) return *named;
    // Member names may themselves contain " on ", so every place to split is tried.
    for (std::size_t at = name.find(" on "); at != std::string::npos; at = name.find(" on ", at + 1)) {
        const std::optional<MemberIndex> turns = find_member(train, name.substr(0, at));
        const std::optional<MemberIndex> against = find_member(train, name.substr(at + 4));
        if (turns && against && *turns != *against) return default_joint(train, *turns, *against);
    }
    return std::nullopt;
}

Joint joint_of_driver(const Train& train, const std::vector<Joint>& joints, MemberIndex driver) {
    const auto turns_driver = [&](const Joint& joint) { return joint.turns == driver; };
    const auto on_frame = std::ranges::find_if(
        joints, [&](const Joint& joint) { return turns_driver(joint) && joint.against == kFrame; });
    if (on_frame != joints.end()) return *on_frame;
    const auto any = std::ranges::find_if(joints, turns_driver);
    return any != joints.end() ? *any : default_joint(train, driver, kFrame);
}

}  // namespace couplet
