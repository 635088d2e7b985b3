// Key queue: what the keyboard does between two frames, handed to Dear ImGui so that no quick stroke is lost.
//
// Dear ImGui looks at keys once a frame: a key pressed and let go between two slow frames would never have been down.
// Here every stroke gets a frame of its own, in the order in which things happened.
#pragma once

#include <deque>

struct GLFWwindow;

namespace couplet {

class KeyQueue {
  public:
    // As GLFW's callbacks have them; letters by the keyboard's layout.
    void key(int key, int scancode, int action);
    void letter(unsigned code);

    // Before Dear ImGui's frame begins.
    void hand_over();
    [[nodiscard]] bool is_empty() const { return events_.empty(); }

  private:
    struct Event {
        enum class Kind { press, release, letter } kind;
        int key = 0;
        unsigned code = 0;
    };
    std::deque<Event> events_;
};

}  // namespace couplet
