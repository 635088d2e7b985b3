#include "app/setting_edits.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/given_name.hpp"
#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

bool alike_but_for_names(Setting a, const Setting& b) {
    a.name = b.name;
    return a == b;
}

Draft with_new_setting(Draft draft, Setting setting, const std::string& began_as) {
    setting.name = new_setting_name(draft.train, began_as);
    draft.train.settings.push_back(std::move(setting));
    draft.chosen = {static_cast<std::int32_t>(draft.train.settings.size()) - 1};
    draft.trial.reset();
    return draft;
}

}  // namespace

std::string setting_sentence(const Train& train, const Setting& setting) {
    std::vector<std::string> parts;
    if (!setting.hold.empty()) parts.push_back(list_text(names_of(train, setting.hold)) + " held");
    std::vector<std::string> ties;
    for (const auto& tie : setting.tie) ties.push_back(tie_text(train, tie));
    if (!ties.empty()) parts.push_back(list_text(ties) + " tied");
    std::vector<std::string> drives;
    for (const Drive& drive : setting.drive)
        drives.push_back(
            fmt::format("{} drives at {} rpm", name_of(train, drive.member), decimal_cell(drive.rpm).shown));
    if (!drives.empty()) parts.push_back(list_text(drives));
    const std::string all = parts.empty() ? "nothing held, nothing driven" : fmt::format("{}", fmt::join(parts, ", "));
    return setting.name.empty() ? all : setting.name + ": " + all;
}

Draft with_running_setting(const Draft& draft, Setting changed) {
    Draft result = draft;
    if (result.trial) {
        changed.name = result.trial->name;
        result.trial = std::move(changed);
        if (result.chosen.value >= 0 && alike_but_for_names(*result.trial, result.train[result.chosen]))
            result.trial.reset();
        return result;
    }
    if (result.chosen.value < 0) return with_new_setting(std::move(result), std::move(changed), "");
    changed.name = result.train[result.chosen].name;
    result.train.settings[result.chosen.position()] = std::move(changed);
    return result;
}

Draft with_setting_added(const Draft& draft) {
    const std::string name = draft.chosen.value < 0 ? "" : draft.train[draft.chosen].name;
    return with_new_setting(draft, running_setting(draft), name);
}

Draft without_chosen_setting(const Draft& draft) {
    Draft result = draft;
    std::vector<Setting>& settings = result.train.settings;
    settings.erase(settings.begin() + draft.chosen.value);
    result.chosen.value = std::min(result.chosen.value, static_cast<std::int32_t>(settings.size()) - 1);
    result.trial.reset();
    return result;
}

Draft without_trial(const Draft& draft) {
    Draft result = draft;
    result.trial.reset();
    return result;
}

std::string setting_name_fault(const Draft& draft, const std::string& name) {
    std::vector<std::string> others;
    for (std::size_t s = 0; s < draft.train.settings.size(); ++s)
        if (s != draft.chosen.position()) others.push_back(draft.train.settings[s].name);
    return name_fault(name, "setting", others);
}

Draft with_chosen_setting_named(const Draft& draft, const std::string& name) {
    Draft result = draft;
    result.train.settings[draft.chosen.position()].name = name;
    if (result.trial) result.trial->name = name;
    return result;
}

std::vector<MemberIndex> free_members(const Train& train, const Setting& setting) {
    std::vector<bool> taken(train.members.size(), false);
    for (const MemberIndex member : setting.hold) taken[member.position()] = true;
    for (const Drive& drive : setting.drive) taken[drive.member.position()] = true;
    std::vector<MemberIndex> members;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(taken.size()); ++m)
        if (!taken[static_cast<std::size_t>(m)]) members.push_back({m});
    return members;
}

std::vector<MemberIndex> could_be_tied(const Train& train, const Setting& setting, MemberIndex member) {
    std::vector<bool> taken(train.members.size(), false);
    taken[member.position()] = true;
    for (const auto& [first, second] : setting.tie) {
        if (first == member) taken[second.position()] = true;
        if (second == member) taken[first.position()] = true;
    }
    std::vector<MemberIndex> members;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(taken.size()); ++m)
        if (!taken[static_cast<std::size_t>(m)]) members.push_back({m});
    return members;
}

}  // namespace couplet
