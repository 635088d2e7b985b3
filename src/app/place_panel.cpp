#include "app/panel_parts.hpp"
#include "app/panels.hpp"
#include "app/place_parts.hpp"

namespace couplet {

void draw_place_panel(Screen& screen, const Session& session, Edits& edits) {
    const OrWhyNot<TrainPlaces>& places = session.study->places();
    if (!places.part) return verdict(screen, Verdict::fails, "assembly", places.why_not);
    draw_assembly(screen, session, edits, *places.part);
    draw_proof(screen, session, edits, *places.part);
    draw_centres(screen, session, edits, *places.part);
    draw_rotations(screen, session, edits, *places.part);
}

}  // namespace couplet
