#include <fmt/format.h>

#include "app/panel_parts.hpp"
#include "app/size_parts.hpp"
#include "exact/decimal.hpp"
#include "sheet/quantity.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr std::array<PanelColumn, 5> kColumns = {
    PanelColumn{"gear", 0}, {"teeth", 48}, {"shift", 62}, {"pitch mm", 58}, {"tip mm", 58}};

// The rows of gears, broken off by what stands under a gear and taken up again.
class GearRows {
  public:
    GearRows(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings)
        : screen_(screen), session_(session), edits_(edits), findings_(findings) {}

    void draw(const std::vector<std::size_t>& shown) {
        bool open = false;
        for (const std::size_t position : shown) {
            const GearIndex gear{static_cast<std::int32_t>(position)};
            if (!open) open = begin_rows(screen_, fmt::format("gears from {}", position).c_str(), kColumns);
            if (!open) return;
            draw_row(gear);
            const auto found = findings_.gears.find(gear);
            const bool unfolded = session_.view.panels.gear_open == gear;
            if (found == findings_.gears.end() && !unfolded) continue;
            ImGui::EndTable();
            open = false;
            if (found != findings_.gears.end()) draw_findings(screen_, found->second);
            if (unfolded) draw_gear_data(screen_, session_, edits_, gear);
        }
        if (open) ImGui::EndTable();
    }

  private:
    void draw_row(GearIndex index) {
        const Train& train = session_.train();
        const Gear& gear = train[index];
        const std::string name = name_of(train, index);
        (void)member_row(screen_, session_.view.pointed, edits_, gear.member, name);
        if (button(screen_, name + "##: all data", ButtonKind::quiet)) {
            std::optional<GearIndex>& open = edits_.view.panels.gear_open;
            open = open == index ? std::nullopt : std::optional(index);
        }
        tip(screen_, "all its data");
        ImGui::TableNextColumn();
        if (const auto teeth = whole_field(screen_, "teeth of " + name, gear.teeth, kFewestTeeth, kMostTeeth, 46))
            take(index, fmt::format("teeth of {}: {}", name, *teeth), "teeth of " + name,
                 [&](Gear& changed) { changed.teeth = *teeth; });
        ImGui::TableNextColumn();
        if (const auto shift = optional_number_field(screen_, "shift of " + name, gear.shift, kShiftLimits, "0", 60))
            take(index, fmt::format("shift of {}: {}", name, *shift ? exact_text(**shift) : "0"), "shift of " + name,
                 [&](Gear& changed) { changed.shift = *shift; });
        draw_diameters(index, name);
    }

    void draw_diameters(GearIndex index, const std::string& name) {
        const auto& sizes = session_.study->sizes().part;
        const auto shown = [&](double GearSizes::*diameter) {
            return sizes ? measured_cell(sizes->teeth.gears[index.position()].*diameter, "mm").shown
                         : std::string("none");
        };
        ImGui::TableNextColumn();
        right_text(screen_, "pitch diameter of " + name, shown(&GearSizes::pitch_diameter_mm));
        ImGui::TableNextColumn();
        right_text(screen_, "tip diameter of " + name, shown(&GearSizes::tip_diameter_mm));
    }

    template <class Change>
    void take(GearIndex gear, std::string what, std::string key, Change change) {
        Draft draft = session_.draft();
        change(draft.train.gears[gear.position()]);
        edits_.change(std::move(what), std::move(draft), std::move(key));
    }

    Screen& screen_;
    const Session& session_;
    Edits& edits_;
    const FindingPlaces& findings_;
};

void draw_quantities(Screen& screen, Edits& edits, const std::string& of, const std::vector<Quantity>& quantities) {
    constexpr std::array<PanelColumn, 3> kDataColumns = {PanelColumn{"quantity", 0}, {"value", 120}, {"unit", 34}};
    const Table table = quantities_table(of, quantities);
    if (!begin_rows(screen, ("data of " + of).c_str(), kDataColumns)) return;
    for (const std::vector<Cell>& row : table.rows) {
        ImGui::TableNextRow();
        ImGui::TableNextColumn();
        ImGui::AlignTextToFramePadding();
        ImGui::PushTextWrapPos(0);
        ImGui::TextUnformatted(row[0].shown.c_str());
        ImGui::PopTextWrapPos();
        ImGui::TableNextColumn();
        right_copyable(screen, edits, fmt::format("{}: {}", of, row[0].shown), row[1].shown);
        ImGui::TableNextColumn();
        ImGui::AlignTextToFramePadding();
        ImGui::TextUnformatted(row[2].shown.c_str());
    }
    ImGui::EndTable();
}

}  // namespace

void draw_gear_rows(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings) {
    const Train& train = session.train();
    heading(screen, "Gears");
    faint_words(screen, "A gear's name shows all its data.");
    const std::vector<std::size_t> shown =
        narrowed(screen, "gears named", edits.view.panels.gears_named, train.gears.size(),
                 [&](std::size_t g) { return name_of(train, GearIndex{static_cast<std::int32_t>(g)}); });
    GearRows(screen, session, edits, findings).draw(shown);
}

void draw_gear_data(Screen& screen, const Session& session, Edits& edits, GearIndex gear) {
    const Train& train = session.train();
    const auto& sizes = session.study->sizes().part;
    if (!sizes) return words(screen, session.study->sizes().why_not);
    const std::string name = name_of(train, gear);
    const Card card(screen, "card " + name);
    draw_quantities(screen, edits, name, gear_quantities(train, sizes->teeth, gear));
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const Mesh& mesh = train.meshes[m];
        if (mesh.first != gear && mesh.second != gear) continue;
        const std::string meshes = name_of(train, mesh.first) + " with " + name_of(train, mesh.second);
        words(screen, meshes);
        draw_quantities(screen, edits, meshes,
                        mesh_quantities(train, sizes->teeth, MeshIndex{static_cast<std::int32_t>(m)}));
    }
}

}  // namespace couplet
