// Pixel ring: frames on their way out of the GPU. Reading one is asked for now and fetched some frames later, so that
// drawing never waits for it.
//
// An OpenGL 3.3 context must be current. Frames come out in the order in which they were asked for.
#pragma once

#include <glm/vec2.hpp>
#include <memory>

#include "view/image.hpp"

namespace couplet {

// What the image's alpha means for its colours.
enum class Alpha { opaque, straightened };

class PixelRing {
  public:
    // `frames`: how many may be under way; at least 1.
    PixelRing(glm::ivec2 size_px, int frames);
    ~PixelRing();
    PixelRing(const PixelRing&) = delete;
    PixelRing& operator=(const PixelRing&) = delete;

    [[nodiscard]] bool is_full() const;
    [[nodiscard]] bool is_empty() const;

    // Begins to read the framebuffer. Throws std::logic_error where the ring is full.
    void ask(unsigned framebuffer);
    // The oldest frame asked for, waited for where it must be, rows from the top. `spare` is an image that is no longer
    // needed: its memory is used again. Throws std::logic_error where the ring is empty.
    [[nodiscard]] Image fetch(Alpha alpha, Image spare = {});

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace couplet
