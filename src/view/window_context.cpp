#include "view/window_context.hpp"

#include <fmt/format.h>
#include <glad/gl.h>
// GLFW brings no OpenGL header of its own where one is there already.
#include <GLFW/glfw3.h>

#include <algorithm>
#include <vector>

namespace couplet {

namespace {

constexpr const char* kAdvice =
    "start Couplet in a desktop session, or go without a window: couplet couple SCENE prints the numbers, couplet "
    "watch "
    "SCENE --still FILE.png draws the train";

[[noreturn]] void refuse(const char* what) {
    const char* reason = nullptr;
    glfwGetError(&reason);
    const std::string why = reason != nullptr ? fmt::format(" ({})", reason) : "";
    glfwTerminate();
    throw NoDrawing(fmt::format("no window can be opened here: {}{}; {}", what, why, kAdvice));
}

}  // namespace

WindowContext::WindowContext(const std::string& title, glm::ivec2 size, Visibility visibility) {
    if (glfwInit() == GLFW_FALSE) refuse("there is no display");
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
    glfwWindowHint(GLFW_VISIBLE, visibility == Visibility::shown ? GLFW_TRUE : GLFW_FALSE);
    window_ = glfwCreateWindow(size.x, size.y, title.c_str(), nullptr, nullptr);
    if (window_ == nullptr) refuse("the display offers no OpenGL 3.3");
    glfwMakeContextCurrent(window_);
    load_functions(glfwGetProcAddress);
}

WindowContext::~WindowContext() {
    glfwDestroyWindow(window_);
    glfwTerminate();
}

glm::ivec2 WindowContext::size_px() const {
    glm::ivec2 size(0);
    glfwGetFramebufferSize(window_, &size.x, &size.y);
    return size;
}

Image WindowContext::drawn() const {
    const glm::ivec2 size = size_px();
    glBindFramebuffer(GL_READ_FRAMEBUFFER, 0);
    glReadBuffer(GL_BACK);
    std::vector<std::uint8_t> upwards(static_cast<std::size_t>(size.x) * static_cast<std::size_t>(size.y) * 4);
    glReadPixels(0, 0, size.x, size.y, GL_RGBA, GL_UNSIGNED_BYTE, upwards.data());
    // A window is opaque, whatever its buffer says.
    for (std::size_t i = 3; i < upwards.size(); i += 4) upwards[i] = 255;
    return upright({size.x, size.y, std::move(upwards)});
}

void WindowContext::show() {
    glfwSwapBuffers(window_);
}

}  // namespace couplet
