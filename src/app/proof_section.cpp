#include <fmt/format.h>

#include <array>

#include "app/panel_parts.hpp"
#include "app/place_parts.hpp"
#include "sheet/place_words.hpp"

namespace couplet {

namespace {

constexpr std::array<PanelColumn, 4> kColumns = {
    PanelColumn{"mesh", 0}, {"gap mm", 60}, {"expected mm", 76}, {"show", 30}};

Verdict sign_of(MeshVerdict verdict_of) {
    if (verdict_of == MeshVerdict::meshes) return Verdict::holds;
    return verdict_of == MeshVerdict::off_centre ? Verdict::caution : Verdict::fails;
}

std::string gap_text(const MeshGap& gap, double length_mm) {
    return gap.verdict == MeshVerdict::no_profile ? "none" : fmt::format("{:.4f}", length_mm);
}

void draw_gap(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places, std::size_t which) {
    const MeshGap& gap = places.proof.meshes[which];
    const PlacedMesh& mesh = places.placement.meshes[gap.mesh.position()];
    const std::string name = mesh_place_name(places.train, places.placement, mesh);
    const MemberIndex moving = places.placement[mesh.second].member;
    (void)member_row(screen, session.view.pointed, edits, moving, name);
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() + ImGui::GetStyle().FramePadding.y);
    verdict(screen, sign_of(gap.verdict), name + ": verdict",
            gap.verdict == MeshVerdict::meshes ? name : fmt::format("{}: {}", name, mesh_verdict_name(gap.verdict)));
    ImGui::TableNextColumn();
    right_text(screen, name + ": gap", gap_text(gap, gap.gap_mm));
    ImGui::TableNextColumn();
    right_text(screen, name + ": expected", gap_text(gap, gap.expected_mm));
    ImGui::TableNextColumn();
    const bool shown = session.view.mesh_shown == which;
    if (icon_button(screen, Icon::eye, "##show " + name, "", true, shown))
        edits.view.mesh_shown = shown ? std::nullopt : std::optional(which);
    tip(screen, shown ? "back to the whole machine" : "show where this gap is smallest");
}

}  // namespace

void draw_proof(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places) {
    heading(screen, "Proof of mesh");
    verdict(screen, places.proof.all_mesh ? Verdict::holds : Verdict::fails, "proof of mesh",
            places.proof.all_mesh ? "every mesh stands in the middle of its gaps" : "not every mesh is right");
    faint_words(screen, "The smallest gap between flanks through one full cycle; expected is half of the backlash.");
    const std::vector<std::size_t> shown = narrowed(
        screen, "meshes named", edits.view.panels.places_named, places.proof.meshes.size(), [&](std::size_t i) {
            const PlacedMesh& mesh = places.placement.meshes[places.proof.meshes[i].mesh.position()];
            return mesh_place_name(places.train, places.placement, mesh);
        });
    if (!begin_rows(screen, "proof", kColumns)) return;
    for (const std::size_t i : shown) draw_gap(screen, session, edits, places, i);
    ImGui::EndTable();
}

}  // namespace couplet
