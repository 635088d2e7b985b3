// Driven window: the real program in a process of its own on the display that is there, driven by xdotool and read by
// its state dump.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>
#include <vector>

#include "sheet/json_values.hpp"

namespace couplet {

class DrivenWindow {
  public:
    // Starts couplet, which becomes the window, with the arguments and keepsakes in a folder of the test's own, and
    // waits for its first frame.
    explicit DrivenWindow(const std::filesystem::path& folder, std::vector<std::string> arguments);
    // Ends it where it still runs.
    ~DrivenWindow();
    DrivenWindow(const DrivenWindow&) = delete;
    DrivenWindow& operator=(const DrivenWindow&) = delete;

    // What the window shows now (SIGUSR1); a failure of the test, and an empty object, where it does not answer.
    [[nodiscard]] Json state();
    // The middle of the only thing said with that name, in the window's pixels.
    [[nodiscard]] std::pair<int, int> middle_of(const std::string& name);
    void move_to(int x, int y);
    void click(const std::string& name);
    // Presses at one place, goes to the other in steps, and lets go.
    void drag(std::pair<int, int> from, std::pair<int, int> to);
    void key(const std::string& keys);
    void type(const std::string& text);
    void resize(int width, int height);
    // Files dragged here from another program.
    void drop(const std::vector<std::filesystem::path>& files);
    // As the window manager's button would; then the state that it left. The exit status is kept.
    [[nodiscard]] Json close();

    [[nodiscard]] pid_t pid() const { return pid_; }
    [[nodiscard]] int status() const { return status_; }

  private:
    void tool(const std::string& arguments) const;

    std::filesystem::path dump_;
    pid_t pid_ = -1;
    int status_ = -1;
    std::string window_;  // as xdotool calls it
};

}  // namespace couplet
