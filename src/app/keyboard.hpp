// Keyboard: what the keys of keys.hpp do. Asks by edits.
#pragma once

#include "app/keys.hpp"
#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

enum class AfterKeys { go_on, quit };

// Reads Dear ImGui's keyboard, whose keys are GLFW's, within a frame and before anything is said in it. Keys without
// Ctrl are left alone while a text is being written, and those that move and press while the keyboard is on a widget.
[[nodiscard]] AfterKeys obey_keys(Screen& screen, const Session& session, Edits& edits);

// One deed.
[[nodiscard]] AfterKeys obey(KeyDeed deed, Screen& screen, const Session& session, Edits& edits);

}  // namespace couplet
