// Window context: a window with an OpenGL 3.3 core context, by GLFW.
//
// The other source of a context is context.hpp, for machines without a display. Renderer::draw into framebuffer 0 draws
// into the window; show then makes it seen.
#pragma once

#include <glm/vec2.hpp>
#include <string>

#include "view/context.hpp"
#include "view/image.hpp"

struct GLFWwindow;

namespace couplet {

// Current on the thread that made it until it is destroyed. One at a time; on the main thread, as GLFW asks.
class WindowContext {
  public:
    enum class Visibility { hidden, shown };

    // Sizes in the screen's own units. Throws NoDrawing where there is no display, or none with OpenGL 3.3.
    WindowContext(const std::string& title, glm::ivec2 size, Visibility visibility = Visibility::shown);
    ~WindowContext();
    WindowContext(const WindowContext&) = delete;
    WindowContext& operator=(const WindowContext&) = delete;

    // What Renderer::draw takes: more than the window's size on a screen of high density.
    [[nodiscard]] glm::ivec2 size_px() const;
    // What was drawn since the last show.
    [[nodiscard]] Image drawn() const;
    void show();

    // For what GLFW does beside this: input, and the user interface's backend.
    [[nodiscard]] GLFWwindow* handle() const { return window_; }

  private:
    GLFWwindow* window_ = nullptr;
};

}  // namespace couplet
