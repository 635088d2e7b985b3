// Main screen: everything over the stage in one frame: rail, open panel, dial row, notices, and the words on the stage.
#pragma once

#include "app/frame_parts.hpp"
#include "app/pace.hpp"
#include "view/pick.hpp"

namespace couplet {

// Dear ImGui's frame must have begun. `under_cursor` is what the mouse points at on the stage.
void draw_main_screen(Screen& screen, const Session& session, Edits& edits, const Places_px& places,
                      const std::optional<Picked>& under_cursor, Fineness fineness);

}  // namespace couplet
