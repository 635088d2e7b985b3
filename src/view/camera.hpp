// Camera: where the picture is seen from.
//
// It looks at a target from a distance; up is +Z. Azimuth turns about +Z from -Y (the front view looks along +Y),
// counter-clockwise seen from above; elevation rises from the horizon, 90 degrees looking straight down with +Y up in
// the picture. Lengths in mm in the observer's frame, angles in radians. Window coordinates of functions here are in
// [-1, 1], x to the right, y up. All pure values.
#pragma once

#include <glm/mat4x4.hpp>
#include <glm/vec2.hpp>
#include <glm/vec3.hpp>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace couplet {

enum class Projection { perspective, orthographic };

struct Camera {
    glm::dvec3 target_mm{0.0};
    double distance_mm = 500.0;
    double azimuth_rad = 0.0;
    double elevation_rad = 0.6;
    double view_angle_rad = 0.5;  // of the picture's height; orthographic keeps the size that this shows at the target
    Projection projection = Projection::perspective;

    friend bool operator==(const Camera&, const Camera&) = default;
};

// The six plane views and the oblique one.
enum class NamedView { iso, top, bottom, front, back, left, right };
inline constexpr std::string_view kNamedViews[] = {"iso", "top", "bottom", "front", "back", "left", "right"};
[[nodiscard]] std::optional<NamedView> named_view(std::string_view name);

// The camera turned to the view; target, distance and view angle stay. The plane views are orthographic, iso keeps the
// camera's own projection.
[[nodiscard]] Camera turned_to(const Camera& camera, NamedView view);

// What has to be in the picture: an upright cylinder.
struct Bounds {
    glm::dvec3 middle_mm{0.0};
    double radius_mm = 1.0;
    double half_height_mm = 1.0;
};

// The camera moved so that the bounds fill the picture but for `margin` of it on the tighter side; direction and
// projection stay.
[[nodiscard]] Camera fitted(const Camera& camera, const Bounds& bounds, double width_over_height, double margin = 0.06);
// The same for several, at least one, all of which have to be in the picture.
[[nodiscard]] Camera fitted(const Camera& camera, std::span<const Bounds> bounds, double width_over_height,
                            double margin = 0.06);
// One that holds them all.
[[nodiscard]] Bounds enclosing(std::span<const Bounds> parts);

[[nodiscard]] glm::dvec3 eye_mm(const Camera& camera);
[[nodiscard]] glm::dmat4 view_from_observer(const Camera& camera);
// The near and far planes enclose the bounds and the bench around them. OpenGL's clip space, depth -1 to 1.
[[nodiscard]] glm::dmat4 clip_from_view(const Camera& camera, double width_over_height, const Bounds& bounds);

// How many mm one picture height shows at the target.
[[nodiscard]] double height_at_target_mm(const Camera& camera);

// The user's hand: angles in radians, elevation kept within +-90 degrees.
[[nodiscard]] Camera orbited(const Camera& camera, double azimuth_rad, double elevation_rad);
// The point of the target's plane under `from` comes to lie under `to`.
[[nodiscard]] Camera panned(const Camera& camera, glm::dvec2 from, glm::dvec2 to, double width_over_height);
// factor > 1 comes closer; the point under the cursor in the target's plane stays under it.
[[nodiscard]] Camera zoomed_at(const Camera& camera, glm::dvec2 cursor, double factor, double width_over_height);
// Part 0 gives `from`, part 1 gives `to`, with an ease at both ends, by the shorter way round. A change of projection
// happens through a narrowing view angle, without a jump.
[[nodiscard]] Camera between(const Camera& from, const Camera& to, double part);

struct Ray {
    glm::dvec3 from_mm;
    glm::dvec3 direction;  // unit length
};
[[nodiscard]] Ray ray_under(const Camera& camera, glm::dvec2 cursor, double width_over_height);

}  // namespace couplet
