// Draft: what the user is working on, as one plain value: a train and which of its settings moves it.
//
// Pins and handles on the dial row do not touch the train's settings: they make a trial, a setting that stands beside
// them until the user keeps it. Undo keeps old drafts (history.hpp).
#pragma once

#include <optional>

#include "train/train.hpp"

namespace couplet {

struct Draft {
    Train train;
    SettingIndex chosen;           // -1: the train has no setting
    std::optional<Setting> trial;  // named after the setting that it began as; empty where there was none

    friend bool operator==(const Draft&, const Draft&) = default;
};

// The draft of a train that was just opened: its first setting, nothing tried.
[[nodiscard]] Draft draft_of(Train train);

// The setting that moves the train now: the trial, else the chosen one, else one without holds and drivers.
[[nodiscard]] Setting running_setting(const Draft& draft);

// What the dial row does. Each makes a trial of the running setting; a trial that has come to be like the chosen
// setting is dropped. A member that is held drives nothing and a driver is not held: the one takes the place of the
// other. Where the only driver is pinned, another member that could drive takes its speed (motion/explain.hpp: the
// first that rides on the frame, else the first). The member is never kFrame; the train has no faults.
[[nodiscard]] Draft pinned(const Draft& draft, MemberIndex member);
[[nodiscard]] Draft unpinned(const Draft& draft, MemberIndex member);
// The member becomes a driver: instead of the only one where the train then still moves, else beside the others. It
// takes the speed of the first driver, where there is none that of the first driver of the chosen setting or of any.
[[nodiscard]] Draft driven_by(const Draft& draft, MemberIndex member);
[[nodiscard]] Draft not_driven_by(const Draft& draft, MemberIndex member);
// The same at that speed, which is a decimal; a driver gets the speed.
[[nodiscard]] Draft driven_at(const Draft& draft, MemberIndex member, const Ratio& rpm);
// `tie` is its position in the running setting.
[[nodiscard]] Draft without_tie(const Draft& draft, std::size_t tie);

// For a further setting, which began as one of that name ("hauling": "hauling 2"); "setting 1" where it had none.
[[nodiscard]] std::string new_setting_name(const Train& train, const std::string& began_as);

// The trial as a new setting of the train under a new name ("hauling 2"), chosen; or in place of the chosen one, whose
// name stays (where none is chosen, as a new one). Without a trial the draft as it is.
[[nodiscard]] Draft trial_kept_as_new(const Draft& draft);
[[nodiscard]] Draft trial_kept_in_place(const Draft& draft);

}  // namespace couplet
