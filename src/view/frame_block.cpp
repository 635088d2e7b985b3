#include "view/frame_block.hpp"

#include <cmath>
#include <glm/ext/matrix_clip_space.hpp>
#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>
#include <numbers>

namespace couplet {

namespace {

// Key light from the front left, 55 degrees up, filling an angle like a soft box close by.
const glm::dvec3 kToLight = glm::normalize(glm::dvec3(-0.48, -0.36, 0.86));
constexpr float kLightSpread = 0.085F;
// What matt surfaces get of the room's light: less than metals mirror of it, so that shadows keep their depth.
constexpr float kFill = 0.55F;

// The smallest sphere round the bounds decides what the shadow map covers.
glm::dmat4 light_clip(const Bounds& bounds, double radius_mm) {
    const glm::dmat4 light_from_observer =
        glm::lookAt(bounds.middle_mm + kToLight * (2 * radius_mm), bounds.middle_mm, glm::dvec3(0, 0, 1));
    return glm::ortho(-radius_mm, radius_mm, -radius_mm, radius_mm, 0.0, 5 * radius_mm) * light_from_observer;
}

glm::dmat4 half_and_half() {
    return glm::translate(glm::dmat4(1.0), glm::dvec3(0.5)) * glm::scale(glm::dmat4(1.0), glm::dvec3(0.5));
}

// ITU-R BT.709.
double luminance(const glm::vec3& colour) {
    return glm::dot(glm::dvec3(colour), glm::dvec3(0.2126, 0.7152, 0.0722));
}

}  // namespace

FrameSetup frame_setup(const Picture& picture, const Quality& quality, glm::ivec2 size_px,
                       const std::array<glm::vec3, 4>& irradiance, int room_levels) {
    const Camera& camera = picture.camera;
    const double aspect = static_cast<double>(size_px.x) / size_px.y;
    const glm::dmat4 view = view_from_observer(camera);
    const glm::dmat4 projection = clip_from_view(camera, aspect, picture.bounds);
    const glm::dmat4 clip = projection * view;
    const double reach_mm = 1.04 * std::hypot(picture.bounds.radius_mm, picture.bounds.half_height_mm);
    const glm::dmat4 light = light_clip(picture.bounds, reach_mm);
    const bool perspective = camera.projection == Projection::perspective;
    const glm::dvec3 eye = eye_mm(camera);
    const double height_mm = height_at_target_mm(camera);

    FrameSetup setup{};
    setup.light_clip_from_observer = glm::mat4(light);
    setup.mm_per_px_at_target = height_mm / size_px.y;
    FrameBlock& block = setup.block;
    block.clip_from_observer = glm::mat4(clip);
    block.shadow_from_observer = glm::mat4(half_and_half() * light);
    block.eye = glm::vec4(glm::vec3(eye), perspective ? 1.0F : 0.0F);
    block.gaze = glm::vec4(glm::vec3(glm::normalize(camera.target_mm - eye)), 0.0F);
    block.to_light = glm::vec4(glm::vec3(kToLight), kLightSpread);
    block.light_colour = glm::vec4(3.0F, 2.9F, 2.7F, 0.0F);
    for (std::size_t i = 0; i < irradiance.size(); ++i) block.irradiance[i] = glm::vec4(kFill * irradiance[i], 0.0F);
    block.picture = {size_px.x, size_px.y, 1.0F / static_cast<float>(size_px.x), 1.0F / static_cast<float>(size_px.y)};
    block.bench = {picture.bounds.middle_mm.x, picture.bounds.middle_mm.y, picture.bench_mm, 4.5 * reach_mm};
    block.bench_colour = glm::vec4(picture.backdrop.bench, picture.transparent ? 1.0F : 0.0F);
    block.backdrop_low = glm::vec4(picture.backdrop.low, 0.0F);
    block.backdrop_high = glm::vec4(picture.backdrop.high, 0.0F);
    block.cut = {picture.cut.apex_mm, picture.cut.middle_rad, picture.cut.half_angle_rad};
    block.shadow = {1.0 / quality.shadow_map, 2 * reach_mm / quality.shadow_map, 5 * reach_mm, quality.shadow_taps};
    const double px_per_mm = size_px.y / height_mm * (perspective ? camera.distance_mm : 1.0);
    block.occlusion = {0.16 * reach_mm, px_per_mm, quality.occlusion_taps, camera.distance_mm};
    // Rows of the view are the picture's directions; the projection says how far its edges are.
    const glm::dmat4 directions = glm::transpose(view);
    block.picture_right = glm::vec4(glm::vec3(directions[0]) / static_cast<float>(projection[0][0]), 0.0F);
    block.picture_up = glm::vec4(glm::vec3(directions[1]) / static_cast<float>(projection[1][1]), 0.0F);
    block.depth_terms = {projection[2][2], projection[3][2], 0.0F, 0.0F};
    const double from_room = luminance(kFill * (irradiance[0] + irradiance[2]));  // on a face that looks up
    const double from_key = luminance(glm::vec3(block.light_colour)) * kToLight.z / std::numbers::pi;
    block.style = {picture.look == Look::clay ? 1.0F : 0.0F, static_cast<float>(room_levels - 1),
                   from_room / (from_room + from_key), 0.0F};
    return setup;
}

}  // namespace couplet
