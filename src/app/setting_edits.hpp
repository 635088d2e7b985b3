// Setting edits: what the user changes of settings, each as a new draft.
#pragma once

#include <string>
#include <vector>

#include "app/draft.hpp"

namespace couplet {

// "hauling: ring held, crank drives at 30 rpm".
[[nodiscard]] std::string setting_sentence(const Train& train, const Setting& setting);

// The running setting becomes `changed`, whose name counts for nothing: in the trial where one runs, else in the
// train's chosen setting, else as a first setting of the train.
[[nodiscard]] Draft with_running_setting(const Draft& draft, Setting changed);

// A copy of the running setting under a name of its own, chosen; a trial is kept in it.
[[nodiscard]] Draft with_setting_added(const Draft& draft);
// Without the chosen one; the next one is chosen. The train must have a setting.
[[nodiscard]] Draft without_chosen_setting(const Draft& draft);
[[nodiscard]] Draft without_trial(const Draft& draft);

// What is wrong with a new name of the chosen setting; empty: nothing.
[[nodiscard]] std::string setting_name_fault(const Draft& draft, const std::string& name);
[[nodiscard]] Draft with_chosen_setting_named(const Draft& draft, const std::string& name);

// Members that may be held or may drive: none that is held or drives already.
[[nodiscard]] std::vector<MemberIndex> free_members(const Train& train, const Setting& setting);
// Members that may be tied to one: none that it is tied to already.
[[nodiscard]] std::vector<MemberIndex> could_be_tied(const Train& train, const Setting& setting, MemberIndex member);

}  // namespace couplet
