// Frame block: what shaders/frame.glsl knows of a frame, worked out from the picture. No OpenGL.
#pragma once

#include <array>
#include <glm/mat4x4.hpp>
#include <glm/vec2.hpp>
#include <glm/vec4.hpp>

#include "view/picture.hpp"

namespace couplet {

// Laid out as std140 wants it: matrices and vectors of four only. The meaning of each is in shaders/frame.glsl.
struct FrameBlock {
    glm::mat4 clip_from_observer;
    glm::mat4 shadow_from_observer;
    glm::vec4 eye;
    glm::vec4 gaze;
    glm::vec4 to_light;
    glm::vec4 light_colour;
    std::array<glm::vec4, 4> irradiance;
    glm::vec4 picture;
    glm::vec4 bench;
    glm::vec4 bench_colour;
    glm::vec4 backdrop_low;
    glm::vec4 backdrop_high;
    glm::vec4 cut;
    glm::vec4 shadow;
    glm::vec4 occlusion;
    glm::vec4 picture_right;
    glm::vec4 picture_up;
    glm::vec4 depth_terms;
    glm::vec4 style;
};

struct FrameSetup {
    FrameBlock block;
    glm::mat4 light_clip_from_observer;  // what the shadow map is drawn with
    double mm_per_px_at_target;
};

[[nodiscard]] FrameSetup frame_setup(const Picture& picture, const Quality& quality, glm::ivec2 size_px,
                                     const std::array<glm::vec3, 4>& irradiance, int room_levels);

}  // namespace couplet
