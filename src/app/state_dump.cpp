#include "app/state_dump.hpp"

#include "motion/pose.hpp"
#include "sheet/coupling_json.hpp"
#include "sheet/json_values.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr const char* kSteps[] = {"scene", "find", "size", "place", "couple", "watch", "record", "keys"};

Json text_or_null(const std::string& text) {
    return text.empty() ? Json() : Json(text);
}

Json dials_json(const Session& session) {
    const Study& study = *session.study;
    const std::vector<Ratio> phases = frame_phases_turns(study.train(), session.crank.joint_phases());
    const Setting& setting = study.setting();
    Json dials = Json::array();
    for (const MemberRate& rate : study.sheet().members) {
        dials.push_back({{"member", name_of(study.train(), rate.member)},
                         {"turns", exact_json(rate.turns_per_driver_turn)},
                         {"held", is_held(setting, rate.member)},
                         {"driven", is_driven(setting, rate.member)},
                         {"phase_turns", phases[rate.member.position()].to_string()}});
    }
    return dials;
}

Json recording_json(const Session& session) {
    if (!session.job) return {};
    const ProgramProgress& progress = session.job->progress();
    return {{"target", session.job->order().target.string()},
            {"state", progress.state == ProgramProgress::State::stopping ? "stopping" : "recording"},
            {"frames_done", progress.frames_done},
            {"frames", progress.frames}};
}

Json notices_json(const Session& session) {
    constexpr const char* kKinds[] = {"note", "question", "error"};
    Json notices = Json::array();
    for (const Notice& notice : session.notices) {
        Json actions = Json::array();
        for (const Notice::Action& action : notice.actions) actions.push_back(action.name);
        notices.push_back(
            {{"kind", kKinds[static_cast<int>(notice.kind)]}, {"text", notice.text}, {"actions", actions}});
    }
    return notices;
}

Json said_json(const Screen& screen) {
    Json said = Json::array();
    for (const Said& one : screen.said)
        said.push_back({{"role", one.role},
                        {"name", one.name},
                        {"value", one.value},
                        {"box_px", one.box_px},
                        {"enabled", one.enabled}});
    return said;
}

}  // namespace

std::string state_dump(const Session& session, const Screen& screen, const WindowFacts& facts) {
    const Study& study = *session.study;
    const CouplingSheet& sheet = study.sheet();
    Json dump;
    dump["couplet"] = 1;
    dump["scene"] = session.train().title;
    dump["file"] = text_or_null(session.file.path.string());
    dump["saved"] = session.is_saved();
    dump["panel"] = session.view.open ? Json(kSteps[static_cast<int>(*session.view.open)]) : Json();
    dump["setting"] = sheet.setting.name;
    dump["trial"] = session.draft().trial.has_value();
    dump["outcome"] = outcome_name(sheet.motion.outcome);
    dump["outcome_line"] = outcome_line(sheet.motion);
    dump["driver"] = sheet.reference_driver ? Json(name_of(study.train(), sheet.reference_driver->member)) : Json();
    dump["running"] = session.view.running;
    dump["driver_turns"] = session.crank.driver_turns(sheet.motion).to_string();
    dump["observer"] = name_of(study.train(), session.view.look.observer);
    dump["daylight"] = session.preferences.daylight == Daylight::light ? "light" : "dark";
    dump["scale"] = screen.scale;
    dump["window_px"] = {facts.width_px, facts.height_px};
    dump["stage_px"] = facts.stage_px;
    dump["picture"] = facts.picture;
    dump["recording"] = recording_json(session);
    dump["frames"] = facts.frames;
    dump["stage_frames"] = facts.stage_frames;
    dump["first_frame_s"] = facts.first_frame_s;
    dump["undo"] = text_or_null(session.history.undo_what());
    dump["redo"] = text_or_null(session.history.redo_what());
    dump["dials"] = dials_json(session);
    dump["couplings"] = Json::parse(coupling_json(study.train(), sheet))["couplings"];
    dump["notices"] = notices_json(session);
    dump["said"] = said_json(screen);
    dump["gl_errors"] = facts.gl_errors;
    return json_text(dump);
}

}  // namespace couplet
