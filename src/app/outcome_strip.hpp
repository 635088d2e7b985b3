// Outcome strip: what the running setting comes to, over the dial row: one line where it moves, else what is wrong and
// a button for each way out.
#pragma once

#include <string>

#include "app/frame_parts.hpp"

namespace couplet {

// Said as panel "outcome": "outcome/verdict", "outcome/pull ring", "outcome/drive drum".
void draw_outcome(Screen& screen, const Session& session, Edits& edits, const Places_px& places);

// A way out of a locked setting: "pull ring and untie a = b", and the draft that takes it.
[[nodiscard]] std::string release_name(const Train& train, const Setting& setting, const Release& release);
[[nodiscard]] Draft released(const Draft& draft, const Release& release);

}  // namespace couplet
