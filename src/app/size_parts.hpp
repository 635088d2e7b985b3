// Size parts: the sections of the Size panel, from top to bottom.
#pragma once

#include "app/finding_places.hpp"
#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

// What every gear has that gives nothing of its own.
void draw_teeth_section(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings);
// A row for each gear; the data of the one that is open.
void draw_gear_rows(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings);
void draw_gear_data(Screen& screen, const Session& session, Edits& edits, GearIndex gear);
// How many planets there are, and whether their meshes agree.
void draw_copies_section(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings);

// The rules that do not hold, each under a name of its own.
void draw_findings(Screen& screen, const std::vector<Finding>& findings);

}  // namespace couplet
