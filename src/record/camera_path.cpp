#include "record/camera_path.hpp"

#include <cmath>
#include <numbers>

namespace couplet {

namespace {

constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kDegree = kTurn / 360;

// Between two views, or from the last one back to the first.
Camera between_views(const std::vector<KeyedView>& views, double part) {
    std::size_t next = 0;
    while (next < views.size() && views[next].at <= part) ++next;
    const KeyedView& from = views[(next + views.size() - 1) % views.size()];
    const KeyedView& to = views[next % views.size()];
    const double since = part - from.at + (part < from.at ? 1.0 : 0.0);
    const double gap = to.at - from.at + (to.at <= from.at ? 1.0 : 0.0);
    return between(from.camera, to.camera, since / gap);
}

Camera held(const PathWish& wish, const Stage& stage, const StageLook& look, double width_over_height) {
    const bool goes_round = wish.kind == PathKind::turntable || wish.kind == PathKind::rocking;
    Camera camera = goes_round ? fitted_all_round(wish.turned, stage, look, width_over_height)
                               : fitted(wish.turned, reaches_of(stage, look), width_over_height);
    camera.distance_mm /= wish.zoom;
    if (wish.look_at == kFrame) return camera;
    const Standing start = standing_with(stage, resting_motion(), std::vector<Ratio>(stage.train.members.size()));
    return looking_at(camera, stage, start, look, wish.look_at);
}

}  // namespace

Camera camera_at(const CameraPath& path, const Ratio& part) {
    const double along = part.fraction().to_double();
    Camera camera = path.camera;
    switch (path.kind) {
        case PathKind::fixed:
            break;
        case PathKind::turntable:
            camera.azimuth_rad += along * kTurn;
            break;
        case PathKind::rocking:
            camera.azimuth_rad += std::sin(along * kTurn) * kRock_deg * kDegree;
            break;
        case PathKind::shots:
            if (!path.views.empty()) return between_views(path.views, along);
            break;
    }
    return camera;
}

CameraPath path_of(const PathWish& wish, const Stage& stage, const StageLook& look, double width_over_height) {
    CameraPath path{wish.kind, held(wish, stage, look, width_over_height), {}};
    if (wish.kind != PathKind::shots) return path;
    PathWish shown = wish;
    for (const Shot& shot : stage.train.shots) {
        if (shot.azimuth_deg) shown.turned.azimuth_rad = shot.azimuth_deg->to_double() * kDegree;
        if (shot.elevation_deg) shown.turned.elevation_rad = shot.elevation_deg->to_double() * kDegree;
        if (shot.zoom) shown.zoom = shot.zoom->to_double();
        if (shot.look_at) shown.look_at = *shot.look_at;
        path.views.push_back({shot.at.to_double(), held(shown, stage, look, width_over_height)});
    }
    return path;
}

Camera fitted_all_round(const Camera& camera, const Stage& stage, const StageLook& look, double width_over_height) {
    const Bounds bounds = enclosing(reaches_of(stage, look));
    Camera fit = fitted(camera, bounds, width_over_height);
    // The same view, its target brought along the gaze onto the upright through the middle: the path turns round that.
    const glm::dvec3 eye = eye_mm(fit);
    const glm::dvec3 gaze = (fit.target_mm - eye) / fit.distance_mm;
    const double level = std::hypot(gaze.x, gaze.y);
    if (level < 1e-6) return fit;
    const double distance = std::hypot(bounds.middle_mm.x - eye.x, bounds.middle_mm.y - eye.y) / level;
    fit.target_mm = eye + gaze * distance;
    if (fit.projection == Projection::perspective) fit.distance_mm = distance;
    return fit;
}

}  // namespace couplet
