#include "place/mesh_proof.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

#include "place/contacts.hpp"
#include "place/flank_gap.hpp"
#include "place/outline.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;
// The outlines are sampled to this part of the expected gap, within these multiples of the module.
constexpr double kProofResolution = 0.005;
constexpr double kFinest_modules = 5e-5;
constexpr double kCoarsest_modules = 1e-3;
// An overlap is measured no deeper than this, which says enough.
constexpr double kDeepest_modules = 1.0;
// Beyond so many teeth to either side of the line of centres nothing is looked at.
constexpr double kMostTeethAside = 48.0;
constexpr int kFewestSteps = 16;
constexpr int kMostSteps = 400;

const char* const kProofOfMesh = "proof of mesh";
const char* const kProofSource = "involute geometry";

// Two gears in the plane of their mesh: the one that is turned about the origin, and its partner at (distance, 0) with
// the contact on the way there (external) or beyond (internal, the ring at the origin).
struct MeshPlane {
    const ToothProfile& origin;
    const ToothProfile& partner;
    double distance_mm;
    double miss_pitches;
    bool internal;

    [[nodiscard]] double module_mm() const { return origin.sizes.spec.module_mm; }
    [[nodiscard]] int origin_teeth() const { return origin.sizes.spec.teeth; }
    [[nodiscard]] int partner_teeth() const { return partner.sizes.spec.teeth; }
    [[nodiscard]] double origin_tip_mm() const { return origin.sizes.tip_diameter_mm / 2.0; }
    [[nodiscard]] double partner_tip_mm() const { return partner.sizes.tip_diameter_mm / 2.0; }
    [[nodiscard]] double partner_side_rad() const { return internal ? 0.0 : kTurn / 2.0; }

    // Where a tooth of either gear stands after part of a pitch, which begins with a tooth of the origin's gear on +X.
    [[nodiscard]] double origin_tooth_rad(double part) const { return kTurn * part / origin_teeth(); }
    [[nodiscard]] double partner_tooth_rad(double part) const {
        const double phase = 0.5 + miss_pitches + (internal ? -part : part);
        return partner_side_rad() - kTurn * phase / partner_teeth();
    }
};

// How far to either side of the line of centres the teeth reach into each other, seen from each gear.
struct Reach {
    double origin_rad;
    double partner_rad;
    double from_pitch_point_mm;
};

double safe_acos(double cosine) {
    return std::acos(std::clamp(cosine, -1.0, 1.0));
}

Reach reach_of(const MeshPlane& plane, double margin_mm) {
    const double a = plane.distance_mm;
    const double origin = plane.origin_tip_mm() + (plane.internal ? -margin_mm : margin_mm);
    const double partner = plane.partner_tip_mm() + margin_mm;
    Reach reach{};
    reach.origin_rad = safe_acos((origin * origin + a * a - partner * partner) / (2.0 * a * origin));
    const double partner_cosine = plane.internal ? (origin * origin - a * a - partner * partner) / (2.0 * a * partner)
                                                 : (partner * partner + a * a - origin * origin) / (2.0 * a * partner);
    reach.partner_rad = safe_acos(partner_cosine);
    const double sum =
        plane.internal ? plane.origin_teeth() - plane.partner_teeth() : plane.origin_teeth() + plane.partner_teeth();
    const double pitch_point = a * plane.origin_teeth() / sum;
    reach.from_pitch_point_mm =
        std::hypot(origin * std::cos(reach.origin_rad) - pitch_point, origin * std::sin(reach.origin_rad));
    return reach;
}

struct OutlineGap {
    double gap_mm;
    double part;
    PlanePoint at_mm;  // in the plane of the mesh
};

class OutlineProof {
  public:
    OutlineProof(const MeshPlane& plane, double tolerance_mm, double within_mm)
        : plane_(plane),
          origin_(plane.origin, tolerance_mm),
          partner_(plane.partner, tolerance_mm),
          within_mm_(within_mm),
          reach_(reach_of(plane, within_mm)),
          steps_(steps_for(tolerance_mm)) {}

    [[nodiscard]] int steps() const { return steps_; }

    // The smallest gap below `within_mm`; nothing where there is none.
    std::optional<OutlineGap> run() {
        std::optional<OutlineGap> smallest;
        // That the gears overlap is settled by one step; how deep, by as many as tell it.
        int stride = 1;
        for (int step = 0; step < steps_; step += stride) {
            const double part = static_cast<double>(step) / steps_;
            turn_to(part);
            const double limit = smallest ? std::max(smallest->gap_mm, 0.0) : within_mm_;
            const std::optional<ClosestEdges> closest = closest_within(origin_edges_, partner_edges_, limit);
            if (!closest) continue;
            if (closest->crossing) stride = std::max(1, steps_ / kFewestSteps);
            const OutlineGap gap =
                closest->crossing ? overlap(part) : OutlineGap{closest->distance_mm, part, closest->between};
            if (!smallest || gap.gap_mm < smallest->gap_mm) smallest = gap;
            if (smallest->gap_mm <= -deepest_mm()) return smallest;
        }
        return smallest;
    }

  private:
    int steps_for(double tolerance_mm) const {
        const double turned =
            kTurn * std::abs(1.0 / plane_.origin_teeth() + (plane_.internal ? -1.0 : 1.0) / plane_.partner_teeth());
        const double sliding = turned * reach_.from_pitch_point_mm;
        const double steps = std::ceil(sliding / (2.0 * std::sqrt(plane_.module_mm() * tolerance_mm)));
        return static_cast<int>(std::clamp(steps, double{kFewestSteps}, double{kMostSteps}));
    }

    void turn_to(double part) {
        const double a = plane_.distance_mm;
        const double partner_reach = plane_.partner_tip_mm() + within_mm_;
        const double origin_reach = plane_.origin_tip_mm() + (plane_.internal ? -within_mm_ : within_mm_);
        const auto in_partner = [&](const PlanePoint& p) {
            return (p.x_mm - a) * (p.x_mm - a) + p.y_mm * p.y_mm <= partner_reach * partner_reach;
        };
        const auto in_origin = [&](const PlanePoint& p) {
            const bool within = p.x_mm * p.x_mm + p.y_mm * p.y_mm <= origin_reach * origin_reach;
            return within != plane_.internal;
        };
        origin_edges_.clear();
        partner_edges_.clear();
        const auto aside = [](double reach_rad, int teeth) {
            return std::min(reach_rad, kTurn * kMostTeethAside / teeth);
        };
        origin_.add_edges(origin_edges_, {0.0, 0.0}, plane_.origin_tooth_rad(part), 0.0,
                          aside(reach_.origin_rad, plane_.origin_teeth()), in_partner);
        partner_.add_edges(partner_edges_, {a, 0.0}, plane_.partner_tooth_rad(part), plane_.partner_side_rad(),
                           aside(reach_.partner_rad, plane_.partner_teeth()), in_origin);
    }

    double deepest_mm() const { return kDeepest_modules * plane_.module_mm(); }

    // The deepest point of either outline inside the other's metal.
    OutlineGap overlap(double part) const {
        OutlineGap deepest{0.0, part, {}};
        const auto sink = [&](const std::vector<Edge>& points, const std::vector<Edge>& others,
                              const ToothOutline& other, const PlanePoint& centre, double tooth_rad) {
            const double longest = longest_rise(others);
            for (const Edge& edge : points) {
                const PlanePoint& p = edge.from;
                if (!other.is_metal({p.x_mm - centre.x_mm, p.y_mm - centre.y_mm}, tooth_rad)) continue;
                const double way_out = distance_to_sorted(p, others, longest, deepest_mm());
                if (-way_out < deepest.gap_mm) deepest = {-way_out, part, p};
                if (way_out >= deepest_mm()) return;
            }
        };
        sink(origin_edges_, partner_edges_, partner_, {plane_.distance_mm, 0.0}, plane_.partner_tooth_rad(part));
        sink(partner_edges_, origin_edges_, origin_, {0.0, 0.0}, plane_.origin_tooth_rad(part));
        return deepest;
    }

    const MeshPlane& plane_;
    ToothOutline origin_;
    ToothOutline partner_;
    double within_mm_;
    Reach reach_;
    int steps_;
    std::vector<Edge> origin_edges_;
    std::vector<Edge> partner_edges_;
};

// What is the same for all meshes that are alike.
struct AlikeProof {
    MeshGap gap;
    double part = 0.0;  // of the pitch that begins with a tooth of the origin's gear on the line of centres
    int step = 0;
    PlanePoint at_mm{};
    MeshSizes sizes;  // at the distance as placed
};

class Prover {
  public:
    Prover(const Train& train, const TrainTeeth& teeth, const Placement& placement, const StartingRotations& rotations,
           const Motion* motion)
        : train_(train), teeth_(teeth), placement_(placement), rotations_(rotations), motion_(motion) {}

    MeshProof run() {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(placement_.meshes.size()); ++m) {
            proof_.meshes.push_back(prove({m}));
            const MeshGap& gap = proof_.meshes.back();
            proof_.all_mesh = proof_.all_mesh && gap.verdict == MeshVerdict::meshes;
            report(gap);
        }
        report_true_meshes();
        return std::move(proof_);
    }

  private:
    MeshGap prove(PlacedMeshIndex index) {
        const PlacedMesh& placed = placement_.meshes[index.position()];
        const Angle miss = mesh_miss_pitches(train_, placement_, rotations_, placed);
        const double miss_pitches = miss.value(placement_.direction_turns);
        // Placed alike to less than any resolution.
        const auto key = std::tuple(placed.mesh.value, std::llround(placed.centre_distance_mm * 1e8),
                                    std::llround(miss_pitches * 1e12));
        auto known = alike_.find(key);
        if (known == alike_.end()) known = alike_.emplace(key, prove_alike(placed, miss_pitches)).first;
        MeshGap gap = known->second.gap;
        gap.mesh = index;
        set_instant(gap, placed, known->second);
        return gap;
    }

    AlikeProof prove_alike(const PlacedMesh& placed, double miss_pitches) const {
        AlikeProof alike;
        const Mesh& mesh = train_[placed.mesh];
        const GearIndex first = external_gear_of(train_, mesh);
        const GearIndex second = other_gear_of(train_, mesh);
        const ProfileResult& first_profile = teeth_.profiles[first.position()];
        const ProfileResult& second_profile = teeth_.profiles[second.position()];
        const std::optional<PairSizes>& pair = teeth_.meshes[placed.mesh.position()].pair;
        if (!first_profile.profile || !second_profile.profile || !pair) return alike;
        MeshGap& gap = alike.gap;
        gap.expected_mm = pair->normal_backlash_mm / 2.0;
        constexpr double kRounding_mm = 1e-12;
        if (std::abs(gap.expected_mm) < kRounding_mm) gap.expected_mm = 0.0;
        const double module_mm = first_profile.profile->sizes.spec.module_mm;
        gap.resolution_mm = std::clamp(kProofResolution * std::abs(gap.expected_mm), kFinest_modules * module_mm,
                                       kCoarsest_modules * module_mm);
        const std::optional<FlankGap> flanks = flank_gap(first_profile.profile->sizes, second_profile.profile->sizes,
                                                         placed.centre_distance_mm, miss_pitches);
        const bool internal = second_profile.profile->sizes.spec.internal;
        const MeshPlane plane{internal ? *second_profile.profile : *first_profile.profile,
                              internal ? *first_profile.profile : *second_profile.profile, placed.centre_distance_mm,
                              miss_pitches, internal};
        if (flanks)
            alike.sizes = {flanks->pair, active_path(*first_profile.profile, *second_profile.profile, flanks->pair)};
        judge(alike, plane, flanks);
        return alike;
    }

    static void judge(AlikeProof& alike, const MeshPlane& plane, const std::optional<FlankGap>& flanks) {
        MeshGap& gap = alike.gap;
        const bool contact = flanks && flanks->contact;
        double flank_mm = plane.module_mm();
        if (contact) {
            gap.ahead_mm = flanks->ahead_mm;
            gap.behind_mm = flanks->behind_mm;
            flank_mm = std::min(gap.ahead_mm, gap.behind_mm);
            gap.where = gap.ahead_mm <= gap.behind_mm ? GapPlace::flank_ahead : GapPlace::flank_behind;
            const double sum = plane.internal ? plane.origin_teeth() - plane.partner_teeth()
                                              : plane.origin_teeth() + plane.partner_teeth();
            alike.at_mm = {plane.distance_mm * plane.origin_teeth() / sum, 0.0};
        }
        gap.gap_mm = flank_mm;
        gap.elsewhere_mm = flank_mm;
        const double floor_mm = 2.0 * gap.resolution_mm;
        // Flanks that overlap by more than any outline could add settle it.
        if (flank_mm > -floor_mm) look_elsewhere(alike, plane, contact, std::max(flank_mm, floor_mm));
        gap.verdict = verdict_of(gap, contact);
    }

    static void look_elsewhere(AlikeProof& alike, const MeshPlane& plane, bool contact, double within_mm) {
        MeshGap& gap = alike.gap;
        if (!(plane.distance_mm > 0.0)) return;
        OutlineProof outlines(plane, gap.resolution_mm, within_mm);
        gap.steps = outlines.steps();
        const std::optional<OutlineGap> elsewhere = outlines.run();
        if (!elsewhere) return;
        const double gap_mm = elsewhere->gap_mm * std::cos(plane.origin.sizes.base_helix_rad);
        // The outlines' own flanks come as close as the exact ones, give or take their resolution.
        if (contact && gap_mm >= gap.gap_mm - 2.0 * gap.resolution_mm) return;
        gap.elsewhere_mm = gap_mm;
        if (contact && gap_mm >= -2.0 * gap.resolution_mm) return;
        gap.gap_mm = gap_mm;
        gap.where = GapPlace::elsewhere;
        alike.part = elsewhere->part;
        alike.step = static_cast<int>(std::lround(elsewhere->part * outlines.steps()));
        alike.at_mm = elsewhere->at_mm;
    }

    static MeshVerdict verdict_of(const MeshGap& gap, bool contact) {
        const double rounding_mm = 1e-7;
        const double least_mm = gap.where == GapPlace::elsewhere ? -2.0 * gap.resolution_mm : -rounding_mm;
        if (gap.gap_mm < least_mm) return MeshVerdict::overlaps;
        if (!contact) return MeshVerdict::no_contact;
        const double allowed_mm = kProofTolerance * std::abs(gap.expected_mm) + rounding_mm;
        const auto as_expected = [&](double side_mm) { return std::abs(side_mm - gap.expected_mm) <= allowed_mm; };
        const bool sides = as_expected(gap.ahead_mm) && as_expected(gap.behind_mm);
        return sides ? MeshVerdict::meshes : MeshVerdict::off_centre;
    }

    void set_instant(MeshGap& gap, const PlacedMesh& placed, const AlikeProof& alike) const {
        const Mesh& mesh = train_[placed.mesh];
        const bool swap = train_[mesh.second].internal;
        const PlaceIndex origin_place = swap ? placed.second : placed.first;
        const GearIndex origin = swap ? mesh.second : mesh.first;
        const Angle towards = swap ? placed.direction + exact_angle(Ratio(1, 2)) : placed.direction;
        const double direction = kTurn * towards.value(placement_.direction_turns);
        const PlanePoint& centre = placement_[origin_place].centre_mm;
        gap.at_mm = {centre.x_mm + alike.at_mm.x_mm * std::cos(direction) - alike.at_mm.y_mm * std::sin(direction),
                     centre.y_mm + alike.at_mm.x_mm * std::sin(direction) + alike.at_mm.y_mm * std::cos(direction)};
        if (gap.where != GapPlace::elsewhere) return set_flank_instant(gap, placed, alike);
        // The pitch began with a tooth on the line of centres: the start pose is part of a pitch away from that.
        const Angle start = (rotations_.of(origin, origin_place).tooth - towards) * Ratio(train_[origin].teeth);
        const Ratio begun = start.is_exact()
                                ? start.turns
                                : Ratio(std::llround(start.value(placement_.direction_turns) * 1e9), 1000000000);
        gap.cycle_part = (Ratio(alike.step, gap.steps) - begun).fraction();
        gap.at_first_gear_turns = gap.cycle_part / Ratio(train_[mesh.first].teeth);
        set_driver_instant(gap, mesh);
    }

    // The flanks' distance is the same all the while, and so is found at the start; where the contact ratio is below 1,
    // at the first of some instants at which any two flanks stand opposite each other.
    void set_flank_instant(MeshGap& gap, const PlacedMesh& placed, const AlikeProof& alike) const {
        constexpr int kInstants = 32;
        const Mesh& mesh = train_[placed.mesh];
        const GearIndex first = external_gear_of(train_, mesh);
        const bool swapped = first != mesh.first;
        const PlaceIndex place = swapped ? placed.second : placed.first;
        const PlaceIndex other = swapped ? placed.first : placed.second;
        const bool internal = train_[other_gear_of(train_, mesh)].internal;
        const FlankSide side = gap.where == GapPlace::flank_ahead ? FlankSide::ahead : FlankSide::behind;
        const std::optional<ToothProfile>& profile = teeth_.profiles[first.position()].profile;
        for (int i = 0; profile && i < kInstants; ++i) {
            const Ratio part(i, kInstants);
            const double tooth_turns = rotations_.of(first, place).tooth.value(placement_.direction_turns) +
                                       part.to_double() / train_[first].teeth;
            const MeshStanding standing{placement_[place].centre_mm, placement_[other].centre_mm, kTurn * tooth_turns,
                                        gap.gap_mm / std::cos(profile->sizes.base_helix_rad)};
            const std::optional<PlanePoint> at = middle_contact(*profile, alike.sizes, internal, standing, side);
            if (!at) continue;
            gap.at_mm = *at;
            gap.cycle_part = part;
            gap.at_first_gear_turns = part / Ratio(train_[mesh.first].teeth);
            break;
        }
        set_driver_instant(gap, mesh);
    }

    void set_driver_instant(MeshGap& gap, const Mesh& mesh) const {
        const std::optional<Ratio> rate = rate_of(mesh);
        if (!rate || rate->is_zero()) return;
        // Backwards, the same picture comes up at the other end of the pitch.
        const bool backwards = rate->sign() < 0 && !gap.cycle_part.is_zero();
        const Ratio part = backwards ? gap.cycle_part - Ratio(1) : gap.cycle_part;
        gap.at_driver_turns = part / Ratio(train_[mesh.first].teeth) / *rate;
    }

    // The first gear's turns against the arm per turn of the reference driver.
    std::optional<Ratio> rate_of(const Mesh& mesh) const {
        if (motion_ == nullptr || motion_->outcome != Outcome::moves) return std::nullopt;
        const MemberIndex arm = arm_of(train_, mesh).value_or(kFrame);
        return turns_per_driver_turn(*motion_, rate_on(train_, *motion_, train_[mesh.first].member, arm));
    }

    void report(const MeshGap& gap) {
        if (gap.verdict == MeshVerdict::meshes) return;
        const PlacedMesh& placed = placement_.meshes[gap.mesh.position()];
        const std::string where = mesh_where(train_, train_[placed.mesh]) + ", copy " + std::to_string(placed.copy);
        const Verdict verdict = gap.verdict == MeshVerdict::off_centre ? Verdict::caution : Verdict::fails;
        proof_.findings.push_back(
            {kProofOfMesh, where, gap.gap_mm, gap.expected_mm, "mm", verdict, kProofSource, mend_of(gap)});
    }

    // Of every mesh that is true in all its copies: one finding, with the copy that comes closest.
    void report_true_meshes() {
        for (auto first = proof_.meshes.begin(); first != proof_.meshes.end();) {
            const MeshIndex mesh = mesh_of(*first);
            const auto end =
                std::find_if(first, proof_.meshes.end(), [&](const MeshGap& gap) { return mesh_of(gap) != mesh; });
            const auto is_true = [](const MeshGap& gap) { return gap.verdict == MeshVerdict::meshes; };
            if (std::all_of(first, end, is_true)) {
                const MeshGap& closest = *std::min_element(
                    first, end, [](const MeshGap& a, const MeshGap& b) { return a.gap_mm < b.gap_mm; });
                proof_.findings.push_back({kProofOfMesh, mesh_where(train_, train_[mesh]), closest.gap_mm,
                                           closest.expected_mm, "mm", Verdict::holds, kProofSource, ""});
            }
            first = end;
        }
    }

    MeshIndex mesh_of(const MeshGap& gap) const { return placement_.meshes[gap.mesh.position()].mesh; }

    static const char* mend_of(const MeshGap& gap) {
        switch (gap.verdict) {
            case MeshVerdict::no_profile:
                return "give both gears teeth that can be made, and a centre distance that exists";
            case MeshVerdict::no_contact:
                return "bring the gears closer or make the teeth longer: their flanks never touch";
            case MeshVerdict::overlaps:
                if (gap.where == GapPlace::elsewhere)
                    return "shorten the teeth or shift the profiles: a tip digs into the other gear beside its flank";
                return "mend the assembly, or give more backlash: the flanks overlap";
            default:
                return "turn the gears so that the teeth stand in the middle of their gaps";
        }
    }

    const Train& train_;
    const TrainTeeth& teeth_;
    const Placement& placement_;
    const StartingRotations& rotations_;
    const Motion* motion_;
    std::map<std::tuple<std::int32_t, long long, long long>, AlikeProof> alike_;
    MeshProof proof_;
};

}  // namespace

MeshProof prove_mesh(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                     const StartingRotations& rotations, const Motion* motion) {
    return Prover(train, teeth, placement, rotations, motion).run();
}

}  // namespace couplet
