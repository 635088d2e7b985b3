#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/panel_parts.hpp"
#include "app/place_parts.hpp"
#include "sheet/numbers.hpp"
#include "sheet/place_words.hpp"

namespace couplet {

namespace {

constexpr std::array<PanelColumn, 2> kGearColumns = {PanelColumn{"gear", 0}, {"turn it by deg", 150}};
constexpr std::array<PanelColumn, 3> kCopyColumns = {
    PanelColumn{"copy", 0}, {"round centre deg", 118}, {"then itself deg", 118}};
constexpr std::array<PanelColumn, 2> kMarkColumns = {PanelColumn{"part", 0}, {"mark points to deg", 150}};

// The tables of one panel, each narrowed by the same text.
class Rotations {
  public:
    Rotations(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places)
        : screen_(screen), session_(session), edits_(edits), places_(places) {}

    void draw_gears() {
        heading(screen_, "Starting rotations");
        faint_words(screen_, "Gears drawn with a tooth on +X; turn each by this, counter-clockwise seen from +Z.");
        const std::vector<GearStart>& gears = places_.rotations.gears;
        const std::vector<std::size_t> shown =
            narrowed(screen_, "gears named", edits_.view.panels.places_named, gears.size(),
                     [&](std::size_t i) { return gear_name(gears[i].gear, gears[i].place); });
        if (!begin_rows(screen_, "rotations", kGearColumns)) return;
        for (const std::size_t i : shown) draw_gear(gears[i]);
        ImGui::EndTable();
    }

    void draw_copies() {
        std::vector<const BodyStart*> copies;
        for (const BodyStart& body : places_.rotations.bodies)
            if (places_.placement[body.place].copy > 1) copies.push_back(&body);
        if (copies.empty()) return;
        heading(screen_, "Copies: rotate the first one round its centre");
        const std::vector<std::size_t> shown = narrowed_bodies("copies named", copies);
        if (!begin_rows(screen_, "turned copies", kCopyColumns)) return;
        for (const std::size_t i : shown) {
            const std::string name = begin_body(*copies[i], "copy ");
            ImGui::TableNextColumn();
            right_copyable(screen_, edits_, name + ": round centre",
                           decimal_cell(places_.placement[copies[i]->place].turns_from_first * Ratio(360)).shown);
            ImGui::TableNextColumn();
            right_copyable(screen_, edits_, name + ": then itself", angle_cell(copies[i]->extra_turn).shown);
        }
        ImGui::EndTable();
    }

    // Where one of several copies has several gears, which tooth stands where matters.
    void draw_marks() {
        std::vector<const BodyStart*> marked;
        for (const BodyStart& body : places_.rotations.bodies)
            if (is_marked(places_.placement[body.place].member)) marked.push_back(&body);
        if (marked.empty() && places_.rotations.timing_marks.empty()) return;
        heading(screen_, "Timing marks");
        faint_words(screen_,
                    "Mark what each gear of the part has on +X as drawn; in the start pose it points this way.");
        const std::vector<std::size_t> shown = narrowed_bodies("marks named", marked);
        if (begin_rows(screen_, "marks", kMarkColumns)) {
            for (const std::size_t i : shown) {
                const std::string name = begin_body(*marked[i], "mark of ");
                ImGui::TableNextColumn();
                right_copyable(screen_, edits_, name + ": mark", angle_cell(marked[i]->rotation).shown);
            }
            ImGui::EndTable();
        }
        draw_relative_marks();
    }

  private:
    std::string gear_name(GearIndex gear, PlaceIndex place) const {
        return gear_place_name(places_.train, places_.placement, gear, place);
    }
    std::string body_name(const BodyStart& body) const {
        return place_name(places_.train, places_.placement, body.place);
    }

    void draw_gear(const GearStart& start) {
        const std::string name = gear_name(start.gear, start.place);
        (void)member_row(screen_, session_.view.pointed, edits_, places_.placement[start.place].member, "gear " + name);
        ImGui::AlignTextToFramePadding();
        ImGui::TextUnformatted(name.c_str());
        ImGui::TableNextColumn();
        right_copyable(screen_, edits_, name + ": turn", angle_cell(start.starting_rotation).shown);
    }

    std::vector<std::size_t> narrowed_bodies(std::string_view field, const std::vector<const BodyStart*>& bodies) {
        return narrowed(screen_, field, edits_.view.panels.places_named, bodies.size(),
                        [&](std::size_t i) { return body_name(*bodies[i]); });
    }

    std::string begin_body(const BodyStart& body, const std::string& row) {
        std::string name = body_name(body);
        (void)member_row(screen_, session_.view.pointed, edits_, places_.placement[body.place].member, row + name);
        if (body.fits) {
            ImGui::AlignTextToFramePadding();
            ImGui::TextUnformatted(name.c_str());
        } else {
            verdict(screen_, Verdict::fails, row + name + ": fits", name + " does not fit");
        }
        return name;
    }

    bool is_marked(MemberIndex member) const {
        const std::vector<int>& first = places_.placement.first_place;
        return first[member.position() + 1] - first[member.position()] > 1 &&
               gears_of(places_.train, member).size() > 1;
    }

    void draw_relative_marks() {
        const std::vector<TimingMark>& marks = places_.rotations.timing_marks;
        for (std::size_t i = 0; i < std::min(marks.size(), kMostShown); ++i) {
            const std::string name = gear_name(marks[i].gear, marks[i].place);
            ImGui::AlignTextToFramePadding();
            ImGui::TextUnformatted((name + " turned on its body by").c_str());
            ImGui::SameLine();
            right_copyable(screen_, edits_, name + ": on its body", angle_cell(marks[i].relative).shown);
        }
    }

    Screen& screen_;
    const Session& session_;
    Edits& edits_;
    const TrainPlaces& places_;
};

}  // namespace

void draw_rotations(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places) {
    Rotations rotations(screen, session, edits, places);
    rotations.draw_gears();
    rotations.draw_copies();
    rotations.draw_marks();
}

}  // namespace couplet
