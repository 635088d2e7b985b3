#include <fmt/format.h>

#include <array>

#include "app/panel_parts.hpp"
#include "app/place_parts.hpp"
#include "sheet/place_words.hpp"
#include "sheet/quantity.hpp"

namespace couplet {

namespace {

constexpr std::array<PanelColumn, 3> kColumns = {PanelColumn{"part", 0}, {"x mm", 112}, {"y mm", 112}};

void draw_place(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places, PlaceIndex index) {
    const Place& place = places.placement[index];
    const std::string name = place_name(places.train, places.placement, index);
    const PlanePoint& centre = session.view.panels.centres_on_carrier ? place.centre_on_carrier_mm : place.centre_mm;
    (void)member_row(screen, session.view.pointed, edits, place.member, name);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(name.c_str());
    ImGui::TableNextColumn();
    right_copyable(screen, edits, "x of " + name, measured_cell(centre.x_mm, "mm").shown);
    ImGui::TableNextColumn();
    right_copyable(screen, edits, "y of " + name, measured_cell(centre.y_mm, "mm").shown);
}

}  // namespace

void draw_centres(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places) {
    heading(screen, "Centres");
    const std::array<std::string, 2> frames = {"in the frame", "on what it rides on"};
    if (const auto chosen = segments(screen, "centres", frames, session.view.panels.centres_on_carrier ? 1 : 0))
        edits.view.panels.centres_on_carrier = *chosen == 1;
    const std::vector<std::size_t> shown = narrowed(
        screen, "parts named", edits.view.panels.places_named, places.placement.places.size(), [&](std::size_t p) {
            return place_name(places.train, places.placement, PlaceIndex{static_cast<std::int32_t>(p)});
        });
    if (!begin_rows(screen, "centres of parts", kColumns)) return;
    for (const std::size_t p : shown)
        draw_place(screen, session, edits, places, PlaceIndex{static_cast<std::int32_t>(p)});
    ImGui::EndTable();
}

}  // namespace couplet
