#include "sheet/words.hpp"

#include <fmt/format.h>

#include "sheet/numbers.hpp"

namespace couplet {

std::string list_text(const std::vector<std::string>& names, std::string_view last) {
    const bool cut = names.size() > kLongestList;
    const std::size_t named = cut ? kLongestList - 1 : names.size();
    std::string text;
    for (std::size_t i = 0; i < named; ++i) {
        const bool is_last = !cut && i + 1 == named;
        if (i > 0) text += is_last ? fmt::format(" {} ", last) : ", ";
        text += names[i];
    }
    return cut ? fmt::format("{} {} {} others", text, last, names.size() - named) : text;
}

std::vector<std::string> names_of(const Train& train, const std::vector<MemberIndex>& members) {
    std::vector<std::string> names;
    names.reserve(members.size());
    for (const MemberIndex member : members) names.push_back(name_of(train, member));
    return names;
}

std::string full_name(const Train& train, GearIndex gear) {
    const std::string& member = name_of(train, train[gear].member);
    return train[gear].name.empty() ? member : member + '/' + train[gear].name;
}

std::string member_label(const Train& train, MemberIndex member) {
    const std::string& name = name_of(train, member);
    if (member == kFrame || train[member].copies == 1) return name;
    return fmt::format("{} ({} copies)", name, train[member].copies);
}

std::string joint_name(const Train& train, const Joint& joint) {
    return joint.name.empty() ? default_joint_name(train, joint.turns, joint.against) : joint.name;
}

std::string joint_label(const Train& train, const Joint& joint) {
    const std::string name = joint_name(train, joint);
    const std::string members = default_joint_name(train, joint.turns, joint.against);
    if (name == members) return joint.flipped ? name + " (flipped)" : name;
    return fmt::format("{} ({}{})", name, members, joint.flipped ? ", flipped" : "");
}

std::string drive_text(const Train& train, const Drive& drive) {
    return fmt::format("{} at {} rpm", name_of(train, drive.member), decimal_cell(drive.rpm).shown);
}

std::string tie_text(const Train& train, const std::pair<MemberIndex, MemberIndex>& tie) {
    return name_of(train, tie.first) + " = " + name_of(train, tie.second);
}

std::vector<std::string> parameter_names(const Train& train, const Motion& motion) {
    std::vector<std::string> names;
    for (const Drive& driver : motion.drivers) names.push_back(name_of(train, driver.member));
    for (const MemberIndex member : motion.free_joints)
        names.push_back(default_joint_name(train, member, rides_on(train, member)));
    return names;
}

std::string combination_text(const Combination& combination, const std::vector<std::string>& parameters) {
    std::string text;
    for (std::size_t i = 0; i < combination.size(); ++i) {
        const Ratio& coefficient = combination[i];
        if (coefficient.is_zero()) continue;
        const bool negative = coefficient.sign() < 0;
        text += text.empty() ? (negative ? "-" : "") : (negative ? " - " : " + ");
        if (coefficient.magnitude() != Ratio(1)) text += fraction_cell(coefficient.magnitude()).shown + ' ';
        text += parameters[i];
    }
    return text.empty() ? "0" : text;
}

std::string counted(std::size_t count, std::string_view noun) {
    return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string_view sense_text(const Ratio& turns_per_turn) {
    if (turns_per_turn.is_zero()) return "stands still";
    return turns_per_turn.sign() < 0 ? "opposite" : "same";
}

std::string_view outcome_name(Outcome outcome) {
    switch (outcome) {
        case Outcome::moves:
            return "moves";
        case Outcome::free:
            return "free";
        case Outcome::locked:
            return "locked";
        case Outcome::conflicting:
            return "conflicting";
    }
    return "";
}

}  // namespace couplet
