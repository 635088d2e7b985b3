// Couple parts: the sections of the Couple panel, from top to bottom.
#pragma once

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

// The setting in a sentence, what it does, and what to do where it does not move.
void draw_setting_line(Screen& screen, const Session& session, Edits& edits);
// A card for each coupling, the end of their list, then the joints that stand still.
void draw_coupling_cards(Screen& screen, const Session& session, Edits& edits);
// The card of one coupling; `which` is its position in the sheet, `key` a name that no other card has.
void draw_coupling_card(Screen& screen, const Session& session, Edits& edits, std::size_t which,
                        const std::string& key);
// The angles typed in the modeller, and the verdict on them. Rows of the card's own table stand before it.
void draw_typed(Screen& screen, const Session& session, Edits& edits, std::size_t which, const std::string& key);
// One more coupling of two joints, and the default ones again.
void draw_coupling_list_end(Screen& screen, const Session& session, Edits& edits);
void draw_setting_section(Screen& screen, const Session& session, Edits& edits);
void draw_joint_section(Screen& screen, const Session& session, Edits& edits);
// What angles the modeller's fields take.
void draw_modeller_section(Screen& screen, const Session& session, Edits& edits);

// The draft with another train; `key` as in ChangeDraft.
void take_train(const Session& session, Edits& edits, std::string what, Train train, std::string key = {});

// What a carrier correction is, as a picture: sun and planet, and both once more with the arm turned.
void draw_correction_picture(const Theme& theme, ImDrawList& list, ImVec2 from, ImVec2 to);

}  // namespace couplet
