// Frame parts: what always stands on the window: the rail, the dial row, notices and chips over the stage.
#pragma once

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

// Where things stand, in window pixels.
struct Places_px {
    ImVec2 window;
    float rail_width = 0;
    float panel_width = 0;  // 0: no panel is open
    float dial_row_height = 0;
    // What is left of the stage between them.
    ImVec2 stage_from;
    ImVec2 stage_to;
};
[[nodiscard]] Places_px places_px(const Screen& screen, const ViewState& view, ImVec2 window_px);

// The stations of the job down the left edge.
void draw_rail(Screen& screen, const Session& session, Edits& edits, const Places_px& places);
// Running controls and setting at the left end, then a dial for each member; what is wrong with the pins above it.
void draw_dial_row(Screen& screen, const Session& session, Edits& edits, const Places_px& places);
void draw_notices(Screen& screen, const Session& session, Edits& edits, const Places_px& places);

}  // namespace couplet
