#include "app/stage_frame.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "place/contacts.hpp"
#include "place/flank_gap.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

double width_over_height(ImVec2 size) {
    return static_cast<double>(size.x) / std::max(1.0F, size.y);
}

// Null too where the stage still shows another train.
const MeshGap* gap_of(const Session& session, std::size_t mesh) {
    const OrWhyNot<TrainPlaces>& places = session.study->places();
    if (!places.part || mesh >= places.part->proof.meshes.size()) return nullptr;
    if (!same_teeth(session.stage->train, session.train())) return nullptr;
    return &places.part->proof.meshes[mesh];
}

// A mesh as it stands on the stage, in the plane of the top face that both its gears have.
struct MeshOnStage {
    const PlacedMesh& placed;
    GearIndex first;  // the external one
    GearIndex second;
    PlaceIndex first_place;
    PlaceIndex second_place;
    const Part* part;  // of the first gear
    double top_mm;
    double twist_rad;  // of the first gear's teeth, from mid face to there
};

const Part* part_of(const Stage& stage, GearIndex gear, PlaceIndex place) {
    const auto found = std::ranges::find_if(stage.machine.parts,
                                            [&](const Part& part) { return part.gear == gear && part.place == place; });
    return found == stage.machine.parts.end() ? nullptr : &*found;
}

double top_mm_of(const Stage& stage, const Part& part) {
    return part.z_mm + extent_of(stage.machine.shapes[part.shape]).top_mm;
}

std::optional<MeshOnStage> mesh_on_stage(const Stage& stage, PlacedMeshIndex index) {
    const PlacedMesh& placed = stage.placement.meshes[index.position()];
    const Mesh& mesh = stage.train[placed.mesh];
    const GearIndex first = external_gear_of(stage.train, mesh);
    const GearIndex second = other_gear_of(stage.train, mesh);
    const auto [first_place, second_place] =
        first == mesh.first ? std::pair(placed.first, placed.second) : std::pair(placed.second, placed.first);
    const Part* part = part_of(stage, first, first_place);
    const Part* other = part_of(stage, second, second_place);
    if (part == nullptr || other == nullptr) return std::nullopt;
    const double top_mm = std::min(top_mm_of(stage, *part), top_mm_of(stage, *other));
    const GearSizes& sizes = stage.teeth.gears[first.position()];
    const double twist_rad =
        (top_mm - part->z_mm) * std::tan(sizes.spec.helix_angle_rad) * 2.0 / sizes.pitch_diameter_mm;
    return MeshOnStage{placed, first, second, first_place, second_place, part, top_mm, twist_rad};
}

// Flanks are as far apart all the while, wherever two of them stand opposite each other now.
std::optional<PlanePoint> between_flanks(const Stage& stage, const Standing& standing, const MeshOnStage& mesh,
                                         const MeshGap& gap) {
    const std::optional<ToothProfile>& first = stage.teeth.profiles[mesh.first.position()].profile;
    const std::optional<ToothProfile>& second = stage.teeth.profiles[mesh.second.position()].profile;
    if (!first || !second) return std::nullopt;
    const std::optional<FlankGap> flanks = flank_gap(first->sizes, second->sizes, mesh.placed.centre_distance_mm, 0.0);
    if (!flanks) return std::nullopt;
    const glm::dmat4& place = standing.frame_from_place[mesh.first_place.position()];
    const glm::dmat4& other = standing.frame_from_place[mesh.second_place.position()];
    const double tooth_rad = mesh.part->turned_rad + std::atan2(place[0].y, place[0].x) + mesh.twist_rad;
    return middle_contact(*first, {flanks->pair, active_path(*first, *second, flanks->pair)},
                          second->sizes.spec.internal,
                          {{place[3].x, place[3].y},
                           {other[3].x, other[3].y},
                           tooth_rad,
                           gap.gap_mm / std::cos(first->sizes.base_helix_rad)},
                          gap.where == GapPlace::flank_ahead ? FlankSide::ahead : FlankSide::behind);
}

// The proof gives the place with the mesh's arm in its start pose; by now the arm has turned.
PlanePoint carried_round(const Stage& stage, const Standing& standing, const MeshOnStage& mesh, const PlanePoint& at) {
    const std::optional<MemberIndex> arm = arm_of(stage.train, stage.train[mesh.placed.mesh]);
    if (!arm || *arm == kFrame) return at;
    const auto first = static_cast<std::size_t>(stage.placement.first_place[arm->position()]);
    const PlanePoint& centre = stage.placement.places[first].centre_mm;
    const glm::dvec4 now =
        standing.frame_from_place[first] * glm::dvec4(at.x_mm - centre.x_mm, at.y_mm - centre.y_mm, 0.0, 1.0);
    return {now.x, now.y};
}

// The proof looks at mid face: at the top face of leaning teeth the same is seen when the first gear has turned back by
// its twist.
double driver_turns_at_gap(const Session& session, const MeshGap& gap) {
    const Train& train = session.train();
    const Motion& motion = session.study->motion();
    const double at_mid_face = gap.at_driver_turns->to_double();
    const std::optional<MeshOnStage> mesh = mesh_on_stage(*session.stage, gap.mesh);
    if (!mesh || mesh->twist_rad == 0.0) return at_mid_face;
    const MemberIndex arm = arm_of(train, train[mesh->placed.mesh]).value_or(kFrame);
    const std::optional<Ratio> rate =
        turns_per_driver_turn(motion, rate_on(train, motion, train[mesh->first].member, arm));
    if (!rate || rate->is_zero()) return at_mid_face;
    return at_mid_face - mesh->twist_rad / (2.0 * std::numbers::pi) / rate->to_double();
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

std::optional<glm::dvec3> gap_on_stage(const Session& session, const Standing& standing, std::size_t mesh) {
    const MeshGap* gap = gap_of(session, mesh);
    if (gap == nullptr) return std::nullopt;
    const Stage& stage = *session.stage;
    const std::optional<MeshOnStage> on_stage = mesh_on_stage(stage, gap->mesh);
    if (!on_stage) return std::nullopt;
    const std::optional<PlanePoint> at = gap->where == GapPlace::elsewhere
                                             ? carried_round(stage, standing, *on_stage, gap->at_mm)
                                             : between_flanks(stage, standing, *on_stage, *gap);
    if (!at) return std::nullopt;
    const StageLook& look = session.view.look;
    const double z_mm = on_stage->top_mm + spread_shift_mm(stage, look, *on_stage->part);
    return glm::dvec3(observer_from_frame(stage, standing, look.observer) * glm::dvec4(at->x_mm, at->y_mm, z_mm, 1.0));
}

void go_to_gap(Session& session, const Places_px& places, std::size_t mesh) {
    const MeshGap* gap = gap_of(session, mesh);
    if (gap == nullptr) return;
    const Motion& motion = session.study->motion();
    session.view.running = false;
    session.crank.start_again(session.train(), motion);
    if (gap->at_driver_turns)
        session.crank.turn_parameters(motion, parameter_turns_of_drivers(motion, 1),
                                      driver_turns_at_gap(session, *gap));
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
