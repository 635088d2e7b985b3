// The session's part about finding tooth counts: the search that follows the panel's wish, the train that is shown
// while the cursor rests on its row, and the one that is kept.
#include <algorithm>
#include <thread>
#include <utility>

#include "app/session_parts.hpp"
#include "sheet/search_report.hpp"

namespace couplet {

namespace {

// One core is the window's.
unsigned search_threads() {
    return std::max(2U, std::thread::hardware_concurrency()) - 1;
}

void show_found(Session& session, const SearchRow& row) {
    std::shared_ptr<const Stage> stage;
    try {
        stage = std::make_shared<const Stage>(stage_of(found_train(session.view.find.wish, row)));
    } catch (const std::exception& error) {
        note(session, error.what(), "found");
        return;
    }
    ViewState& view = session.view;
    if (!session.before_found)
        session.before_found = BeforeFound{session.stage, view.camera, view.fit_camera, view.look};
    // Members are other ones now.
    view.look.observer = kFrame;
    view.look.materials.clear();
    view.pointed.reset();
    view.fit_camera = true;
    session.stage = std::move(stage);
    ++session.stage_count;
}

}  // namespace

void leave_found(Session& session) {
    session.found_on_stage.reset();
    if (!session.before_found) return;
    const BeforeFound before = *std::exchange(session.before_found, std::nullopt);
    session.view.camera = before.camera;
    session.view.look = before.look;
    session.view.fit_camera = before.fit_camera;
    session.stage = before.stage;
    ++session.stage_count;
}

void follow_find(Session& session) {
    FindChoice& find = session.view.find;
    if (session.view.open != Step::find) find.shown.reset();
    if (find.shown != session.found_on_stage) {
        if (find.shown) {
            session.found_on_stage = find.shown;
            show_found(session, *find.shown);
        } else {
            leave_found(session);
        }
    }
    std::erase_if(session.retired_finds, [](const auto& job) { return job->is_at_rest(); });
    if (session.view.open != Step::find || (session.find_job && session.find_job->wish() == find.wish)) return;
    if (session.find_job) {
        session.find_job->stop();
        session.retired_finds.push_back(std::move(session.find_job));
    }
    session.find_job = std::make_shared<FindJob>(find.wish, search_threads());
}

bool look_after_find(Session& session) {
    return session.find_job && session.find_job->look();
}

}  // namespace couplet
