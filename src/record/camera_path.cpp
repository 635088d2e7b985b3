#include "record/camera_path.hpp"

#include <cmath>
#include <numbers>

namespace couplet {

namespace {

constexpr double kTurn = 2 * std::numbers::pi;

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
            camera.azimuth_rad += std::sin(along * kTurn) * kRock_deg / 360 * kTurn;
            break;
        case PathKind::shots:
            if (!path.views.empty()) return between_views(path.views, along);
            break;
    }
    return camera;
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
