#include "app/main_screen.hpp"

#include <fmt/format.h>

#include "app/disc_button.hpp"
#include "app/panels.hpp"
#include "sheet/numbers.hpp"
#include "sheet/search_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

using DrawPanel = void (*)(Screen&, const Session&, Edits&);

struct PanelOf {
    Step step;
    const char* name;   // before the names of its widgets
    const char* title;  // the question that it answers
    DrawPanel draw;
};

constexpr PanelOf kPanels[] = {
    {Step::scene, "scene", "Scene", draw_scene_panel},
    {Step::find, "find", "Which tooth counts give my ratio?", draw_find_panel},
    {Step::size, "size", "How big is each gear?", draw_size_panel},
    {Step::place, "place", "Where does each part go?", draw_place_panel},
    {Step::couple, "couple", "What do I type?", draw_couple_panel},
    {Step::watch, "watch", "Does it move as it should?", draw_watch_panel},
    {Step::record, "record", "How do I show it?", draw_record_panel},
    {Step::keys, "keys", "Keys, and about", draw_keys_panel},
};

void draw_panel(Screen& screen, const Session& session, Edits& edits, const Places_px& places) {
    if (!session.view.open) return;
    const PanelOf& panel = kPanels[static_cast<int>(*session.view.open)];
    const ImVec2 from(places.rail_width, 0);
    const ImVec2 size(places.panel_width, places.window.y - places.dial_row_height);
    ImGui::SetNextWindowPos(from);
    ImGui::SetNextWindowSize(size);
    screen.panel = panel.name;
    ImGui::Begin(panel.name, nullptr, kPartOfFrame | ImGuiWindowFlags_NoBringToFrontOnFocus);
    ImGui::PushFont(screen.fonts.large);
    ImGui::TextUnformatted(panel.title);
    ImGui::PopFont();
    ImGui::SameLine(ImGui::GetWindowContentRegionMax().x - screen.px(26));
    if (icon_button(screen, Icon::cross, "##close panel", "Esc")) edits.view.open.reset();
    ImGui::BeginChild("body");
    panel.draw(screen, session, edits);
    ImGui::EndChild();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddLine({from.x + size.x - screen.scale, 0}, {from.x + size.x - screen.scale, size.y},
                 colour(screen.theme->panel_edge), screen.scale);
    ImGui::End();
}

// A line of text on the stage, on a ground of its own so that it is legible over anything.
void draw_chip(Screen& screen, ImVec2 at, ImVec2 pivot, std::string_view name, const std::string& text,
               const ImVec4& ink) {
    const ImVec2 size = ImGui::CalcTextSize(text.c_str());
    const ImVec2 pad(screen.px(9), screen.px(5));
    const ImVec2 from(at.x - pivot.x * (size.x + 2 * pad.x), at.y - pivot.y * (size.y + 2 * pad.y));
    const ImVec2 to(from.x + size.x + 2 * pad.x, from.y + size.y + 2 * pad.y);
    ImDrawList& list = *ImGui::GetBackgroundDrawList();
    list.AddRectFilled(from, to, colour(screen.theme->panel, 0.86F), screen.px(5));
    list.AddText({from.x + pad.x, from.y + pad.y}, colour(ink), text.c_str());
    say(screen, "text", name, text, from, to);
}

std::string pick_hint(const Session& session) {
    const JointPick& pick = *session.view.joint_pick;
    if (!pick.turns) return "Click the member that turns.  [Esc] to leave it";
    return fmt::format("{} turns; click what it turns against.", name_of(session.train(), *pick.turns));
}

// Of the train that stands on the stage while the cursor rests on its row.
void draw_found_words(Screen& screen, const Session& session, const Places_px& places) {
    const SearchWish& wish = session.view.find.wish;
    const SearchRow& row = *session.found_on_stage;
    const float middle = 0.5F * (places.stage_from.x + places.stage_to.x);
    const float bottom = places.stage_to.y - screen.px(12);
    draw_chip(screen, {middle, bottom}, {0.5F, 1}, "found",
              fmt::format("found: {}; a click keeps it", teeth_text(wish, row)), screen.theme->accent);
    draw_chip(screen, {middle, bottom - screen.px(34)}, {0.5F, 1}, "its qualities", qualities_text(wish, row),
              screen.theme->ink);
}

void draw_words_on_stage(Screen& screen, const Session& session, const Places_px& places, Fineness fineness) {
    const Theme& theme = *screen.theme;
    const float gap = screen.px(12);
    screen.panel = "stage";
    const Train& train = session.train();
    const std::string title = train.title.empty() ? session.file.name : train.title;
    const std::string unsaved = session.is_saved() ? "" : "  (not saved)";
    draw_chip(screen, {places.stage_to.x - gap, places.stage_from.y + gap}, {1, 0}, "title", title + unsaved,
              theme.ink);
    if (session.view.joint_pick)
        draw_chip(screen, {0.5F * (places.stage_from.x + places.stage_to.x), places.stage_to.y - gap}, {0.5F, 1},
                  "hint", pick_hint(session), theme.accent);
    if (session.found_on_stage) draw_found_words(screen, session, places);
    if (session.view.look.observer != kFrame)
        draw_chip(screen, {places.stage_from.x + gap, places.stage_to.y - gap}, {0, 1}, "observer",
                  fmt::format("seen from {}, which seems to stand still", name_of(train, session.view.look.observer)),
                  theme.ink);
    if (fineness != Fineness::full)
        draw_chip(screen, {places.stage_to.x - gap, places.stage_to.y - gap}, {1, 1}, "lighter picture",
                  "lighter picture while it moves", theme.faint);
}

// What lies under the cursor, by name and speed.
void draw_pointer_words(Screen& screen, const Session& session, const std::optional<Picked>& under_cursor) {
    if (!under_cursor || under_cursor->member == kFrame || ImGui::IsAnyItemHovered()) return;
    const MemberIndex member = under_cursor->member;
    if (member.position() >= session.study->sheet().members.size()) return;
    const MemberRate& rate = session.study->sheet().members[member.position()];
    std::string text = name_of(session.train(), member);
    if (rate.turns_per_driver_turn && session.study->sheet().reference_driver)
        text += fmt::format("   {} turns a turn of {}", fraction_cell(*rate.turns_per_driver_turn).shown,
                            name_of(session.train(), session.study->sheet().reference_driver->member));
    ImGui::BeginTooltip();
    ImGui::TextUnformatted(text.c_str());
    ImGui::EndTooltip();
    say(screen, "pointed", "pointed", text);
}

}  // namespace

void draw_main_screen(Screen& screen, const Session& session, Edits& edits, const Places_px& places,
                      const std::optional<Picked>& under_cursor, Fineness fineness) {
    draw_words_on_stage(screen, session, places, fineness);
    draw_panel(screen, session, edits, places);
    screen.panel = "dials";
    draw_dial_row(screen, session, edits, places);
    screen.panel = "rail";
    draw_rail(screen, session, edits, places);
    screen.panel = "notices";
    draw_notices(screen, session, edits, places);
    screen.panel = "stage";
    draw_pointer_words(screen, session, under_cursor);
}

}  // namespace couplet
