#include "app/stage_moment.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/clip_wish.hpp"
#include "app/stage_frame.hpp"
#include "record/camera_path.hpp"

namespace couplet {

namespace {

constexpr double kDegree = std::numbers::pi / 180;

// The camera of `couplet record` for the same view.
struct ClipCamera {
    const Stage& stage;
    const StageLook& look;
    double aspect;
    PathKind path;

    [[nodiscard]] Camera held(const Camera& turned, double zoom, MemberIndex at) const {
        const bool goes_round = path == PathKind::turntable || path == PathKind::rocking;
        Camera camera = goes_round ? fitted_all_round(turned, stage, look, aspect)
                                   : fitted(turned, reaches_of(stage, look), aspect);
        camera.distance_mm /= zoom;
        if (at == kFrame) return camera;
        const Standing start = standing_with(stage, resting_motion(), std::vector<Ratio>(stage.train.members.size()));
        const auto place = static_cast<std::size_t>(stage.placement.first_place[at.position()]);
        const glm::dmat4 observed = observer_from_frame(stage, start, look.observer) * start.frame_from_place[place];
        camera.target_mm.x = observed[3].x;
        camera.target_mm.y = observed[3].y;
        return camera;
    }
};

// What a shot does not say stays as it was in the one before.
std::vector<KeyedView> keyed_views(const ClipCamera& clip, const std::vector<Shot>& shots, Camera camera, double zoom) {
    std::vector<KeyedView> views;
    MemberIndex at = kFrame;
    for (const Shot& shot : shots) {
        if (shot.azimuth_deg) camera.azimuth_rad = shot.azimuth_deg->to_double() * kDegree;
        if (shot.elevation_deg) camera.elevation_rad = shot.elevation_deg->to_double() * kDegree;
        if (shot.zoom) zoom = shot.zoom->to_double();
        if (shot.look_at) at = *shot.look_at;
        views.push_back({shot.at.to_double(), clip.held(camera, zoom, at)});
    }
    return views;
}

CameraPath path_of(const Session& session, const Places_px& places) {
    const ClipChoice& choice = session.view.clip;
    const Camera& now = session.view.camera;
    Camera turned;
    turned.azimuth_rad = now.azimuth_rad;
    turned.elevation_rad = now.elevation_rad;
    turned.projection = now.projection;
    const double aspect = static_cast<double>(choice.size_px.x) / choice.size_px.y;
    const ClipCamera clip{*session.stage, session.view.look, aspect, choice.path};
    const double zoom = choice.closeness == ClipChoice::Closeness::as_shown ? stage_zoom(session, places) : 1.0;
    CameraPath path{choice.path, clip.held(turned, zoom, kFrame), {}};
    if (choice.path == PathKind::shots) path.views = keyed_views(clip, session.train().shots, turned, zoom);
    return path;
}

int frame_at(const Schedule& schedule, double seconds) {
    const double frame = std::fmod(std::max(0.0, seconds) * schedule.fps.to_double(), schedule.frames);
    return std::clamp(static_cast<int>(frame), 0, schedule.frames - 1);
}

StageMoment moment_of_clip(const Session& session, const Places_px& places, const ClipPlan& plan, int frame) {
    const Stage& stage = *session.stage;
    Instant instant = instant_at(plan.schedule, frame);
    instant.joint_phases_turns.resize(stage.train.members.size());
    Camera camera = camera_at(path_of(session, places), instant.part);
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
