// Context: where OpenGL 3.3 core comes from when there is no window.
//
// A GPU's own device first, else Mesa's software renderer, both by EGL without a surface: no display server is needed.
// A window brings its own context and only needs load_functions.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace couplet {

// There is no way to draw here. what() says what was tried and what would help.
struct NoDrawing : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// Current on the thread that made it until it is destroyed. Throws NoDrawing.
class OffscreenContext {
  public:
    OffscreenContext();
    ~OffscreenContext();
    OffscreenContext(const OffscreenContext&) = delete;
    OffscreenContext& operator=(const OffscreenContext&) = delete;

  private:
    struct Handles;
    std::unique_ptr<Handles> handles_;
};

// OpenGL's functions of the context that is current, by the function that a window library gives for finding them.
// Throws NoDrawing where it is older than 3.3.
using FunctionFinder = void (*(*)(const char* name))();
void load_functions(FunctionFinder find);

// What draws, as the driver calls itself.
[[nodiscard]] std::string renderer_name();

// From now on the driver's messages of errors are collected (KHR_debug, where the driver has it).
void collect_errors();
[[nodiscard]] const std::vector<std::string>& collected_errors();

}  // namespace couplet
