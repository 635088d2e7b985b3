// Place parts: the sections of the Place panel, from top to bottom.
#pragma once

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

// Whether all copies can be put in, the arithmetic of it, and how to mend it.
void draw_assembly(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places);
// Where the axes stand.
void draw_centres(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places);
// How far each gear is turned, and each copy beyond its first one.
void draw_rotations(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places);
// The smallest gap of each mesh, and the way to it on the stage.
void draw_proof(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places);

}  // namespace couplet
