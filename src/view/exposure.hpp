// Exposure: several drawings made into one frame, as a shutter that stays open and a finer grain would see it.
//
// Drawings are added up in linear light, each `side` times as wide and as high as the frame; a pixel is the average of
// its square of points over all drawings. An OpenGL 3.3 context must be current.
#pragma once

#include <glm/vec2.hpp>
#include <memory>

#include "view/renderer.hpp"

namespace couplet {

struct Grain {
    int drawings = 1;  // instants within one frame, for motion blur
    int side = 1;      // points a side for each pixel, for finer edges
};

class Exposure {
  public:
    // The renderer must live as long. Throws std::invalid_argument where there is nothing to expose.
    Exposure(Renderer& renderer, glm::ivec2 size_px, const Grain& grain);
    ~Exposure();
    Exposure(const Exposure&) = delete;
    Exposure& operator=(const Exposure&) = delete;

    // One of the frame's drawings; after the last of them the frame is in `framebuffer`, until the next one begins.
    void add(const Picture& picture, const Quality& quality);
    [[nodiscard]] unsigned framebuffer() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace couplet
