#include "app/draft.hpp"

#include <algorithm>
#include <stdexcept>

#include "app/given_name.hpp"
#include "motion/explain.hpp"

namespace couplet {

namespace {

// Where nothing else says how fast a member would be driven.
constexpr int kUsual_rpm = 10;

std::vector<MemberIndex> sorted(std::vector<MemberIndex> members) {
    std::ranges::sort(members);
    return members;
}

std::vector<std::pair<MemberIndex, MemberIndex>> sorted(std::vector<std::pair<MemberIndex, MemberIndex>> ties) {
    for (auto& [first, second] : ties)
        if (second < first) std::swap(first, second);
    std::ranges::sort(ties);
    return ties;
}

// Holds and ties mean the same in any order; of the drivers the first is the reference.
bool are_alike(const Setting& a, const Setting& b) {
    return a.drive == b.drive && sorted(a.hold) == sorted(b.hold) && sorted(a.tie) == sorted(b.tie);
}

Setting chosen_setting(const Draft& draft) {
    return draft.chosen.value < 0 ? Setting{} : draft.train[draft.chosen];
}

Draft with_trial(const Draft& draft, Setting trial) {
    Draft changed = draft;
    if (are_alike(trial, chosen_setting(draft)))
        changed.trial.reset();
    else
        changed.trial = std::move(trial);
    return changed;
}

void stop_driving(Setting& setting, MemberIndex member) {
    std::erase_if(setting.drive, [&](const Drive& drive) { return drive.member == member; });
}

// Nothing where the train is beyond solving; the draft is changed all the same, and whoever shows it says why.
std::optional<Motion> motion_of(const Train& train, const Setting& setting) {
    try {
        return solve(train, setting);
    } catch (const RatesTooLarge&) {
        return std::nullopt;
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

bool moves(const Train& train, const Setting& setting) {
    const std::optional<Motion> motion = motion_of(train, setting);
    return motion && motion->outcome == Outcome::moves;
}

// A member that could take the one missing driver: the first that rides on the frame, else the first.
std::optional<MemberIndex> next_driver(const Train& train, const Setting& setting) {
    const std::optional<Motion> motion = motion_of(train, setting);
    if (!motion || motion->outcome != Outcome::free) return std::nullopt;
    const std::vector<MemberIndex> could = explain(train, setting, *motion).could_drive;
    if (could.empty()) return std::nullopt;
    const auto on_frame = std::ranges::find(could, kFrame, [&](MemberIndex m) { return rides_on(train, m); });
    return on_frame == could.end() ? could.front() : *on_frame;
}

// The speed for a further driver: that of the reference driver, or of the first one that any setting has.
Ratio usual_speed(const Draft& draft, const Setting& running) {
    if (!running.drive.empty()) return running.drive.front().rpm;
    if (const Setting chosen = chosen_setting(draft); !chosen.drive.empty()) return chosen.drive.front().rpm;
    for (const Setting& setting : draft.train.settings)
        if (!setting.drive.empty()) return setting.drive.front().rpm;
    return kUsual_rpm;
}

Setting with_driver(const Draft& draft, Setting setting, MemberIndex member) {
    if (is_driven(setting, member)) return setting;
    const Ratio rpm = usual_speed(draft, setting);
    std::erase(setting.hold, member);
    if (setting.drive.size() == 1) {
        Setting instead = setting;
        instead.drive = {{member, rpm}};
        if (moves(draft.train, instead)) return instead;
    }
    setting.drive.push_back({member, rpm});
    return setting;
}

}  // namespace

Draft draft_of(Train train) {
    const SettingIndex first{train.settings.empty() ? -1 : 0};
    return {std::move(train), first, std::nullopt};
}

Setting running_setting(const Draft& draft) {
    return draft.trial ? *draft.trial : chosen_setting(draft);
}

Draft pinned(const Draft& draft, MemberIndex member) {
    Setting setting = running_setting(draft);
    if (is_held(setting, member)) return draft;
    setting.hold.push_back(member);
    const std::vector<Drive> before = setting.drive;
    stop_driving(setting, member);
    if (before.size() == 1 && setting.drive.empty())
        if (const std::optional<MemberIndex> next = next_driver(draft.train, setting))
            setting.drive.push_back({*next, before.front().rpm});
    return with_trial(draft, std::move(setting));
}

Draft unpinned(const Draft& draft, MemberIndex member) {
    Setting setting = running_setting(draft);
    std::erase(setting.hold, member);
    return with_trial(draft, std::move(setting));
}

Draft driven_by(const Draft& draft, MemberIndex member) {
    return with_trial(draft, with_driver(draft, running_setting(draft), member));
}

Draft not_driven_by(const Draft& draft, MemberIndex member) {
    Setting setting = running_setting(draft);
    stop_driving(setting, member);
    return with_trial(draft, std::move(setting));
}

Draft driven_at(const Draft& draft, MemberIndex member, const Ratio& rpm) {
    Setting setting = with_driver(draft, running_setting(draft), member);
    std::ranges::find(setting.drive, member, &Drive::member)->rpm = rpm;
    return with_trial(draft, std::move(setting));
}

Draft without_tie(const Draft& draft, std::size_t tie) {
    Setting setting = running_setting(draft);
    setting.tie.erase(setting.tie.begin() + static_cast<std::ptrdiff_t>(tie));
    return with_trial(draft, std::move(setting));
}

std::string new_setting_name(const Train& train, const std::string& began_as) {
    std::vector<std::string> taken;
    for (const Setting& setting : train.settings) taken.push_back(setting.name);
    return unused_name(began_as.empty() ? "setting 1" : began_as, taken);
}

Draft trial_kept_as_new(const Draft& draft) {
    if (!draft.trial) return draft;
    Draft kept = draft;
    kept.trial.reset();
    kept.train.settings.push_back(*draft.trial);
    kept.train.settings.back().name = new_setting_name(draft.train, draft.trial->name);
    kept.chosen = {static_cast<std::int32_t>(kept.train.settings.size()) - 1};
    return kept;
}

Draft trial_kept_in_place(const Draft& draft) {
    if (!draft.trial) return draft;
    if (draft.chosen.value < 0) return trial_kept_as_new(draft);
    Draft kept = draft;
    kept.trial.reset();
    Setting& chosen = kept.train.settings[draft.chosen.position()];
    const std::string name = chosen.name;
    chosen = *draft.trial;
    chosen.name = name;
    return kept;
}

}  // namespace couplet
