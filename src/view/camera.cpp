#include "view/camera.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <glm/common.hpp>
#include <glm/ext/matrix_clip_space.hpp>
#include <glm/geometric.hpp>
#include <iterator>
#include <limits>
#include <numbers>

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kNearest_mm = 1e-3;  // of the target
constexpr double kFarthest_mm = 1e9;
// Before a perspective view becomes an orthographic one. Over a picture of 2000 pixels the last step then moves
// nothing that is a picture's height before or behind the target by more than 0.2 pixels.
constexpr double kNarrowHalfAngleTangent = 1e-4;
// The bench reaches this many times as far from the middle of the bounds as the bounds do.
constexpr double kBenchReach = 12.0;
// Of the distance: what is nearer to the eye is not drawn, so that depth keeps enough digits.
constexpr double kNearestDrawn = 0.02;
// Where the rays of an orthographic picture start: behind all that stands in it, be it behind the eye.
constexpr double kRayStart_mm = 1e6;

// The picture's directions in the observer's frame. Written out rather than made from the view's direction and +Z,
// which are one and the same in the views from above and below.
struct Axes {
    glm::dvec3 right;
    glm::dvec3 up;
    glm::dvec3 back;  // towards the eye
};

Axes axes_of(const Camera& camera) {
    const double sine = std::sin(camera.azimuth_rad);
    const double cosine = std::cos(camera.azimuth_rad);
    const double rise = std::sin(camera.elevation_rad);
    const double level = std::cos(camera.elevation_rad);
    return {{cosine, sine, 0.0}, {-rise * sine, rise * cosine, level}, {level * sine, -level * cosine, rise}};
}

double half_angle_tangent(const Camera& camera) {
    return std::tan(camera.view_angle_rad / 2);
}

// The point of the target's plane that is seen under the cursor.
glm::dvec3 point_under(const Camera& camera, glm::dvec2 cursor, double width_over_height) {
    const Axes axes = axes_of(camera);
    const double half_height_mm = height_at_target_mm(camera) / 2;
    return camera.target_mm + cursor.x * half_height_mm * width_over_height * axes.right +
           cursor.y * half_height_mm * axes.up;
}

// How far the bounds reach from their middle along a direction of any length, times that length.
double reach(const Bounds& bounds, const glm::dvec3& direction) {
    return bounds.radius_mm * std::hypot(direction.x, direction.y) + bounds.half_height_mm * std::abs(direction.z);
}

// Bounds against one picture. A point (x right, y up, z to the eye, from an origin among the bounds) is seen at the
// height (y - shift) / (slope (distance - z)), in half pictures, so that it is seen below the height h exactly where
// y + h slope z <= shift + h slope distance: the farthest point of the bounds along one direction decides. The same to
// the right. Orthographic pictures leave out z.
struct Fit {
    Axes axes;
    std::span<const Bounds> bounds;
    glm::dvec3 origin;
    bool is_perspective;

    [[nodiscard]] double reach_of(const glm::dvec3& direction, double tilt) const {
        const glm::dvec3 along = is_perspective ? direction + tilt * axes.back : direction;
        double farthest = -std::numeric_limits<double>::infinity();
        for (const Bounds& part : bounds)
            farthest = std::max(farthest, glm::dot(part.middle_mm - origin, along) + reach(part, along));
        return farthest;
    }
    // The distance from which the bounds just fit between -h and h along an axis of the picture, tilt being h slope,
    // with the best shift.
    [[nodiscard]] double distance_for(const glm::dvec3& axis, double tilt) const {
        return (reach_of(axis, tilt) + reach_of(-axis, tilt)) / (2 * tilt);
    }
    // The shift that leaves as much room on both sides: the tilt is sought at which the distance just fits.
    [[nodiscard]] double centred_shift(const glm::dvec3& axis, double distance, double widest_tilt) const {
        double narrow = 0.0;
        double wide = widest_tilt;
        for (int i = 0; i < 60; ++i) {
            const double tilt = (narrow + wide) / 2;
            (distance_for(axis, tilt) > distance ? narrow : wide) = tilt;
        }
        return (reach_of(axis, wide) - reach_of(-axis, wide)) / 2;
    }
};

double eased(double part) {
    return part * part * (3 - 2 * part);
}

// From 0 to 1 as part does, in step with a length that grows by the same factor in equal parts: two pictures that have
// a point in common keep it in its place while the scale changes.
double in_step_with_scale(double part, double log_growth) {
    if (std::abs(log_growth) < 1e-9) return part;
    return std::expm1(part * log_growth) / std::expm1(log_growth);
}

}  // namespace

std::optional<NamedView> named_view(std::string_view name) {
    const auto* const found = std::ranges::find(kNamedViews, name);
    if (found == std::end(kNamedViews)) return std::nullopt;
    return static_cast<NamedView>(found - std::begin(kNamedViews));
}

Camera turned_to(const Camera& camera, NamedView view) {
    struct Direction {
        double azimuth_rad;
        double elevation_rad;
    };
    // In the order of NamedView. The oblique view is the isometric one: the three axes are seen equally long.
    static const std::array kDirections = {
        Direction{-kPi / 4, std::asin(1 / std::sqrt(3.0))},
        Direction{0.0, kPi / 2},
        Direction{0.0, -kPi / 2},
        Direction{0.0, 0.0},
        Direction{kPi, 0.0},
        Direction{-kPi / 2, 0.0},
        Direction{kPi / 2, 0.0},
    };
    Camera turned = camera;
    const Direction& direction = kDirections.at(static_cast<std::size_t>(view));
    turned.azimuth_rad = direction.azimuth_rad;
    turned.elevation_rad = direction.elevation_rad;
    if (view != NamedView::iso) turned.projection = Projection::orthographic;
    return turned;
}

Bounds enclosing(std::span<const Bounds> parts) {
    glm::dvec3 least(std::numeric_limits<double>::infinity());
    glm::dvec3 most = -least;
    for (const Bounds& part : parts) {
        const glm::dvec3 reach(part.radius_mm, part.radius_mm, part.half_height_mm);
        least = glm::min(least, part.middle_mm - reach);
        most = glm::max(most, part.middle_mm + reach);
    }
    Bounds all{0.5 * (least + most), 0.0, 0.5 * (most.z - least.z)};
    for (const Bounds& part : parts)
        all.radius_mm = std::max(all.radius_mm, part.radius_mm + std::hypot(part.middle_mm.x - all.middle_mm.x,
                                                                            part.middle_mm.y - all.middle_mm.y));
    return all;
}

Camera fitted(const Camera& camera, std::span<const Bounds> bounds, double width_over_height, double margin) {
    const Fit fit{axes_of(camera), bounds, enclosing(bounds).middle_mm, camera.projection == Projection::perspective};
    const double tilt = (1 - margin) * half_angle_tangent(camera);
    const double distance_mm =
        std::max(fit.distance_for(fit.axes.up, tilt), fit.distance_for(fit.axes.right, tilt * width_over_height));
    Camera moved = camera;
    moved.distance_mm = std::clamp(distance_mm, kNearest_mm, kFarthest_mm);
    moved.target_mm = fit.origin + fit.centred_shift(fit.axes.up, moved.distance_mm, tilt) * fit.axes.up +
                      fit.centred_shift(fit.axes.right, moved.distance_mm, tilt * width_over_height) * fit.axes.right;
    return moved;
}

Camera fitted(const Camera& camera, const Bounds& bounds, double width_over_height, double margin) {
    return fitted(camera, std::span(&bounds, 1), width_over_height, margin);
}

glm::dvec3 eye_mm(const Camera& camera) {
    return camera.target_mm + camera.distance_mm * axes_of(camera).back;
}

glm::dmat4 view_from_observer(const Camera& camera) {
    const Axes axes = axes_of(camera);
    glm::dmat4 turn{1.0};
    for (int i = 0; i < 3; ++i) turn[i] = {axes.right[i], axes.up[i], axes.back[i], 0.0};
    turn[3] = turn * glm::dvec4(-camera.target_mm, 1.0) - glm::dvec4(0.0, 0.0, camera.distance_mm, 0.0);
    return turn;
}

glm::dmat4 clip_from_view(const Camera& camera, double width_over_height, const Bounds& bounds) {
    const double middle_mm = glm::dot(eye_mm(camera) - bounds.middle_mm, axes_of(camera).back);
    const double reach_mm = kBenchReach * std::hypot(bounds.radius_mm, bounds.half_height_mm);
    if (camera.projection == Projection::orthographic) {
        const double half_height_mm = height_at_target_mm(camera) / 2;
        const double half_width_mm = half_height_mm * width_over_height;
        return glm::orthoRH_NO(-half_width_mm, half_width_mm, -half_height_mm, half_height_mm, middle_mm - reach_mm,
                               middle_mm + reach_mm);
    }
    const double near_mm = std::max(middle_mm - reach_mm, kNearestDrawn * camera.distance_mm);
    const double far_mm = std::max(middle_mm + reach_mm, 2 * near_mm);
    return glm::perspectiveRH_NO(camera.view_angle_rad, width_over_height, near_mm, far_mm);
}

double height_at_target_mm(const Camera& camera) {
    return 2 * camera.distance_mm * half_angle_tangent(camera);
}

Camera orbited(const Camera& camera, double azimuth_rad, double elevation_rad) {
    Camera turned = camera;
    turned.azimuth_rad = std::remainder(camera.azimuth_rad + azimuth_rad, 2 * kPi);
    turned.elevation_rad = std::clamp(camera.elevation_rad + elevation_rad, -kPi / 2, kPi / 2);
    return turned;
}

Camera panned(const Camera& camera, glm::dvec2 from, glm::dvec2 to, double width_over_height) {
    Camera moved = camera;
    moved.target_mm += point_under(camera, from, width_over_height) - point_under(camera, to, width_over_height);
    return moved;
}

Camera zoomed_at(const Camera& camera, glm::dvec2 cursor, double factor, double width_over_height) {
    const glm::dvec3 kept = point_under(camera, cursor, width_over_height);
    Camera moved = camera;
    moved.distance_mm = std::clamp(camera.distance_mm / factor, kNearest_mm, kFarthest_mm);
    moved.target_mm = kept + moved.distance_mm / camera.distance_mm * (camera.target_mm - kept);
    return moved;
}

Camera between(const Camera& from, const Camera& to, double part) {
    if (part <= 0.0) return from;
    if (part >= 1.0) return to;
    const double done = eased(part);
    const bool changes_projection = from.projection != to.projection;
    const auto tangent = [changes_projection](const Camera& camera) {
        const bool is_orthographic = camera.projection == Projection::orthographic;
        return changes_projection && is_orthographic ? kNarrowHalfAngleTangent : half_angle_tangent(camera);
    };
    const double log_growth = std::log(height_at_target_mm(to) / height_at_target_mm(from));
    const double height_mm = height_at_target_mm(from) * std::exp(done * log_growth);
    const double slope = std::lerp(tangent(from), tangent(to), done);

    Camera camera;
    camera.projection = changes_projection ? Projection::perspective : from.projection;
    camera.view_angle_rad = 2 * std::atan(slope);
    camera.distance_mm = height_mm / (2 * slope);
    camera.target_mm = glm::mix(from.target_mm, to.target_mm, in_step_with_scale(done, log_growth));
    camera.azimuth_rad = from.azimuth_rad + done * std::remainder(to.azimuth_rad - from.azimuth_rad, 2 * kPi);
    camera.elevation_rad = std::lerp(from.elevation_rad, to.elevation_rad, done);
    return camera;
}

Ray ray_under(const Camera& camera, glm::dvec2 cursor, double width_over_height) {
    const glm::dvec3 through = point_under(camera, cursor, width_over_height);
    if (camera.projection == Projection::orthographic) {
        const glm::dvec3 back = axes_of(camera).back;
        return {through + kRayStart_mm * back, -back};
    }
    const glm::dvec3 eye = eye_mm(camera);
    return {eye, glm::normalize(through - eye)};
}

}  // namespace couplet
