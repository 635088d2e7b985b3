// Panels: what opens beside the rail, one function each. They read the session and write edits.
//
// Each draws within the ImGui window that is open (main_screen.cpp makes it), at its width.
#pragma once

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

// Open, save, recent scenes, new trains; unsaved work that was left; undo.
void draw_scene_panel(Screen& screen, const Session& session, Edits& edits);
// What ratio is wanted within which limits; the trains found, as they come: shown on the stage, kept by a click.
void draw_find_panel(Screen& screen, const Session& session, Edits& edits);
// Tooth counts, module, shifts, copies; the data of each gear; the rules that fail beside the field that causes them.
void draw_size_panel(Screen& screen, const Session& session, Edits& edits);
// Positions, starting rotations, assembly, proof of mesh.
void draw_place_panel(Screen& screen, const Session& session, Edits& edits);
// Settings, joints, couplings and what to type, audit.
void draw_couple_panel(Screen& screen, const Session& session, Edits& edits);
// Running, speeds, drivers, looks; lever diagram and speed plan.
void draw_watch_panel(Screen& screen, const Session& session, Edits& edits);
// The clip: kind, length, loop, camera, captions; the recording that goes on.
void draw_record_panel(Screen& screen, const Session& session, Edits& edits);
// The card of keys, the cautions, and what the program is.
void draw_keys_panel(Screen& screen, const Session& session, Edits& edits);

}  // namespace couplet
