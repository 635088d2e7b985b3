// Main loop: the window from its opening to its end.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "app/session.hpp"
#include "view/image.hpp"

namespace couplet {

struct WindowWishes {
    std::filesystem::path scene;  // empty: the built-in one
    std::optional<std::string> setting;
    std::optional<std::string> observer;
    std::optional<Step> panel;
    std::optional<Look> look;
    std::optional<NamedView> view;
    bool run = false;
    glm::ivec2 size{1280, 800};
    std::optional<double> scale;
    // Where the state is written (state_dump.hpp) at the end and whenever the process gets SIGUSR1; "-": standard
    // output.
    std::optional<std::string> dump_state;
    std::filesystem::path keepsakes;
    std::optional<std::uint64_t> frames;  // closes by itself after so many
    // Gets what the window shows once the full picture stands and nothing moves; then the window closes.
    std::function<void(const Image&)> when_still;
};

// Until the user closes the window. Throws NoDrawing (view/context.hpp) where there is no display, and
// std::runtime_error for a setting or an observer that the scene does not have.
void run_window(const WindowWishes& wishes);

}  // namespace couplet
