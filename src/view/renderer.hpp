// Renderer: a picture's description in, pixels out.
//
// An OpenGL 3.3 context must be current whenever one is made, used or destroyed (context.hpp, or a window's). It keeps
// uploaded shapes and images between pictures, so one renderer serves one window or one clip.
//
// A FRAME   1  The key light's depth map.
//           2  A small depth picture from the eye; for each of its points, how open it is to the room and how much of
//              the key light reaches it; smoothed.
//           3  The solids and thin overlays among them, with several samples a pixel; the tone curve is applied per
//              sample, so that bright edges stay smooth. Resolved into an image of its own.
//           4  The bench and the backdrop under it, labels and captions on top; copied into the target.
#pragma once

#include <glm/vec2.hpp>
#include <memory>

#include "view/image.hpp"
#include "view/picture.hpp"

namespace couplet {

struct FrameCounts {
    std::size_t triangles = 0;  // of the solids as seen, not those of the passes before
    std::size_t draws = 0;
};

class Renderer {
  public:
    Renderer();
    ~Renderer();
    Renderer(const Renderer&) = delete;
    Renderer& operator=(const Renderer&) = delete;

    // Into the framebuffer (0: the window's), whole, at its lower left corner. Colour comes out premultiplied where the
    // picture is transparent.
    void draw(const Picture& picture, const Quality& quality, glm::ivec2 size_px, unsigned framebuffer = 0);

    // Into memory; alpha is straight.
    [[nodiscard]] Image image_of(const Picture& picture, const Quality& quality, glm::ivec2 size_px);

    // The framebuffer that image_of draws into, for a caller that reads the pixels itself.
    [[nodiscard]] unsigned own_target(glm::ivec2 size_px);
    // Copies that image into another framebuffer, stretched to its size.
    void copy_own(unsigned framebuffer, glm::ivec2 size_px);
    // Waits until everything is drawn.
    void finish();

    // Of the last frame.
    [[nodiscard]] FrameCounts counts() const;

  private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace couplet
