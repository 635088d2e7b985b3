// The session's part about clips: beginning a recording, and what becomes of it.
#include <fmt/format.h>

#include <system_error>

#include "app/clip_wish.hpp"
#include "app/process.hpp"
#include "app/session_parts.hpp"
#include "scene/error.hpp"
#include "scene/scene.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

// The window and the program that records stand in one folder.
fs::path recorder_of(const Session& session) {
    return session.recorder.empty() ? this_program().parent_path() / "couplet" : session.recorder;
}

// The train as it is now, for the recording alone. Throws SceneError.
fs::path kept_for_clip(const Session& session) {
    std::error_code ignored;
    fs::create_directories(session.keepsakes, ignored);
    const fs::path path = session.keepsakes / fmt::format("recording-{}.toml", this_process().pid);
    save_scene_text(path, write_scene(clip_draft(session.draft()).train));
    return path;
}

std::string fault_of(const Session& session, const ClipChoice& choice) {
    if (session.clip_job)
        return fmt::format("{} is still being recorded: one at a time", last_name(session.clip_job->order().target));
    if (std::string fault = size_fault(choice); !fault.empty()) return fault;
    if (std::string fault = background_fault(choice); !fault.empty()) return fault;
    return clip_plan_of(session, choice).why_not;
}

void begin_clip(Session& session, const RecordClip& record) {
    try {
        const fs::path scene = kept_for_clip(session);
        session.clip_job = std::make_shared<ClipJob>(
            ClipOrder{recorder_of(session), clip_arguments(session, record.choice, record.zoom, scene), scene,
                      clip_target(session, record.choice)});
        session.view.preview_since_s.reset();
        drop_notices(session, "clip");
    } catch (const std::exception& error) {
        complain(session, error.what(), "clip");
    }
}

void tell_recorded(Session& session, const fs::path& target) {
    Notice notice;
    notice.text = fmt::format("{} is recorded, in {}", last_name(target),
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
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.about = "clip";
    notice.text = fmt::format("There is a file {} already.", last_name(target));
    notice.actions = {{"replace it", {RecordClip{record.choice, record.zoom, Existing::replace}}}, {"leave it", {}}};
    tell(session, std::move(notice));
}

void obey(Session& session, const CancelClip& /*unused*/) {
    if (session.clip_job) session.clip_job->cancel();
}

bool look_after_clip(Session& session, double now_s) {
    if (!session.clip_job || !session.clip_job->look(now_s)) return false;
    session.now_s = now_s;
    const ClipProgress& progress = session.clip_job->progress();
    if (!progress.is_over()) return true;
    const std::shared_ptr<ClipJob> over = std::move(session.clip_job);
    session.clip_job.reset();
    const fs::path& target = over->order().target;
    switch (progress.state) {
        case ClipProgress::State::recorded:
            tell_recorded(session, target);
            break;
        case ClipProgress::State::failed:
            complain(session, fmt::format("{} is not recorded: {}", last_name(target), progress.why_failed), "clip");
            break;
        default:
            note(session, fmt::format("the recording of {} is cancelled", last_name(target)), "clip");
    }
    return true;
}

}  // namespace couplet
