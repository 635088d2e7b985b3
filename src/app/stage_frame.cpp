#include "app/stage_frame.hpp"

#include <algorithm>
#include <numbers>

#include "train/faults.hpp"

namespace couplet {

namespace {

double width_over_height(ImVec2 size) {
    return static_cast<double>(size.x) / std::max(1.0F, size.y);
}

const MeshGap* gap_of(const Session& session, std::size_t mesh) {
    const OrWhyNot<TrainPlaces>& places = session.study->places();
    if (!places.part || mesh >= places.part->proof.meshes.size()) return nullptr;
    return &places.part->proof.meshes[mesh];
}

double top_of(const Stage& stage, GearIndex gear) {
    double top_mm = stage.machine.bottom_mm;
    for (const Part& part : stage.machine.parts)
        if (part.gear == gear)
            top_mm = std::max(top_mm, part.z_mm + extent_of(stage.machine.shapes[part.shape]).top_mm);
    return top_mm;
}

}  // namespace

glm::dvec2 in_window(ImVec2 point_px, ImVec2 window_px) {
    return {2.0 * point_px.x / window_px.x - 1.0, 1.0 - 2.0 * point_px.y / window_px.y};
}

glm::dvec2 free_middle(const Places_px& places) {
    const ImVec2 middle(0.5F * (places.stage_from.x + places.stage_to.x),
                        0.5F * (places.stage_from.y + places.stage_to.y));
    return in_window(middle, places.window);
}

// The proof gives the place with the mesh's arm in its start pose; by now the arm has turned.
std::optional<glm::dvec3> gap_on_stage(const Session& session, const Standing& standing, std::size_t mesh) {
    const MeshGap* gap = gap_of(session, mesh);
    if (gap == nullptr || !same_teeth(session.stage->train, session.train())) return std::nullopt;
    const PlacedMesh& placed = session.stage->placement.meshes[gap->mesh.position()];
    const Mesh& meshed = session.train()[placed.mesh];
    const std::optional<MemberIndex> arm = arm_of(session.train(), meshed);
    glm::dvec4 at(gap->at_mm.x_mm, gap->at_mm.y_mm, top_of(*session.stage, meshed.first), 1.0);
    if (arm && *arm != kFrame) {
        const std::vector<Place>& places = session.stage->placement.places;
        const auto first = static_cast<std::size_t>(session.stage->placement.first_place[arm->position()]);
        const glm::dvec4 from_centre =
            at - glm::dvec4(places[first].centre_mm.x_mm, places[first].centre_mm.y_mm, 0, 0);
        at = standing.frame_from_place[first] * from_centre;
    }
    return glm::dvec3(observer_from_frame(*session.stage, standing, session.view.look.observer) * at);
}

void go_to_gap(Session& session, const Places_px& places, std::size_t mesh) {
    const MeshGap* gap = gap_of(session, mesh);
    if (gap == nullptr) return;
    const Motion& motion = session.study->motion();
    session.view.running = false;
    session.crank.start_again(session.train(), motion);
    if (gap->at_driver_turns) session.crank.run(motion, gap->at_driver_turns->to_double());
    const std::optional<glm::dvec3> at = gap_on_stage(session, standing_now(session), mesh);
    if (!at) return;
    Camera& camera = session.view.camera;
    camera.target_mm = *at;
    camera.elevation_rad = 0.44 * std::numbers::pi;
    const float free = places.stage_to.y - places.stage_from.y;
    constexpr double kModulesHigh = 10;
    const GearIndex gear = session.train()[session.stage->placement.meshes[gap->mesh.position()].mesh].first;
    const double height_mm = kModulesHigh * session.stage->teeth.gears[gear.position()].transverse_module_mm;
    camera.distance_mm *= height_mm / height_at_target_mm(camera) * places.window.y / std::max(1.0F, free);
}

Camera shown_camera(const Camera& handled, const Places_px& places) {
    return panned(handled, {0, 0}, free_middle(places), width_over_height(places.window));
}

Camera fitted_between(const Camera& camera, const Stage& stage, const StageLook& look, const Places_px& places) {
    const ImVec2 free(places.stage_to.x - places.stage_from.x, places.stage_to.y - places.stage_from.y);
    Camera result = fitted(camera, reaches_of(stage, look), width_over_height(free), 0.1);
    // Fitted as if the free part were the whole picture.
    result.distance_mm *= static_cast<double>(places.window.y) / std::max(1.0F, free.y);
    return result;
}

}  // namespace couplet
