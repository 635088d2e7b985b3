#include <algorithm>
#include <cmath>

#include "app/folder_view.hpp"
#include "app/keyboard.hpp"
#include "sheet/numbers.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

void open_or_close(Edits& edits, Step step) {
    if (edits.view.open == step)
        edits.view.open.reset();
    else
        edits.view.open = step;
}

void next_setting(const Session& session, Edits& edits) {
    const auto count = static_cast<std::int32_t>(session.train().settings.size());
    if (count > 0) edits.ask(ChooseSetting{{(session.draft().chosen.value + 1) % count}});
}

void next_observer(const Session& session, Edits& edits) {
    std::int32_t& observer = edits.view.look.observer.value;
    ++observer;
    if (observer >= static_cast<std::int32_t>(session.train().members.size())) observer = kFrame.value;
    edits.view.fit_camera = true;
}

// The view after the one that the camera has now.
NamedView view_after(const Camera& camera) {
    for (std::size_t i = 0; i < std::size(kNamedViews); ++i) {
        const Camera turned = turned_to(camera, static_cast<NamedView>(i));
        if (std::abs(turned.azimuth_rad - camera.azimuth_rad) < 1e-6 &&
            std::abs(turned.elevation_rad - camera.elevation_rad) < 1e-6)
            return static_cast<NamedView>((i + 1) % std::size(kNamedViews));
    }
    return NamedView::iso;
}

void copy_first_pair(const Session& session, Edits& edits) {
    for (const Coupling& coupling : session.study->sheet().couplings) {
        if (!coupling.second_per_first) continue;
        edits.ask(CopyText{pair_text(coupling.to_type.degrees[0], coupling.to_type.degrees[1])});
        return;
    }
}

void change_scale(const Screen& screen, const Session& session, Edits& edits, double by) {
    Preferences preferences = session.preferences;
    preferences.scale = std::clamp(static_cast<double>(screen.scale) + by, 0.75, 4.0);
    edits.ask(SetPreferences{preferences});
}

void change_daylight(const Session& session, Edits& edits) {
    Preferences preferences = session.preferences;
    preferences.daylight = preferences.daylight == Daylight::light ? Daylight::dark : Daylight::light;
    edits.ask(SetPreferences{preferences});
}

void escape(Edits& edits) {
    if (edits.view.joint_pick)
        edits.view.joint_pick.reset();
    else if (edits.view.coupling_pick)
        edits.view.coupling_pick.reset();
    else if (edits.view.preview_since_s)
        edits.view.preview_since_s.reset();
    else
        edits.view.open.reset();
}

void choose_file(const Session& session, Edits& edits, FileTask task) {
    const fs::path& path = session.file.path;
    const std::string name = path.empty() ? file_name_for(session.train().title) : path.filename().string();
    edits.view.open = Step::scene;
    edits.view.files = choosing_file(task, path, name);
}

constexpr double kFaster = 1.5;

void change_speed(Edits& edits, double factor) {
    edits.view.speed = std::clamp(edits.view.speed * factor, ViewState::kSlowest, ViewState::kFastest);
}

}  // namespace

AfterKeys obey(KeyDeed deed, Screen& screen, const Session& session, Edits& edits) {
    ViewState& view = edits.view;
    StageLook& look = view.look;
    switch (deed) {
        case KeyDeed::run_or_stop:
            view.running = !view.running;
            break;
        case KeyDeed::step_on:
            edits.ask(StepTooth{1});
            break;
        case KeyDeed::step_back:
            edits.ask(StepTooth{-1});
            break;
        case KeyDeed::to_start:
            edits.ask(BackToStart{});
            break;
        case KeyDeed::turn_backwards:
            view.backwards = !view.backwards;
            break;
        case KeyDeed::faster:
            change_speed(edits, kFaster);
            break;
        case KeyDeed::slower:
            change_speed(edits, 1 / kFaster);
            break;
        case KeyDeed::next_setting:
            next_setting(session, edits);
            break;
        case KeyDeed::open_scene_panel:
            open_or_close(edits, Step::scene);
            break;
        case KeyDeed::open_find:
            open_or_close(edits, Step::find);
            break;
        case KeyDeed::open_size:
            open_or_close(edits, Step::size);
            break;
        case KeyDeed::open_place:
            open_or_close(edits, Step::place);
            break;
        case KeyDeed::open_couple:
            open_or_close(edits, Step::couple);
            break;
        case KeyDeed::open_watch:
            open_or_close(edits, Step::watch);
            break;
        case KeyDeed::open_record:
            open_or_close(edits, Step::record);
            break;
        case KeyDeed::open_keys:
            open_or_close(edits, Step::keys);
            break;
        case KeyDeed::close_panel:
            escape(edits);
            break;
        case KeyDeed::next_widget:
            move_focus(screen, Going::on);
            break;
        case KeyDeed::previous_widget:
            move_focus(screen, Going::back);
            break;
        case KeyDeed::undo:
            edits.ask(Undo{});
            break;
        case KeyDeed::redo:
            edits.ask(Redo{});
            break;
        case KeyDeed::save:
            edits.ask(SaveScene{});
            break;
        case KeyDeed::save_as:
            choose_file(session, edits, FileTask::save_as);
            break;
        case KeyDeed::open_file:
            choose_file(session, edits, FileTask::open);
            break;
        case KeyDeed::new_scene:
            view.open = Step::scene;
            break;
        case KeyDeed::copy_first_pair:
            copy_first_pair(session, edits);
            break;
        case KeyDeed::quit:
            return AfterKeys::quit;
        case KeyDeed::fit:
            view.fit_camera = true;
            break;
        case KeyDeed::next_view:
            view.go_to = view_after(view.camera);
            break;
        case KeyDeed::next_look:
            look.look = static_cast<Look>((static_cast<int>(look.look) + 1) % 3);
            break;
        case KeyDeed::next_observer:
            next_observer(session, edits);
            break;
        case KeyDeed::cutaway:
            look.cutaway = !look.cutaway;
            break;
        case KeyDeed::spread:
            look.spread = look.spread > 0 ? 0.0 : 0.6;
            view.fit_camera = true;
            break;
        case KeyDeed::tooth_marks:
            look.marks = !look.marks;
            break;
        case KeyDeed::names:
            look.names = !look.names;
            break;
        case KeyDeed::contacts:
            look.contacts = !look.contacts;
            break;
        case KeyDeed::pitch_circles:
            look.pitch_circles = !look.pitch_circles;
            break;
        case KeyDeed::larger_text:
            change_scale(screen, session, edits, 0.25);
            break;
        case KeyDeed::smaller_text:
            change_scale(screen, session, edits, -0.25);
            break;
        case KeyDeed::daylight:
            change_daylight(session, edits);
            break;
    }
    return AfterKeys::go_on;
}

}  // namespace couplet
