// The session's part about what the program makes in the background: beginning a recording, or files to hand over, and
// what becomes of it.
#include <fmt/format.h>

#include <system_error>

#include "app/clip_wish.hpp"
#include "app/hand_over.hpp"
#include "app/process.hpp"
#include "app/session_parts.hpp"
#include "scene/error.hpp"
#include "scene/scene.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

// The window and the program stand in one folder.
fs::path program_of(const Session& session) {
    return session.program.empty() ? this_program().parent_path() / "couplet" : session.program;
}

// The train as it is now, for the job alone. Throws SceneError.
fs::path kept_for_job(const Session& session) {
    std::error_code ignored;
    fs::create_directories(session.keepsakes, ignored);
    const fs::path path = session.keepsakes / fmt::format("job-{}.toml", this_process().pid);
    save_scene_text(path, write_scene(clip_draft(session.draft()).train));
    return path;
}

// One job at a time; empty where there is none.
std::string still_busy(const Session& session) {
    if (!session.job) return {};
    return fmt::format("{} is still being {}: one at a time", last_name(session.job->order().target),
                       session.job->order().done);
}

std::string fault_of(const Session& session, const ClipChoice& choice) {
    if (std::string busy = still_busy(session); !busy.empty()) return busy;
    if (std::string fault = size_fault(choice); !fault.empty()) return fault;
    if (std::string fault = background_fault(choice); !fault.empty()) return fault;
    return clip_plan_of(session, choice).why_not;
}

// `arguments_for` gives the command line for the file that holds the train.
template <class ArgumentsFor>
void begin_job(Session& session, const fs::path& target, std::string_view done, const ArgumentsFor& arguments_for) {
    try {
        const fs::path scene = kept_for_job(session);
        session.job =
            std::make_shared<ProgramJob>(ProgramOrder{program_of(session), arguments_for(scene), scene, target, done});
        drop_notices(session, "clip");
    } catch (const std::exception& error) {
        complain(session, error.what(), "clip");
    }
}

void begin_clip(Session& session, const RecordClip& record) {
    begin_job(session, clip_target(session, record.choice), "recorded",
              [&](const fs::path& scene) { return clip_arguments(session, record.choice, record.zoom, scene); });
    session.view.preview_since_s.reset();
}

// Puts the question whether a file may be replaced; `then` is what replaces it.
void ask_to_replace(Session& session, const fs::path& target, Command then) {
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.about = "clip";
    notice.text =
        fmt::format("There is {} {} already.", target.has_filename() ? "a file" : "a folder", last_name(target));
    notice.actions = {{"replace it", {std::move(then)}}, {"leave it", {}}};
    tell(session, std::move(notice));
}

void tell_done(Session& session, const ProgramOrder& order) {
    const fs::path& target = order.target;
    Notice notice;
    notice.text = fmt::format("{} is {}, in {}", last_name(target), order.done,
                              (target.has_filename() ? target : target.parent_path()).parent_path().string());
    notice.actions = {{"copy its path", {CopyText{target.string()}}}};
    notice.about = "clip";
    tell(session, std::move(notice));
}

}  // namespace

void obey(Session& session, const RecordClip& record) {
    if (std::string fault = fault_of(session, record.choice); !fault.empty()) {
        complain(session, std::move(fault), "clip");
        return;
    }
    const fs::path target = clip_target(session, record.choice);
    std::error_code ignored;
    // A folder that holds something is refused by the recorder: it is never replaced.
    if (record.existing == Existing::replace || fs::is_directory(target, ignored) || !fs::exists(target, ignored)) {
        begin_clip(session, record);
        return;
    }
    ask_to_replace(session, target, RecordClip{record.choice, record.zoom, Existing::replace});
}

void obey(Session& session, const HandOver& hand_over) {
    if (std::string busy = still_busy(session); !busy.empty()) {
        complain(session, std::move(busy), "clip");
        return;
    }
    const HandOverKind& kind = kHandOverKinds[hand_over.kind];
    const fs::path target = hand_over_target(session, kind);
    std::error_code ignored;
    if (hand_over.existing == Existing::ask && fs::exists(target, ignored)) {
        ask_to_replace(session, target, HandOver{hand_over.kind, Existing::replace});
        return;
    }
    begin_job(session, target, "written",
              [&](const fs::path& scene) { return hand_over_arguments(session, kind, scene); });
}

void obey(Session& session, const CancelJob& /*unused*/) {
    if (session.job) session.job->cancel();
}

bool look_after_job(Session& session, double now_s) {
    if (!session.job || !session.job->look(now_s)) return false;
    session.now_s = now_s;
    const ProgramProgress& progress = session.job->progress();
    if (!progress.is_over()) return true;
    const std::shared_ptr<ProgramJob> over = std::move(session.job);
    session.job.reset();
    const ProgramOrder& order = over->order();
    switch (progress.state) {
        case ProgramProgress::State::done:
            tell_done(session, order);
            break;
        case ProgramProgress::State::failed:
            complain(session, fmt::format("{} is not {}: {}", last_name(order.target), order.done, progress.why_failed),
                     "clip");
            break;
        default:
            note(session, fmt::format("{} is cancelled: it is not {}", last_name(order.target), order.done), "clip");
    }
    return true;
}

}  // namespace couplet
