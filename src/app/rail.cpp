#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "app/disc_button.hpp"
#include "app/frame_parts.hpp"
#include "app/keys.hpp"

namespace couplet {

namespace {

constexpr float kRailWidth_u = 76;
constexpr float kDialRowHeight_u = 132;
constexpr float kStationDisc_u = 36;

struct Station {
    Step step;
    Icon icon;
    const char* word;
    const char* asks;
    KeyDeed key;
};

constexpr Station kScene = {Step::scene, Icon::scene, "scene", "open, save, or begin a new train",
                            KeyDeed::open_scene_panel};
// In the order of the job.
constexpr std::array<Station, 6> kJob = {
    {{Step::find, Icon::find, "find", "tooth counts that give a ratio and can be built", KeyDeed::open_find},
     {Step::size, Icon::size, "size", "tooth counts; how big each gear is, and whether it can be cut and meshed",
      KeyDeed::open_size},
     {Step::place, Icon::place, "place", "where each part goes, and turned by how much, so that the teeth mesh",
      KeyDeed::open_place},
     {Step::couple, Icon::couple, "couple", "the two angles to type for each coupling of joints", KeyDeed::open_couple},
     {Step::watch, Icon::watch, "watch", "speeds, observer and looks of the moving train", KeyDeed::open_watch},
     {Step::record, Icon::record, "record", "a clip of the turning train that loops without a seam",
      KeyDeed::open_record}}};
constexpr auto kLegs = static_cast<float>(kJob.size() - 1);  // from the first step of the job to the last
constexpr Station kKeys = {Step::keys, Icon::keys, "keys", "the card of keys, and what this program is",
                           KeyDeed::open_keys};

// Heights of the stations' middles below the rail's top, in units. A window too low for them all scrolls.
struct RailPlan {
    float scene, first_of_job, pitch, keys, daylight, undo, end;
};

RailPlan plan_for(float height_u) {
    constexpr float kTop = 32;
    constexpr float kGap = 16;      // beyond the pitch: the scene is no step of the job
    constexpr float kWord = 38;     // a station below its middle
    constexpr float kBottom = 156;  // the keys' middle and all below it
    RailPlan plan{};
    plan.pitch = std::clamp((height_u - kTop - kGap - kWord - kBottom - 24) / (kLegs + 1), 58.0F, 72.0F);
    plan.scene = kTop;
    plan.first_of_job = kTop + plan.pitch + kGap;
    const float job_ends = plan.first_of_job + kLegs * plan.pitch + kWord;
    plan.keys = std::max(height_u - kBottom, job_ends + 24);
    plan.daylight = plan.keys + 66;
    plan.undo = plan.daylight + 40;
    plan.end = plan.keys + kBottom;
    return plan;
}

std::string with_key(std::string_view text, KeyDeed deed) {
    return fmt::format("{}  [{}]", text, strokes_text(deed));
}

void draw_station(Screen& screen, const ViewState& view, Edits& edits, const Station& station, ImVec2 middle) {
    const Theme& theme = *screen.theme;
    const bool open = view.open == station.step;
    const float radius = 0.5F * screen.px(kStationDisc_u);
    const ImVec2 size(screen.px(kRailWidth_u - 8), 2 * radius + screen.px(20));
    ImGui::SetCursorScreenPos({middle.x - 0.5F * size.x, middle.y - radius});
    if (ImGui::InvisibleButton(station.word, size)) edits.view.open = open ? std::nullopt : std::optional(station.step);
    const bool lit = ImGui::IsItemHovered();
    DiscLook look{kStationDisc_u, {}};
    if (open) look.filled = theme.accent;
    draw_disc(screen, station.icon, middle, look, lit);
    if (has_keyboard())
        ImGui::GetWindowDrawList()->AddCircle(middle, radius + screen.px(3), colour(theme.accent), 0, screen.px(2));
    draw_text_round(screen.fonts.small, {middle.x, middle.y + radius + screen.px(4)},
                    open  ? theme.accent
                    : lit ? theme.ink
                          : theme.faint,
                    station.word);
    say(screen, "step", station.word, open ? "open" : "closed");
    tip(screen, with_key(station.asks, station.key));
}

void draw_line(Screen& screen, ImVec2 top_middle, const RailPlan& plan) {
    const Theme& theme = *screen.theme;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto at = [&](float height_u) { return ImVec2(top_middle.x, top_middle.y + screen.px(height_u)); };
    list.AddLine(at(plan.scene), at(plan.keys), colour(theme.line), screen.px(1.5F));
    list.AddLine(at(plan.first_of_job), at(plan.first_of_job + kLegs * plan.pitch), colour(theme.panel_edge),
                 screen.px(3));
    // The line passes behind the words: each has a piece of ground of its own.
    const auto ground = [&](float height_u) {
        list.AddRectFilled(
            {top_middle.x - screen.px(26), top_middle.y + screen.px(height_u + 0.5F * kStationDisc_u)},
            {top_middle.x + screen.px(26), top_middle.y + screen.px(height_u + 0.5F * kStationDisc_u + 19)},
            colour({theme.panel.x, theme.panel.y, theme.panel.z, 1}));
    };
    ground(plan.scene);
    for (std::size_t i = 0; i < kJob.size(); ++i) ground(plan.first_of_job + static_cast<float>(i) * plan.pitch);
}

void draw_daylight(Screen& screen, const Session& session, Edits& edits, ImVec2 middle) {
    const bool light = session.preferences.daylight == Daylight::light;
    if (disc_button(screen, light ? Icon::moon : Icon::sun, "##daylight", light ? "light" : "dark", middle, {})) {
        Preferences changed = session.preferences;
        changed.daylight = light ? Daylight::dark : Daylight::light;
        edits.ask(SetPreferences{changed});
    }
    screen.said.back().role = "switch";
    tip(screen, with_key(light ? "work by night: a dark window" : "work by day: a light window", KeyDeed::daylight));
}

void draw_undo_and_redo(Screen& screen, const History& history, Edits& edits, ImVec2 middle) {
    const DiscLook look{26, {}};
    const float aside = screen.px(15.5F);
    const std::string undo = history.undo_what();
    if (disc_button(screen, Icon::undo, "##undo", undo, {middle.x - aside, middle.y}, look, history.can_undo()))
        edits.ask(Undo{});
    tip(screen, undo.empty() ? "nothing to undo" : with_key("undo: " + undo, KeyDeed::undo));
    const std::string redo = history.redo_what();
    if (disc_button(screen, Icon::redo, "##redo", redo, {middle.x + aside, middle.y}, look, history.can_redo()))
        edits.ask(Redo{});
    tip(screen, redo.empty() ? "nothing to do again" : with_key("do again: " + redo, KeyDeed::redo));
}

}  // namespace

Places_px places_px(const Screen& screen, const ViewState& view, ImVec2 window_px) {
    constexpr float kNarrowPanel_u = 380;
    constexpr float kWidePanel_u = 420;
    constexpr float kPanelPerWindow = 0.3F;
    Places_px places;
    places.window = window_px;
    places.rail_width = screen.px(kRailWidth_u);
    places.dial_row_height = screen.px(kDialRowHeight_u);
    if (view.open) {
        const float wished =
            std::clamp(window_px.x * kPanelPerWindow, screen.px(kNarrowPanel_u), screen.px(kWidePanel_u));
        places.panel_width = std::clamp(window_px.x - places.rail_width, 0.0F, wished);
    }
    places.stage_from = {places.rail_width + places.panel_width, 0};
    places.stage_to = {std::max(window_px.x, places.stage_from.x),
                       std::max(window_px.y - places.dial_row_height, 0.0F)};
    return places;
}

void draw_rail(Screen& screen, const Session& session, Edits& edits, const Places_px& places) {
    screen.panel = "rail";
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize({places.rail_width, places.window.y});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::Begin("rail", nullptr, kPartOfFrame | ImGuiWindowFlags_NoScrollbar);
    ImGui::PopStyleVar();
    const ImVec2 top = ImGui::GetCursorScreenPos();
    const RailPlan plan = plan_for(places.window.y / screen.scale);
    const auto at = [&](float height_u) {
        return ImVec2(top.x + 0.5F * places.rail_width, top.y + screen.px(height_u));
    };
    draw_line(screen, at(0), plan);
    draw_station(screen, session.view, edits, kScene, at(plan.scene));
    for (std::size_t i = 0; i < kJob.size(); ++i)
        draw_station(screen, session.view, edits, kJob[i], at(plan.first_of_job + static_cast<float>(i) * plan.pitch));
    draw_station(screen, session.view, edits, kKeys, at(plan.keys));
    draw_daylight(screen, session, edits, at(plan.daylight));
    draw_undo_and_redo(screen, session.history, edits, at(plan.undo));
    ImGui::SetCursorScreenPos(at(plan.end));
    ImGui::Dummy({0, 0});
    ImGui::GetWindowDrawList()->AddLine({places.rail_width - 0.5F * screen.scale, 0},
                                        {places.rail_width - 0.5F * screen.scale, places.window.y},
                                        colour(screen.theme->panel_edge), screen.scale);
    ImGui::End();
}

}  // namespace couplet
