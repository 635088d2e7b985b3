#include "app/session.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/session_parts.hpp"
#include "scene/error.hpp"
#include "sheet/words.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

constexpr double kNoteStays_s = 3.0;

// The view may not speak of members that are gone.
void keep_view_in_range(ViewState& view, const Train& train) {
    const auto gone = [&](MemberIndex member) { return member.position() >= train.members.size(); };
    if (view.look.observer != kFrame && gone(view.look.observer)) view.look.observer = kFrame;
    if (view.pointed && *view.pointed != kFrame && gone(*view.pointed)) view.pointed.reset();
    view.look.materials.clear();
    view.mesh_shown.reset();
}

// Of the present draft, which could be worked with before.
void study_again(Session& session) {
    take_study(session,
               std::make_shared<const Study>(session.draft(), session.view.couple_options, session.study.get()));
}

void obey(Session& session, const ChangeDraft& change) {
    if (change.draft == session.draft()) return;
    std::shared_ptr<const Study> study = studied(session, change.draft);
    if (!study) return;
    drop_notices(session, "edit");
    session.history.change(change.what, change.draft, change.key);
    take_study(session, std::move(study));
}

void obey(Session& session, const ChooseSetting& choose) {
    if (session.draft().trial) {
        Draft draft = session.draft();
        draft.trial.reset();
        draft.chosen = choose.setting;
        const std::string name = choose.setting.value < 0 ? "the start" : session.train()[choose.setting].name;
        session.history.change("back to " + name, std::move(draft));
    } else {
        session.history.choose(choose.setting);
    }
    study_again(session);
}

void obey(Session& session, const Undo& /*unused*/) {
    if (!session.history.can_undo()) return;
    note(session, "undone: " + session.history.undo_what(), "undo");
    session.history.undo();
    study_again(session);
}

void obey(Session& session, const Redo& /*unused*/) {
    if (!session.history.can_redo()) return;
    note(session, "done again: " + session.history.redo_what(), "undo");
    session.history.redo();
    study_again(session);
}

// Why a member does not follow the hand.
std::string why_still(const Session& session, MemberIndex member) {
    const std::string& name = name_of(session.train(), member);
    if (member == session.view.look.observer)
        return fmt::format("{} is the observer: nothing turns against itself", name);
    if (is_held(session.study->setting(), member)) return fmt::format("{} is held: pull its pin to turn it", name);
    if (session.study->motion().outcome == Outcome::locked) return "the train is locked: pull a pin";
    return fmt::format("{} stands still in this setting", name);
}

void obey(Session& session, const TurnMember& turn) {
    const Study& study = *session.study;
    if (!session.crank.turn_member(study.train(), study.motion(), turn.member, session.view.look.observer, turn.turns))
        note(session, why_still(session, turn.member), "hand");
}

void obey(Session& session, const StepTooth& step) {
    session.crank.step_one_tooth(session.train(), session.study->motion(), step.direction);
}

void obey(Session& session, const BackToStart& /*unused*/) {
    session.crank.start_again(session.train(), session.study->motion());
}

void obey(Session& session, const CopyText& copy) {
    session.clipboard = copy.text;
    note(session, fmt::format("{} copied", shown(copy.text)), "copied");
}

void obey(Session& session, const Tell& told) {
    note(session, told.text, "told");
}

void obey(Session& session, const SetPreferences& set) {
    session.preferences = set.preferences;
    keep_preferences(session.keepsakes, set.preferences);
}

void obey_all(Session& session, const std::vector<Command>& commands);

void obey(Session& session, const Answer& answer) {
    if (answer.notice >= session.notices.size()) return;
    const Notice notice = session.notices[answer.notice];
    session.notices.erase(session.notices.begin() + static_cast<std::ptrdiff_t>(answer.notice));
    if (answer.action < notice.actions.size()) obey_all(session, notice.actions[answer.action].does);
}

void obey_all(Session& session, const std::vector<Command>& commands) {
    for (const Command& command : commands) std::visit([&](const auto& one) { obey(session, one); }, command);
}

}  // namespace

void tell(Session& session, Notice notice) {
    if (!notice.about.empty())
        std::erase_if(session.notices, [&](const Notice& other) { return other.about == notice.about; });
    session.notices.push_back(std::move(notice));
}

void drop_notices(Session& session, std::string_view about) {
    std::erase_if(session.notices, [&](const Notice& notice) { return notice.about == about; });
}

void note(Session& session, std::string text, std::string about) {
    Notice notice;
    notice.text = std::move(text);
    notice.about = std::move(about);
    notice.fades_at_s = session.now_s + kNoteStays_s;
    tell(session, std::move(notice));
}

void complain(Session& session, std::string text, std::string about) {
    Notice notice;
    notice.kind = Notice::Kind::error;
    notice.text = std::move(text);
    notice.about = std::move(about);
    tell(session, std::move(notice));
}

bool fade_notices(Session& session) {
    return std::erase_if(session.notices, [&](const Notice& notice) {
               return notice.fades_at_s > 0 && notice.fades_at_s <= session.now_s;
           }) > 0;
}

void take_stage(Session& session) {
    const OrWhyNot<std::shared_ptr<const Stage>>& stage = session.study->stage();
    if (!stage.part) {
        complain(session, fmt::format("The stage shows the last train that could be drawn: {}", stage.why_not),
                 "stage");
        return;
    }
    drop_notices(session, "stage");
    if (session.stage == *stage.part) return;
    session.stage = *stage.part;
    ++session.stage_count;
}

void take_study(Session& session, std::shared_ptr<const Study> study) {
    leave_found(session);
    const bool same_train = session.study && same_teeth(session.study->train(), study->train());
    session.study = std::move(study);
    ClipChoice& clip = session.view.clip;
    if (clip.path == PathKind::shots && session.train().shots.empty()) clip.path = PathKind::turntable;
    if (same_train) {
        session.crank.go_on_with(session.train(), session.study->motion());
    } else {
        keep_view_in_range(session.view, session.train());
        session.crank.start_again(session.train(), session.study->motion());
    }
    take_stage(session);
}

std::shared_ptr<const Study> studied(Session& session, const Draft& draft) {
    try {
        const std::vector<TrainFault> wrong = faults(draft.train);
        if (wrong.empty())
            return std::make_shared<const Study>(draft, session.view.couple_options, session.study.get());
        complain(session, fmt::format("{}; {}", wrong.front().wrong, wrong.front().right), "edit");
    } catch (const std::exception& error) {
        complain(session, error.what(), "edit");
    }
    return nullptr;
}

void apply(Session& session, const Edits& edits, double now_s) {
    session.now_s = now_s;
    const bool options_changed = edits.view.couple_options != session.view.couple_options;
    session.view = edits.view;
    obey_all(session, edits.commands);
    if (options_changed) study_again(session);
    follow_find(session);
    (void)fade_notices(session);
}

bool run_for(Session& session, double seconds) {
    const Motion& motion = session.study->motion();
    const std::optional<std::size_t> reference = reference_driver(motion);
    if (!session.view.running || !reference || motion.outcome == Outcome::locked ||
        motion.outcome == Outcome::conflicting)
        return false;
    const double rpm = motion.drivers[*reference].rpm.magnitude().to_double();
    const double turns = rpm / 60 * seconds * session.view.speed * (session.view.backwards ? -1 : 1);
    const std::uint64_t before = session.crank.changes();
    session.crank.run(motion, turns);
    return session.crank.changes() != before;
}

Standing standing_now(const Session& session) {
    const Stage& stage = *session.stage;
    const Motion& motion = session.study->motion();
    if (same_teeth(stage.train, session.train())) return standing_with(stage, motion, session.crank.joint_phases());
    return standing_with(stage, resting_motion(), std::vector<Ratio>(stage.train.members.size(), Ratio(0)));
}

}  // namespace couplet
