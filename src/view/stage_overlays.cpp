#include "view/stage_overlays.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <queue>

#include "place/contacts.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kLift_mm = 0.15;  // above the face, so that the two never fight for a pixel

const glm::vec4 kPitchInk(0.10F, 0.45F, 0.55F, 0.9F);
const glm::vec4 kCentreInk(0.10F, 0.10F, 0.12F, 0.75F);
const glm::vec4 kArrowInk(0.83F, 0.37F, 0.05F, 1.0F);
const glm::vec3 kContactLight(1.0F, 0.55F, 0.12F);

// What all overlays need of a gear where it stands.
struct StandingGear {
    const Part* part;
    glm::dvec3 centre_mm;  // on its top face, in the frame
    double top_mm;
    double tooth_rad;  // where a tooth points at mid face, in the frame
};

class Overlays {
  public:
    Overlays(Picture& picture, const Stage& stage, const Standing& standing, const StageLook& look,
             const glm::dmat4& observer_from_frame, const std::function<double(const Part&)>& z_mm_of)
        : picture_(picture),
          stage_(stage),
          standing_(standing),
          look_(look),
          observer_from_frame_(observer_from_frame),
          z_mm_of_(z_mm_of) {
        for (const Part& part : stage.machine.parts) {
            if (part.gear.position() >= stage.train.gears.size()) continue;
            const glm::dmat4& frame_from_place = standing.frame_from_place[part.place.position()];
            const double top_mm = z_mm_of(part) + extent_of(stage.machine.shapes[part.shape]).top_mm + kLift_mm;
            by_place_[{part.gear.position(), part.place.position()}] = gears_.size();
            const double turned = std::atan2(frame_from_place[0].y, frame_from_place[0].x);
            gears_.push_back({&part, glm::dvec3(frame_from_place[3].x, frame_from_place[3].y, top_mm), top_mm,
                              part.turned_rad + turned});
        }
    }

    void add_pitch_circles();
    void add_centre_lines();
    void add_arrows();
    void add_contacts();
    void add_names();

  private:
    [[nodiscard]] const StandingGear* gear_at(GearIndex gear, PlaceIndex place) const {
        const auto found = by_place_.find({gear.position(), place.position()});
        return found == by_place_.end() ? nullptr : &gears_[found->second];
    }
    [[nodiscard]] glm::vec3 observed(const glm::dvec3& frame_mm) const {
        return glm::vec3(observer_from_frame_ * glm::dvec4(frame_mm, 1.0));
    }
    [[nodiscard]] double pitch_radius_mm(GearIndex gear) const {
        return 0.5 * stage_.teeth.operating_diameters_mm[gear.position()].value_or(
                         stage_.teeth.gears[gear.position()].pitch_diameter_mm);
    }
    void add_arc(const glm::dvec3& centre_mm, double radius_mm, double from_rad, double sweep_rad, Stroke stroke);
    void add_arrow(const glm::dvec3& centre_mm, double radius_mm, double from_rad, double sweep_rad);
    [[nodiscard]] std::vector<int> steps_from_driver() const;
    void add_contacts_of(const PlacedMesh& placed, const std::vector<int>& steps);

    Picture& picture_;
    const Stage& stage_;
    const Standing& standing_;
    const StageLook& look_;
    const glm::dmat4& observer_from_frame_;
    const std::function<double(const Part&)>& z_mm_of_;
    std::vector<StandingGear> gears_;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> by_place_;  // gear and place: where in gears_
};

void Overlays::add_arc(const glm::dvec3& centre_mm, double radius_mm, double from_rad, double sweep_rad,
                       Stroke stroke) {
    const int pieces = std::max(4, static_cast<int>(std::ceil(std::abs(sweep_rad) / kTurn * 96)));
    for (int i = 0; i <= pieces; ++i) {
        const double a = from_rad + sweep_rad * i / pieces;
        stroke.points_mm.push_back(
            observed(centre_mm + glm::dvec3(radius_mm * std::cos(a), radius_mm * std::sin(a), 0.0)));
    }
    picture_.strokes.push_back(std::move(stroke));
}

// The circles that roll on each other. A gear that runs at different distances with its partners has several; one in no
// mesh shows its reference circle.
void Overlays::add_pitch_circles() {
    std::vector<std::vector<double>> radii_mm(gears_.size());
    for (const PlacedMesh& placed : stage_.placement.meshes) {
        const std::optional<PairSizes>& pair = stage_.teeth.meshes[placed.mesh.position()].pair;
        if (!pair) continue;
        const Mesh& mesh = stage_.train[placed.mesh];
        const bool swapped = external_gear_of(stage_.train, mesh) != mesh.first;
        const auto add = [&](GearIndex gear, PlaceIndex place, bool external) {
            const StandingGear* standing = gear_at(gear, place);
            const double radius =
                0.5 * (external ? pair->first_operating_diameter_mm : pair->second_operating_diameter_mm);
            if (standing == nullptr) return;
            std::vector<double>& known = radii_mm[static_cast<std::size_t>(standing - gears_.data())];
            if (std::ranges::none_of(known, [&](double other) { return std::abs(other - radius) < 1e-3; }))
                known.push_back(radius);
        };
        add(mesh.first, placed.first, !swapped);
        add(mesh.second, placed.second, swapped);
    }
    for (std::size_t i = 0; i < gears_.size(); ++i) {
        if (radii_mm[i].empty()) radii_mm[i].push_back(pitch_radius_mm(gears_[i].part->gear));
        for (const double radius_mm : radii_mm[i])
            add_arc(gears_[i].centre_mm, radius_mm, 0.0, kTurn, {{}, kPitchInk, 1.6F, 0.0F, false});
    }
}

void Overlays::add_centre_lines() {
    for (const PlacedMesh& placed : stage_.placement.meshes) {
        const Mesh& mesh = stage_.train[placed.mesh];
        const StandingGear* first = gear_at(mesh.first, placed.first);
        const StandingGear* second = gear_at(mesh.second, placed.second);
        if (first == nullptr || second == nullptr) continue;
        const double top_mm = std::max(first->top_mm, second->top_mm);
        const glm::dvec3 from(first->centre_mm.x, first->centre_mm.y, top_mm);
        const glm::dvec3 to(second->centre_mm.x, second->centre_mm.y, top_mm);
        picture_.strokes.push_back({{observed(from), observed(to)}, kCentreInk, 1.4F, 7.0F, true});
    }
}

void Overlays::add_arrow(const glm::dvec3& centre_mm, double radius_mm, double from_rad, double sweep_rad) {
    add_arc(centre_mm, radius_mm, from_rad, sweep_rad, {{}, kArrowInk, 3.0F, 0.0F, false});
    const double tip_rad = from_rad + sweep_rad;
    const double head = std::min(0.28, 0.6 * std::abs(sweep_rad)) * (sweep_rad > 0 ? 1.0 : -1.0);
    Stroke stroke{{}, kArrowInk, 3.0F, 0.0F, false};
    for (const auto& [angle, radius] : {std::pair{tip_rad - head, 0.86 * radius_mm},
                                        {tip_rad, radius_mm},
                                        std::pair{tip_rad - head, 1.14 * radius_mm}})
        stroke.points_mm.push_back(
            observed(centre_mm + glm::dvec3(radius * std::cos(angle), radius * std::sin(angle), 0.0)));
    picture_.strokes.push_back(std::move(stroke));
}

// One arrow for each place, on its topmost gear, as its member turns against the observer.
void Overlays::add_arrows() {
    const double observer_rate = look_.observer == kFrame ? 0.0 : standing_.rates_on_frame[look_.observer.position()];
    double fastest = 0.0;
    for (const double rate : standing_.rates_on_frame) fastest = std::max(fastest, std::abs(rate - observer_rate));
    for (const StandingGear& gear : gears_) {
        const bool topmost = std::ranges::none_of(gears_, [&](const StandingGear& other) {
            return other.part->place == gear.part->place && other.top_mm > gear.top_mm;
        });
        if (!topmost) continue;
        const MemberIndex member = stage_.placement[gear.part->place].member;
        const double sweep = arrow_sweep_rad(standing_.rates_on_frame[member.position()] - observer_rate, fastest);
        if (sweep == 0.0) continue;
        const bool internal = stage_.train[gear.part->gear].internal;
        const double radius_mm = internal ? 0.5 * stage_.teeth.gears[gear.part->gear.position()].root_diameter_mm +
                                                2.0 * stage_.teeth.gears[gear.part->gear.position()].spec.module_mm
                                          : 0.62 * pitch_radius_mm(gear.part->gear);
        add_arrow(gear.centre_mm, radius_mm, kTurn / 4 - 0.5 * sweep, sweep);
    }
}

// By member: how many meshes lie between it and the driver; a large number where none leads there.
std::vector<int> Overlays::steps_from_driver() const {
    const std::size_t members = stage_.train.members.size();
    std::vector<std::vector<std::size_t>> partners(members);
    for (const Mesh& mesh : stage_.train.meshes) {
        const std::size_t a = stage_.train[mesh.first].member.position();
        const std::size_t b = stage_.train[mesh.second].member.position();
        partners[a].push_back(b);
        partners[b].push_back(a);
    }
    for (std::size_t m = 0; m < members; ++m)
        if (stage_.train.members[m].rides_on != kFrame) {
            partners[m].push_back(stage_.train.members[m].rides_on.position());
            partners[stage_.train.members[m].rides_on.position()].push_back(m);
        }
    std::vector<int> steps(members, 1 << 20);
    std::queue<std::size_t> waiting;
    for (const MemberIndex driver : standing_.drivers) {
        steps[driver.position()] = 0;
        waiting.push(driver.position());
    }
    for (; !waiting.empty(); waiting.pop())
        for (const std::size_t next : partners[waiting.front()])
            if (steps[next] > steps[waiting.front()] + 1) {
                steps[next] = steps[waiting.front()] + 1;
                waiting.push(next);
            }
    return steps;
}

void Overlays::add_contacts_of(const PlacedMesh& placed, const std::vector<int>& steps) {
    const Mesh& mesh = stage_.train[placed.mesh];
    const bool swapped = external_gear_of(stage_.train, mesh) != mesh.first;
    const GearIndex first = swapped ? mesh.second : mesh.first;
    const GearIndex second = swapped ? mesh.first : mesh.second;
    const StandingGear* a = gear_at(first, swapped ? placed.second : placed.first);
    const StandingGear* b = gear_at(second, swapped ? placed.first : placed.second);
    const ProfileResult& profile = stage_.teeth.profiles[first.position()];
    if (a == nullptr || b == nullptr || !profile.profile) return;
    const MemberIndex member = stage_.train[first].member;
    const MemberIndex other = stage_.train[second].member;
    // The gear nearer to the driver pushes; the first gear's flanks ahead touch where it pushes counter-clockwise.
    const MemberIndex arm = arm_of(stage_.train, mesh).value_or(kFrame);
    const double rate_on_arm =
        standing_.rates_on_frame[member.position()] - (arm == kFrame ? 0.0 : standing_.rates_on_frame[arm.position()]);
    const bool pushes = steps[member.position()] <= steps[other.position()];
    const FlankSide side = (rate_on_arm >= 0.0) == pushes ? FlankSide::ahead : FlankSide::behind;
    const GearSizes& sizes = stage_.teeth.gears[first.position()];
    const double twist_rad = std::tan(sizes.spec.helix_angle_rad) * sizes.spec.face_width_mm / sizes.pitch_diameter_mm;
    const MeshStanding standing{
        {a->centre_mm.x, a->centre_mm.y}, {b->centre_mm.x, b->centre_mm.y}, a->tooth_rad + twist_rad};
    const double z_mm = std::min(a->top_mm, b->top_mm);
    for (const PlanePoint& point : contact_points(*profile.profile, stage_.teeth.meshes[placed.mesh.position()],
                                                  stage_.train[second].internal, standing, side))
        picture_.glows.push_back(
            {observed({point.x_mm, point.y_mm, z_mm}), static_cast<float>(1.4 * sizes.spec.module_mm), kContactLight});
}

void Overlays::add_contacts() {
    const std::vector<int> steps = steps_from_driver();
    for (const PlacedMesh& placed : stage_.placement.meshes) add_contacts_of(placed, steps);
}

// Members with copies are named once; carriers and shafts without gears are named at their highest part.
void Overlays::add_names() {
    for (std::size_t m = 0; m < stage_.train.members.size(); ++m) {
        const auto place = static_cast<std::size_t>(stage_.placement.first_place[m]);
        const Part* highest = nullptr;
        for (const Part& part : stage_.machine.parts)
            if (part.place == PlaceIndex{static_cast<std::int32_t>(place)} &&
                (highest == nullptr || part.layer > highest->layer))
                highest = &part;
        if (highest == nullptr) continue;
        const Extent extent = extent_of(stage_.machine.shapes[highest->shape]);
        const bool ring = highest->role == PartRole::ring;
        const double out_mm = ring ? 0.97 * extent.radius_mm : 0.0;
        const glm::dmat4& frame_from_place = standing_.frame_from_place[place];
        const glm::dvec3 anchor(frame_from_place[3].x + 0.7071 * out_mm, frame_from_place[3].y + 0.7071 * out_mm,
                                z_mm_of_(*highest) + extent.top_mm);
        picture_.labels.push_back(
            {observed(anchor), stage_.train.members[m].name, static_cast<int>(stage_.train.members.size() - m)});
    }
}

}  // namespace

double arrow_sweep_rad(double rate, double fastest_rate) {
    return fastest_rate > 0 ? std::copysign(2.4 * std::sqrt(std::abs(rate) / fastest_rate), rate) : 0.0;
}

void add_overlays(Picture& picture, const Stage& stage, const Standing& standing, const StageLook& look,
                  const glm::dmat4& observer_from_frame, const std::function<double(const Part&)>& z_mm_of) {
    if (!look.pitch_circles && !look.centre_lines && !look.arrows && !look.contacts && !look.names) return;
    Overlays overlays(picture, stage, standing, look, observer_from_frame, z_mm_of);
    if (look.pitch_circles) overlays.add_pitch_circles();
    if (look.centre_lines) overlays.add_centre_lines();
    if (look.arrows && standing.moves) overlays.add_arrows();
    if (look.contacts) overlays.add_contacts();
    if (look.names) overlays.add_names();
}

}  // namespace couplet
