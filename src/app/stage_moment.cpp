#include "app/stage_moment.hpp"

#include <algorithm>
#include <cmath>

#include "app/clip_wish.hpp"
#include "app/stage_frame.hpp"
#include "record/camera_path.hpp"

namespace couplet {

namespace {

CameraPath chosen_path(const Session& session, const Places_px& places) {
    const ClipChoice& choice = session.view.clip;
    const Camera& now = session.view.camera;
    Camera turned;
    turned.azimuth_rad = now.azimuth_rad;
    turned.elevation_rad = now.elevation_rad;
    turned.projection = now.projection;
    const double aspect = static_cast<double>(choice.size_px.x) / choice.size_px.y;
    const double zoom = choice.closeness == ClipChoice::Closeness::as_shown ? stage_zoom(session, places) : 1.0;
    return path_of({choice.path, turned, zoom}, *session.stage, session.view.look, aspect);
}

int frame_at(const Schedule& schedule, double seconds) {
    const double frame = std::fmod(std::max(0.0, seconds) * schedule.fps.to_double(), schedule.frames);
    return std::clamp(static_cast<int>(frame), 0, schedule.frames - 1);
}

StageMoment moment_of_clip(const Session& session, const Places_px& places, const ClipPlan& plan, int frame) {
    const Stage& stage = *session.stage;
    Instant instant = instant_at(plan.schedule, frame);
    instant.joint_phases_turns.resize(stage.train.members.size());
    Camera camera = camera_at(chosen_path(session, places), instant.part);
    const ClipEdges edges = clip_edges(places, session.view.clip.size_px);
    camera.distance_mm *= static_cast<double>(places.window.y) / std::max(1.0F, edges.to.y - edges.from.y);
    StageMoment moment{standing_with(stage, plan.schedule.legs[instant.leg].motion, instant.joint_phases_turns),
                       shown_camera(camera, places), session.view.look, frame};
    moment.look.plain = plan.plain;
    return moment;
}

}  // namespace

StageMoment moment_on_stage(const Session& session, const Places_px& places, double now_s) {
    const ViewState& view = session.view;
    if (view.preview_since_s && same_teeth(session.stage->train, session.train())) {
        const OrWhyNot<ClipPlan>& plan = clip_plan_of(session, view.clip);
        if (plan.part)
            return moment_of_clip(session, places, *plan.part,
                                  frame_at(plan.part->schedule, now_s - *view.preview_since_s));
    }
    return {standing_now(session), shown_camera(view.camera, places), view.look, std::nullopt};
}

ClipEdges clip_edges(const Places_px& places, glm::ivec2 size_px) {
    const ImVec2 free(places.stage_to.x - places.stage_from.x, places.stage_to.y - places.stage_from.y);
    const float aspect = static_cast<float>(size_px.x) / static_cast<float>(std::max(1, size_px.y));
    const float height = std::min(free.y, free.x / aspect);
    const ImVec2 half(0.5F * height * aspect, 0.5F * height);
    const ImVec2 middle(places.stage_from.x + 0.5F * free.x, places.stage_from.y + 0.5F * free.y);
    return {{middle.x - half.x, middle.y - half.y}, {middle.x + half.x, middle.y + half.y}};
}

double stage_zoom(const Session& session, const Places_px& places) {
    const Camera& camera = session.view.camera;
    return fitted_between(camera, *session.stage, session.view.look, places).distance_mm / camera.distance_mm;
}

}  // namespace couplet
