// Null window: Dear ImGui without a window, so that panels can be drawn, read and clicked in a test.
#pragma once

#include <imgui.h>

#include <functional>
#include <string>
#include <vector>

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

// One at a time. A frame draws `draw` within one ImGui window of 420 units' width named `panel`, applies its edits to
// the session, and leaves what was said in `screen.said`. Widgets are found by the name after the panel's
// ("couple/copy").
class NullWindow {
  public:
    using Draw = std::function<void(Screen&, const Session&, Edits&)>;

    // The scene is a text, or "" for the default one. Draws two frames, so that everything is laid out.
    NullWindow(const std::string& scene_text, Draw draw, Daylight light = Daylight::light, float scale = 1.0F);
    ~NullWindow();
    NullWindow(const NullWindow&) = delete;
    NullWindow& operator=(const NullWindow&) = delete;

    Session session;
    Screen screen;
    std::vector<Command> last_commands;  // of the frames of the last click, typing or frame()

    void frame(int count = 1);
    // The only thing said with that name; a failure of the test, and an empty Said, where there is none or several.
    [[nodiscard]] Said said(const std::string& name) const;
    [[nodiscard]] bool says(const std::string& name) const;
    // True where some text or value contains it.
    [[nodiscard]] bool shows(const std::string& text) const;
    // As the mouse would: the widget must be inside the window's height (4000 px: nothing scrolls).
    void click(const std::string& name);
    void hover(const std::string& name);
    void drag(ImVec2 from, ImVec2 to, int steps = 8);
    // Clicks into a field, selects all, types and presses Enter.
    void type(const std::string& name, const std::string& text);
    // Ends with no mouse button down. The key is one of ImGui's (1.86: io.KeyMap is the identity here).
    void press(ImGuiKey key);

  private:
    Draw draw_;
};

}  // namespace couplet
