#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <system_error>

#include "app/session_parts.hpp"
#include "scene/default_scene.hpp"
#include "scene/error.hpp"
#include "sheet/search_report.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace fs = std::filesystem;

namespace {

// Three lines before and after the place.
std::optional<Notice::Excerpt> excerpt_of(const fs::path& path, int line) {
    constexpr int kAround = 3;
    if (line < 1) return std::nullopt;
    try {
        std::istringstream text(load_scene_text(path));
        Notice::Excerpt excerpt{std::max(1, line - kAround), {}, line};
        std::string one;
        for (int n = 1; n <= line + kAround && std::getline(text, one); ++n)
            if (n >= excerpt.first_line) excerpt.lines.push_back(shown(one, 100));
        return excerpt;
    } catch (const SceneError&) {
        return std::nullopt;
    }
}

void complain_of_scene(Session& session, const fs::path& path, const SceneError& error) {
    Notice notice;
    notice.kind = Notice::Kind::error;
    notice.about = "file";
    const std::string place =
        error.line > 0 ? fmt::format("{}, line {}", path.filename().string(), error.line) : path.filename().string();
    notice.text = fmt::format("{}: {}; {}", place, error.wrong, error.right);
    notice.excerpt = excerpt_of(path, error.line);
    tell(session, std::move(notice));
}

// Begins with another scene. False, with a notice, where it cannot be shown.
bool begin_with(Session& session, SceneFile file, Train train) {
    Draft draft = draft_of(std::move(train));
    std::shared_ptr<const Study> study = studied(session, draft);
    if (!study) return false;
    leave_found(session);
    session.file = std::move(file);
    session.history = History(std::move(draft));
    session.awaited.reset();
    drop_notices(session, "file");
    drop_notices(session, "edit");
    session.study.reset();
    session.view.running = false;
    session.view.look.observer = kFrame;
    session.view.joint_pick.reset();
    session.view.coupling_pick.reset();
    session.view.clip.target.clear();
    session.view.preview_since_s.reset();
    session.view.fit_camera = true;
    session.view.dial_scroll_px = 0;
    take_study(session, std::move(study));
    if (!session.file.path.empty()) {
        remember_scene(session.keepsakes, session.file.path);
        session.recent = recent_scenes(session.keepsakes);
    }
    return true;
}

void open_file(Session& session, const fs::path& path) {
    try {
        SceneFile file = open_scene_file(path);
        Train train = file.saved;
        (void)begin_with(session, std::move(file), std::move(train));
    } catch (const SceneError& error) {
        complain_of_scene(session, path, error);
        session.awaited = Session::Awaited{path, stamp_of(path)};
    }
}

// True where there is nothing unsaved, or it may go; else a question that comes back with `then`.
template <class Command>
bool may_leave(Session& session, Command then, const std::string& what) {
    if (session.is_saved() || then.unsaved == Unsaved::drop) return true;
    then.unsaved = Unsaved::drop;
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.about = "leave";
    notice.text = fmt::format("{} has changes that are not saved.", session.file.name);
    if (!session.file.path.empty()) {
        Command after_saving = then;
        after_saving.unsaved = Unsaved::ask;
        notice.actions.push_back({"save, then " + what, {SaveScene{}, after_saving}});
    }
    notice.actions.push_back({"drop them and " + what, {then}});
    notice.actions.push_back({"stay", {}});
    tell(session, std::move(notice));
    return false;
}

void drop_left(Session& session, std::size_t which) {
    forget_unsaved(session.left_unsaved[which]);
    session.left_unsaved.erase(session.left_unsaved.begin() + static_cast<std::ptrdiff_t>(which));
    drop_notices(session, "unsaved");
}

void save_to(Session& session, const fs::path& path) {
    try {
        session.file = saved_as(session.file, path, session.train());
    } catch (const std::exception& error) {
        complain(session, error.what(), "save");
        return;
    }
    drop_notices(session, "save");
    session.awaited.reset();
    forget_unsaved(session.keepsakes);
    session.kept_unsaved.reset();
    remember_scene(session.keepsakes, session.file.path);
    session.recent = recent_scenes(session.keepsakes);
    note(session, "saved " + session.file.path.filename().string(), "saved");
}

// The setting of the same name, where the new train has one.
Draft draft_like(const Draft& earlier, Train train) {
    Draft draft = draft_of(std::move(train));
    if (earlier.chosen.value >= 0)
        draft.chosen = find_setting(draft.train, earlier.train[earlier.chosen].name).value_or(draft.chosen);
    return draft;
}

// The file changed under a draft with changes of its own.
void ask_about_disk(Session& session) {
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.about = "file";
    notice.text = fmt::format("{} was changed by another program, and here too.", session.file.name);
    notice.actions = {{"take what the file says", {TakeFromDisk{}}}, {"keep mine", {KeepMine{}}}};
    tell(session, std::move(notice));
}

bool follow_disk(Session& session) {
    if (session.awaited && stamp_of(session.awaited->path) != session.awaited->stamp) {
        const fs::path path = session.awaited->path;
        session.awaited->stamp = stamp_of(path);
        if (session.is_saved()) open_file(session, path);
        return true;
    }
    if (session.file.path.empty() || !session.file.stamp) return false;
    switch (look_on_disk(session.file)) {
        case OnDisk::same:
            session.file.stamp = stamp_of(session.file.path);
            return false;
        case OnDisk::gone:
            session.file.stamp.reset();
            complain(session, fmt::format("{} is gone from the disk; saving writes it anew.", session.file.name),
                     "file");
            return true;
        case OnDisk::changed:
            break;
    }
    if (session.is_saved()) {
        obey(session, TakeFromDisk{});
        return true;
    }
    const bool asked = std::ranges::any_of(session.notices, [](const Notice& n) { return n.about == "file"; });
    if (!asked) ask_about_disk(session);
    return !asked;
}

void keep_what_is_unsaved(Session& session) {
    if (session.is_saved()) {
        if (session.kept_unsaved) forget_unsaved(session.keepsakes);
        session.kept_unsaved.reset();
    } else if (session.kept_unsaved != session.train()) {
        keep_unsaved(session.keepsakes, session.file.path, session.train());
        session.kept_unsaved = session.train();
    }
}

void offer_unsaved(Session& session) {
    session.left_unsaved = unsaved_work(session.keepsakes);
    if (session.left_unsaved.empty()) return;
    const UnsavedWork& work = session.left_unsaved.front();
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.about = "unsaved";
    notice.text =
        fmt::format("Work on {} of {} was not saved.", work.title.empty() ? "a scene" : work.title, work.when);
    if (session.left_unsaved.size() > 1)
        notice.text += fmt::format(" The scene panel lists {} such.", session.left_unsaved.size());
    notice.actions = {{"open it", {OpenUnsaved{0}}}, {"drop it", {DropUnsaved{0}}}, {"later", {}}};
    tell(session, std::move(notice));
}

}  // namespace

void obey(Session& session, const OpenScene& open) {
    if (may_leave(session, open, "open " + open.path.filename().string())) open_file(session, open.path);
}

void obey(Session& session, const NewScene& fresh) {
    const auto form = std::ranges::find(arrangement_forms(), fresh.arrangement, &ArrangementForm::arrangement);
    if (form == arrangement_forms().end() || !may_leave(session, fresh, "begin anew")) return;
    const Train train = train_of(form->arrangement, form->usual);
    (void)begin_with(session, unsaved_scene(std::string(form->name), write_scene(train)), train);
}

void obey(Session& session, const OpenFound& found) {
    if (!may_leave(session, found, "keep the train that was found")) return;
    const Train train = found_train(found.wish, found.row);
    if (begin_with(session, unsaved_scene(train.title, write_scene(train)), train))
        note(session, fmt::format("kept: {}", train.title), "found");
}

void obey(Session& session, const OpenUnsaved& open) {
    if (open.which >= session.left_unsaved.size() || !may_leave(session, open, "open the kept work")) return;
    const UnsavedWork work = session.left_unsaved[open.which];
    try {
        SceneFile file = work.scene.empty() ? unsaved_scene(work.title, work.text) : open_scene_file(work.scene);
        if (begin_with(session, std::move(file), read_scene(work.text, work.title))) drop_left(session, open.which);
    } catch (const SceneError&) {
        // The file that it belonged to is gone or broken: the work stands by itself.
        const Train train = read_scene(work.text, work.title);
        if (begin_with(session, unsaved_scene(work.title, work.text), train)) drop_left(session, open.which);
    }
}

void obey(Session& session, const DropUnsaved& drop) {
    if (drop.which < session.left_unsaved.size()) drop_left(session, drop.which);
}

void obey(Session& session, const SaveScene& /*unused*/) {
    if (session.file.path.empty()) {
        session.view.open = Step::scene;
        session.view.files = choosing_file(FileTask::save_as, {}, file_name_for(session.train().title));
        note(session, "give the scene a file name to save it", "saved");
        return;
    }
    if (look_on_disk(session.file) == OnDisk::changed) {
        (void)look_after_files(session, session.now_s);
        return;
    }
    save_to(session, session.file.path);
}

void obey(Session& session, const SaveSceneAs& save) {
    std::error_code ignored;
    const fs::path path = fs::absolute(save.path, ignored);
    const bool another = path != session.file.path && fs::exists(path, ignored);
    if (!another || save.existing == Existing::replace) {
        save_to(session, path);
        return;
    }
    Notice notice;
    notice.kind = Notice::Kind::question;
    notice.about = "save";
    notice.text = fmt::format("There is a file {} already.", path.filename().string());
    notice.actions = {{"replace it", {SaveSceneAs{path, Existing::replace}}}, {"leave it", {}}};
    tell(session, std::move(notice));
}

void obey(Session& session, const TakeFromDisk& /*unused*/) {
    const fs::path path = session.file.path;
    try {
        SceneFile file = open_scene_file(path);
        Draft draft = draft_like(session.draft(), file.saved);
        std::shared_ptr<const Study> study = studied(session, draft);
        if (!study) return;
        session.file = std::move(file);
        session.history.change("what the file says now", std::move(draft));
        drop_notices(session, "file");
        take_study(session, std::move(study));
    } catch (const SceneError& error) {
        complain_of_scene(session, path, error);
        session.file.stamp = stamp_of(path);
    }
}

void obey(Session& session, const KeepMine& /*unused*/) {
    session.file.stamp = stamp_of(session.file.path);
    drop_notices(session, "file");
}

Session open_session(const fs::path& scene, const fs::path& keepsakes) {
    const std::string text(default_scene());
    const std::string name = "harbour capstan (built in)";
    SceneFile file = unsaved_scene(name, text);
    Train train = file.saved;
    Session session;
    session.file = file;
    session.history = History(draft_of(train));
    session.keepsakes = keepsakes;
    session.preferences = preferences(keepsakes);
    session.recent = recent_scenes(keepsakes);
    (void)begin_with(session, std::move(file), std::move(train));
    if (!scene.empty()) {
        std::error_code ignored;
        open_file(session, fs::absolute(scene, ignored));
    }
    offer_unsaved(session);
    return session;
}

bool look_after_files(Session& session, double now_s) {
    session.now_s = now_s;
    const bool followed = follow_disk(session);
    keep_what_is_unsaved(session);
    return fade_notices(session) || followed;
}

void close_session(Session& session) {
    keep_what_is_unsaved(session);
    if (session.job) session.job->cancel();
}

}  // namespace couplet
