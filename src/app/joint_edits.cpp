#include "app/joint_edits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "app/given_name.hpp"
#include "couple/joints.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

bool same_pair(const Joint& a, const Joint& b) {
    return a.turns == b.turns && a.against == b.against;
}

std::vector<std::string> names_of(const std::vector<Joint>& joints, const Joint* without) {
    std::vector<std::string> names;
    for (const Joint& joint : joints)
        if (without == nullptr || joint != *without) names.push_back(joint.name);
    return names;
}

// A joint's own name must not read as the default name of another pair; member names may contain " on " themselves.
std::string misleading_name(const Train& train, const Joint& joint, const std::string& name) {
    for (std::size_t at = name.find(" on "); at != std::string::npos; at = name.find(" on ", at + 1)) {
        const std::optional<MemberIndex> turns = find_member(train, name.substr(0, at));
        const std::optional<MemberIndex> against = find_member(train, name.substr(at + 4));
        if (!turns || !against || *turns == *against || (*turns == joint.turns && *against == joint.against)) continue;
        return fmt::format("that is the joint of {} against {}", name_of(train, *turns), name_of(train, *against));
    }
    return "";
}

Train with_joint_as(Train train, const Joint& was, const Joint& becomes) {
    const auto place = std::ranges::find(train.joints, was);
    if (place == train.joints.end())
        train.joints.push_back(becomes);
    else
        *place = becomes;
    for (CouplingEntry& entry : train.couplings)
        for (std::string& name : entry.joints)
            if (name == was.name) name = becomes.name;
    return train;
}

// An entry names joints by text: it must find this very joint again.
std::string ambiguity(const Train& train, const std::vector<Joint>& joints, const Joint& joint) {
    const std::optional<Joint> found = find_joint(train, joints, joint_name(train, joint));
    if (found && same_pair(*found, joint) && found->flipped == joint.flipped) return "";
    return fmt::format("'{}' could be another joint: give it a name of its own first", joint_name(train, joint));
}

// The train with its couplings written down, in the order of `couplings`.
ChangedTrain with_all_written(const Train& train, const std::vector<Coupling>& couplings) {
    const std::vector<Joint> joints = joints_of(train);
    std::vector<CouplingEntry> entries;
    std::set<std::string> clear;  // names that are known to find their joints
    for (const Coupling& coupling : couplings) {
        for (const Joint* joint : {&coupling.first, &coupling.second})
            if (clear.insert(joint_name(train, *joint)).second)
                if (std::string why = ambiguity(train, joints, *joint); !why.empty()) return {std::nullopt, why};
        entries.push_back({{joint_name(train, coupling.first), joint_name(train, coupling.second)}, coupling.typed});
    }
    ChangedTrain changed{train, ""};
    changed.train->couplings = std::move(entries);
    return changed;
}

}  // namespace

std::vector<MemberIndex> could_turn_against(const Train& train, MemberIndex turns) {
    std::vector<bool> joined(train.members.size() + 1, false);
    for (const Joint& joint : joints_of(train)) {
        if (joint.turns == turns) joined[static_cast<std::size_t>(joint.against.value + 1)] = true;
        if (joint.against == turns) joined[static_cast<std::size_t>(joint.turns.value + 1)] = true;
    }
    std::vector<MemberIndex> members;
    for (std::int32_t m = -1; m < static_cast<std::int32_t>(train.members.size()); ++m)
        if (MemberIndex{m} != turns && !joined[static_cast<std::size_t>(m + 1)]) members.push_back({m});
    return members;
}

ChangedTrain with_joint(const Train& train, MemberIndex turns, MemberIndex against) {
    if (turns == against) return {std::nullopt, "a joint has two different members"};
    Joint joint{"", turns, against, false};
    // The frame turns against nothing: the other way round it is a joint.
    if (turns == kFrame) std::swap(joint.turns, joint.against);
    const std::vector<Joint> joints = joints_of(train);
    const auto there = std::ranges::find_if(joints, [&](const Joint& other) {
        return same_pair(other, joint) || (other.turns == joint.against && other.against == joint.turns);
    });
    if (there != joints.end()) return {std::nullopt, fmt::format("there is already {}", joint_label(train, *there))};
    joint.name = unused_name(default_joint_name(train, joint.turns, joint.against), names_of(joints, nullptr));
    ChangedTrain changed{train, ""};
    changed.train->joints.push_back(std::move(joint));
    return changed;
}

bool is_explicit(const Train& train, const Joint& joint) {
    return std::ranges::find(train.joints, joint) != train.joints.end();
}

ChangedTrain with_joint_named(const Train& train, const Joint& joint, const std::string& name) {
    const std::vector<Joint> joints = joints_of(train);
    std::string fault = name_fault(name, "joint", names_of(joints, &joint));
    if (fault.empty()) fault = misleading_name(train, joint, name);
    if (!fault.empty()) return {std::nullopt, fault};
    Joint named = joint;
    named.name = name;
    return {with_joint_as(train, joint, named), ""};
}

Train with_joint_flipped(const Train& train, const Joint& joint, bool flipped) {
    Joint turned = joint;
    turned.flipped = flipped;
    return with_joint_as(train, joint, turned);
}

Train without_joint(const Train& train, const Joint& joint) {
    Train changed = train;
    std::erase(changed.joints, joint);
    const std::vector<Joint> left = joints_of(changed);
    for (CouplingEntry& entry : changed.couplings)
        for (std::string& name : entry.joints)
            if (name == joint.name && !find_joint(changed, left, name))
                name = default_joint_name(changed, joint.turns, joint.against);
    return changed;
}

ChangedTrain with_typed(const Train& train, const std::vector<Coupling>& couplings, std::size_t which,
                        const std::optional<DegreePair>& typed) {
    ChangedTrain changed = with_all_written(train, couplings);
    if (changed.train) changed.train->couplings[which].typed = typed;
    return changed;
}

ChangedTrain with_coupling(const Train& train, const std::vector<Coupling>& couplings, const Joint& first,
                           const Joint& second) {
    if (same_pair(first, second)) return {std::nullopt, "a coupling has two different joints"};
    std::vector<Coupling> more = couplings;
    more.emplace_back().first = first;
    more.back().second = second;
    return with_all_written(train, more);
}

ChangedTrain without_coupling(const Train& train, const std::vector<Coupling>& couplings, std::size_t which) {
    std::vector<Coupling> fewer = couplings;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(which));
    return with_all_written(train, fewer);
}

Train with_default_couplings(Train train) {
    train.couplings.clear();
    return train;
}

}  // namespace couplet
