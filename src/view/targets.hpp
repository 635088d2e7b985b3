// Targets: the images that a frame is drawn into on its way to the picture. For files of this room only.
#pragma once

#include <glm/vec2.hpp>

#include "view/gl.hpp"

namespace couplet {

// A framebuffer with one image of its own, colour or depth, that later passes read.
struct ReadableTarget {
    Framebuffer framebuffer;
    Texture image;
    glm::ivec2 size_px{0};
};
[[nodiscard]] ReadableTarget depth_target(glm::ivec2 size_px);
// `format` as in glTexImage2D, GL_RGBA8 or GL_RGBA32F.
[[nodiscard]] ReadableTarget colour_target(glm::ivec2 size_px, GLint format);

// Gives the target's framebuffer a depth besides its image.
[[nodiscard]] Renderbuffer depth_for(const ReadableTarget& target);

// Where the scene is drawn, with several samples a pixel.
struct SampledTarget {
    Framebuffer framebuffer;
    Renderbuffer colour;
    Renderbuffer depth;
    glm::ivec2 size_px{0};
    int samples = 0;
};
[[nodiscard]] SampledTarget sampled_target(glm::ivec2 size_px, int samples);

}  // namespace couplet
