#include "tooth/mesh_checks.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "exact/decimal.hpp"
#include "tooth/involute.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

constexpr double kDegrees = 180.0 / std::numbers::pi;
constexpr double kNoRoundError_mm = 1e-9;
// Shifts and centre distances are written with a few decimals: what that does to a mesh of module 1.
constexpr double kWritten = 1e-4;
// Centre distances that differ by no more agree, x module: the tolerance of the outlines.
constexpr double kSameDistance = 1e-3;

const char* const kCommonPractice = "common practice";
const char* const kHandbooks = "gear makers' handbooks";
const char* const kIso21771 = "ISO 21771:2007";

Finding finding(std::string rule, std::string where, double figure, double limit, std::string unit,
                std::string source) {
    return {std::move(rule), std::move(where), figure, limit, std::move(unit), Verdict::holds, std::move(source), ""};
}

Finding judged(Finding base, Verdict verdict, std::string mend) {
    base.verdict = verdict;
    if (verdict != Verdict::holds) base.mend = std::move(mend);
    return base;
}

// At least the limit, which is a bound that no train may cross.
Finding at_least(Finding base, std::string mend) {
    const Verdict verdict = base.figure >= base.limit ? Verdict::holds : Verdict::fails;
    return judged(std::move(base), verdict, std::move(mend));
}

// At least `limit` to be sound; below `least` it fails, and `least` is the limit that it shows.
Finding at_least_with_caution(Finding base, double least, std::string mend) {
    if (base.figure < least) base.limit = least;
    const Verdict verdict = base.figure < least        ? Verdict::fails
                            : base.figure < base.limit ? Verdict::caution
                                                       : Verdict::holds;
    return judged(std::move(base), verdict, std::move(mend));
}

Finding module_finding(const std::string& where, const GearSpec& spec) {
    Finding base =
        finding("module of ISO 54", where, spec.module_mm, nearest_iso_54_module(spec.module_mm), "mm", "ISO 54:1996");
    const bool listed = iso_54_series(spec.module_mm) != ModuleSeries::none;
    return judged(std::move(base), listed ? Verdict::holds : Verdict::caution,
                  "take the nearest listed module where the gear is to be cut with bought tools");
}

// What each fault of a profile measures, and what would mend it.
Finding fault_finding(const std::string& where, const GearSizes& gear, ProfileFault fault) {
    const auto failing = [&](double figure, double limit, const char* unit, const char* mend) {
        return judged(finding("tooth profile", where, figure, limit, unit, "geometry"), Verdict::fails, mend);
    };
    const double deepest = gear.spec.internal ? gear.tip_diameter_mm : gear.root_diameter_mm;
    switch (fault) {
        case ProfileFault::pointed_before_tip:
            return failing(gear.tip_thickness_mm, 0.0, "mm",
                           "the flanks meet below the tip circle: less shift, addendum or backlash");
        case ProfileFault::no_room_at_root:
            return failing(gear.spec.rack.root_radius, largest_root_radius(gear.spec.rack), "x module",
                           "the space closes above the root circle: less root radius, dedendum or pressure angle");
        case ProfileFault::tip_below_fillet:
            return failing(
                gear.tip_diameter_mm, gear.base_diameter_mm, "mm",
                "no involute is left between fillet and tip: more teeth, a shift nearer to 0 or a usual addendum");
        case ProfileFault::root_inside_axis:
            return failing(deepest, 0.0, "mm", "the teeth reach the axis: more teeth or more shift");
        case ProfileFault::tip_inside_base:
            return failing(gear.root_diameter_mm, gear.base_diameter_mm, "mm",
                           "the whole tooth lies inside the base circle: more teeth or more shift");
        case ProfileFault::negative_fillet:
            return failing(gear.spec.rack.root_radius, 0.0, "x module", "the root radius must be 0 or more");
        case ProfileFault::cut_off:
            break;
    }
    return failing(gear.spec.teeth, undercut_limit(gear.spec).fewest_teeth, "teeth",
                   "the undercuts of both sides meet and cut the tooth off: more teeth or more shift");
}

Finding profile_finding(const std::string& where, const GearSizes& gear, const ProfileResult& result) {
    if (!result.profile) return fault_finding(where, gear, result.fault);
    return at_least(finding("tooth profile", where, result.profile->outer_form_diameter_mm(),
                            result.profile->inner_form_diameter_mm(), "mm", "geometry"),
                    "");
}

Finding undercut_finding(const std::string& where, const GearSpec& spec) {
    const UndercutLimit limit = undercut_limit(spec);
    // A slight undercut is allowed: 14 teeth of 17.
    constexpr double kAllowed = 5.0 / 6.0;
    const double fewest = std::max(0.0, limit.fewest_teeth);
    return at_least_with_caution(finding("undercut", where, spec.teeth, fewest, "teeth", kIso21771), kAllowed * fewest,
                                 "a shift of at least " +
                                     decimal_text(Ratio(std::llround(std::ceil(limit.least_shift * 1e3)), 1000), 3) +
                                     ", or more teeth");
}

Finding tip_finding(const std::string& where, const GearSizes& gear) {
    return at_least_with_caution(
        finding("tip thickness", where, gear.tip_thickness_mm, 0.2 * gear.spec.module_mm, "mm", kCommonPractice), 0.0,
        "less shift or a lower addendum");
}

Finding ring_tip_finding(const std::string& where, const GearSizes& gear) {
    return at_least(finding("ring tip outside the base circle", where, gear.tip_diameter_mm, gear.base_diameter_mm,
                            "mm", kHandbooks),
                    "more teeth, more shift or a lower addendum: inside the base circle there is no involute");
}

void check_gear(const Train& train, const TrainTeeth& teeth, GearIndex index, std::vector<Finding>& found) {
    const GearSizes& gear = teeth.gears[index.position()];
    const std::string where = name_of(train, index);
    const ToothSpec& own = train[index].spec;
    const bool by_pitch = !own.module_mm && (own.diametral_pitch || train.teeth.diametral_pitch);
    if (!by_pitch) found.push_back(module_finding(where, gear.spec));
    found.push_back(profile_finding(where, gear, teeth.profiles[index.position()]));
    found.push_back(gear.spec.internal ? ring_tip_finding(where, gear) : undercut_finding(where, gear.spec));
    found.push_back(tip_finding(where, gear));
}

struct MeshView {
    const Train& train;
    const Mesh& mesh;
    const GearSizes& first;
    const GearSizes& second;
    const ProfileResult& first_profile;
    const ProfileResult& second_profile;
    const MeshSizes& sizes;
    std::string first_name;
    std::string second_name;

    [[nodiscard]] std::string where() const { return mesh_where(train, mesh); }
    [[nodiscard]] bool is_internal() const { return second.spec.internal; }
};

MeshView view_of(const Train& train, const TrainTeeth& teeth, MeshIndex index) {
    const Mesh& mesh = train[index];
    const GearIndex first = external_gear_of(train, mesh);
    const GearIndex second = other_gear_of(train, mesh);
    return {train,
            mesh,
            teeth.gears[first.position()],
            teeth.gears[second.position()],
            teeth.profiles[first.position()],
            teeth.profiles[second.position()],
            teeth.meshes[index.position()],
            name_of(train, first),
            name_of(train, second)};
}

Finding missing_angle(const MeshView& view) {
    const char* const rule = "operating angle";
    const int difference = view.second.spec.teeth - view.first.spec.teeth;
    if (view.is_internal() && difference <= 0)
        return judged(finding(rule, view.where(), difference, 1.0, "teeth", kHandbooks), Verdict::fails,
                      "a ring needs more teeth than the gear inside it");
    if (view.mesh.centre_distance)
        return judged(finding(rule, view.where(), *given_centre_distance_mm(view.train, view.mesh),
                              base_distance_mm(view.first, view.second), "mm", kIso21771),
                      Verdict::fails, "the base circles need a larger centre distance");
    const double sense = view.is_internal() ? -1.0 : 1.0;
    const double least = -involute(view.first.transverse_angle_rad) /
                         (2.0 * std::tan(view.first.spec.rack.pressure_angle_rad)) *
                         (view.second.spec.teeth + sense * view.first.spec.teeth);
    return judged(finding(rule, view.where(), view.second.spec.shift + sense * view.first.spec.shift, least, "x module",
                          kIso21771),
                  Verdict::fails,
                  view.is_internal() ? "a larger shift of the ring, or a smaller one of the gear inside it"
                                     : "larger shifts: these bring the base circles into each other");
}

Finding operating_angle_finding(const MeshView& view) {
    if (!view.sizes.pair) return missing_angle(view);
    return finding("operating angle", view.where(), view.sizes.pair->operating_angle_rad * kDegrees, 0.0, "deg",
                   kIso21771);
}

Finding backlash_finding(const MeshView& view) {
    Finding base = finding("backlash", view.where(), view.sizes.pair->circular_backlash_mm, 0.0, "mm", kIso21771);
    const bool holds = base.figure >= -kWritten * view.first.spec.module_mm;
    return judged(std::move(base), holds ? Verdict::holds : Verdict::fails,
                  "the teeth are too thick for their centre distance: smaller shifts, more backlash, or other centres");
}

Finding contact_ratio_finding(const MeshView& view) {
    const double ratio =
        view.sizes.active ? view.sizes.active->contact_ratio : view.sizes.pair->transverse_contact_ratio;
    return at_least_with_caution(finding("transverse contact ratio", view.where(), ratio, 1.2, "", kCommonPractice),
                                 1.0, "more teeth, smaller shifts, a smaller pressure angle or a higher addendum");
}

Finding clearance_finding(const std::string& where, double clearance_mm, double module_mm) {
    return at_least_with_caution(finding("tip clearance", where, clearance_mm, 0.1 * module_mm, "mm", kCommonPractice),
                                 0.0, "a deeper dedendum, a lower addendum of the other gear, or other shifts");
}

// A gear's outermost or innermost point of contact as a diameter, by the partner's tip; at least its base circle's.
double contact_diameter_mm(const GearSizes& gear, double along_tangent_mm) {
    return std::hypot(gear.base_diameter_mm, 2.0 * std::max(0.0, along_tangent_mm));
}

const char* const kAboveFillet = "contact above the fillet";

Finding external_fillet_finding(const MeshView& view, const ToothProfile& profile, const std::string& where,
                                double from_base_mm) {
    Finding base = finding(kAboveFillet, where, contact_diameter_mm(profile.sizes, from_base_mm),
                           profile.inner_form_diameter_mm(), "mm", kIso21771);
    if (from_base_mm >= profile.flank.base_radius_mm * profile.flank.inner_roll - kNoRoundError_mm) return base;
    // The rack that undercut a gear has cleared away what an external partner could hit.
    if (profile.undercut && !view.is_internal())
        return judged(std::move(base), Verdict::caution, "the undercut shortens the contact: more teeth or more shift");
    // A full-height ring reaches deeper than the rack as a matter of course, by less than a usual backlash makes room
    // for.
    if (view.is_internal())
        return judged(
            std::move(base), Verdict::caution,
            "the ring's tip reaches into the fillet, and only the backlash makes room: a lower addendum of the "
            "ring, a smaller root radius, or more shift");
    return judged(std::move(base), Verdict::fails,
                  "the partner's tip meets the fillet: a lower addendum of the partner, a smaller root radius, or more "
                  "shift");
}

Finding ring_fillet_finding(const ToothProfile& ring, const std::string& where, double from_base_mm) {
    Finding base = finding(kAboveFillet, where, contact_diameter_mm(ring.sizes, from_base_mm),
                           ring.outer_form_diameter_mm(), "mm", kIso21771);
    const bool holds = base.figure <= base.limit + kNoRoundError_mm;
    return judged(
        std::move(base), holds ? Verdict::holds : Verdict::fails,
        "the tip of the gear inside meets the ring's fillet: a lower addendum of that gear, or a smaller root "
        "radius");
}

void check_fillets(const MeshView& view, std::vector<Finding>& found) {
    const PairSizes& pair = *view.sizes.pair;
    const double first_to_pitch = tangent_length_mm(view.first, pair.first_operating_diameter_mm);
    const double second_to_pitch = tangent_length_mm(view.second, pair.second_operating_diameter_mm);
    const std::string first = view.first_name + " with " + view.second_name;
    const std::string second = view.second_name + " with " + view.first_name;
    if (view.first_profile.profile)
        found.push_back(
            external_fillet_finding(view, *view.first_profile.profile, first, first_to_pitch + pair.path_start_mm));
    if (!view.second_profile.profile) return;
    found.push_back(
        view.is_internal()
            ? ring_fillet_finding(*view.second_profile.profile, second, second_to_pitch + pair.path_end_mm)
            : external_fillet_finding(view, *view.second_profile.profile, second, second_to_pitch - pair.path_end_mm));
}

// The pressure angles of an internal mesh that the handbooks' formulas use.
struct InternalAngles {
    double tooth_ratio;  // z1 / z2
    double operating;
    double first_tip;
    double second_tip;
};

Finding involute_interference(const MeshView& view, const InternalAngles& angles) {
    return at_least(
        finding("involute interference", view.where(), angles.tooth_ratio,
                1.0 - std::tan(angles.second_tip) / std::tan(angles.operating), "", kHandbooks),
        "the ring's tip reaches past the end of the gear's involute: more shift of the ring, a lower addendum "
        "of the ring, or more teeth inside");
}

double angle_of_cosine(double cosine) {
    return std::acos(std::clamp(cosine, -1.0, 1.0));
}

// theta1 z1/z2 + inv a_w - inv a_a2 >= theta2. Tip circles that do not cross have no such angles, and nothing to fear:
// the limits of the formula, 0, say so.
Finding trochoid_interference(const MeshView& view, const InternalAngles& angles) {
    const double a = view.sizes.pair->centre_distance_mm;
    const double first = view.first.tip_diameter_mm / 2.0;
    const double second = view.second.tip_diameter_mm / 2.0;
    const double theta1 = angle_of_cosine((second * second - first * first - a * a) / (2.0 * a * first)) +
                          involute(angles.first_tip) - involute(angles.operating);
    const double theta2 = angle_of_cosine((a * a + second * second - first * first) / (2.0 * a * second));
    const double turned = theta1 * angles.tooth_ratio + involute(angles.operating) - involute(angles.second_tip);
    return at_least(
        finding("trochoid interference", view.where(), turned * kDegrees, theta2 * kDegrees, "deg", kHandbooks),
        "the tips meet on their way out of mesh: a larger difference of teeth, lower addenda, or more shift of "
        "the ring");
}

// theta1 + inv a_a1 - inv a_w >= (z2/z1) (theta2 + inv a_a2 - inv a_w). It bars the way along the line of centres only.
Finding trimming_interference(const MeshView& view, const InternalAngles& angles) {
    const char* const rule = "trimming interference";
    const char* const mend = "put the gear in along the axis, or take a larger difference of teeth";
    const double cosines = std::cos(angles.first_tip) / std::cos(angles.second_tip);
    const double ratio = angles.tooth_ratio;
    if (!(cosines > ratio && cosines < 1.0))
        return judged(
            finding(rule, view.where(), view.first.tip_diameter_mm, view.second.tip_diameter_mm, "mm", kHandbooks),
            Verdict::fails, "the gear is larger than the hole in the ring: a larger difference of teeth");
    const double theta1 = std::asin(std::sqrt((1.0 - cosines * cosines) / (1.0 - ratio * ratio)));
    const double theta2 = std::asin(std::sqrt((1.0 / (cosines * cosines) - 1.0) / (1.0 / (ratio * ratio) - 1.0)));
    const double figure = theta1 + involute(angles.first_tip) - involute(angles.operating);
    const double limit = (theta2 + involute(angles.second_tip) - involute(angles.operating)) / ratio;
    return judged(finding(rule, view.where(), figure * kDegrees, limit * kDegrees, "deg", kHandbooks),
                  figure >= limit ? Verdict::holds : Verdict::caution, mend);
}

void check_internal(const MeshView& view, std::vector<Finding>& found) {
    // Without an involute at the tip the formulas have no value.
    if (view.second.tip_diameter_mm < view.second.base_diameter_mm ||
        !(view.first.tip_diameter_mm > view.first.base_diameter_mm)) {
        for (const char* rule : {"involute interference", "trochoid interference", "trimming interference"}) {
            const bool ring = view.second.tip_diameter_mm < view.second.base_diameter_mm;
            const GearSizes& gear = ring ? view.second : view.first;
            found.push_back(
                judged(finding(rule, view.where(), gear.tip_diameter_mm, gear.base_diameter_mm, "mm", kHandbooks),
                       Verdict::fails,
                       "the tip circle of '" + (ring ? view.second_name : view.first_name) +
                           "' must lie outside its base circle: this rule needs an involute at the tip"));
        }
        return;
    }
    const InternalAngles angles{static_cast<double>(view.first.spec.teeth) / view.second.spec.teeth,
                                view.sizes.pair->operating_angle_rad,
                                pressure_angle_at(view.first, view.first.tip_diameter_mm),
                                pressure_angle_at(view.second, view.second.tip_diameter_mm)};
    found.push_back(involute_interference(view, angles));
    found.push_back(trochoid_interference(view, angles));
    found.push_back(trimming_interference(view, angles));
}

void check_mesh(const MeshView& view, std::vector<Finding>& found) {
    found.push_back(operating_angle_finding(view));
    if (!view.sizes.pair) return;
    const PairSizes& pair = *view.sizes.pair;
    found.push_back(backlash_finding(view));
    found.push_back(contact_ratio_finding(view));
    const double module_mm = view.first.spec.module_mm;
    found.push_back(
        clearance_finding(view.second_name + " tip in " + view.first_name, pair.first_root_clearance_mm, module_mm));
    found.push_back(
        clearance_finding(view.first_name + " tip in " + view.second_name, pair.second_root_clearance_mm, module_mm));
    check_fillets(view, found);
    if (view.is_internal()) check_internal(view, found);
}

// What must have one centre distance: a carried member and its carrier's axis, or two members with several meshes.
using Axes = std::pair<MemberIndex, MemberIndex>;

Axes axes_of(const Train& train, const Mesh& mesh) {
    if (const std::optional<GearIndex> carried = carried_gear_of(train, mesh))
        return {train[*carried].member, rides_on(train, train[*carried].member)};
    return std::minmax(train[mesh.first].member, train[mesh.second].member);
}

std::string name_of_axes(const Train& train, const Axes& axes) {
    return name_of(train, axes.first) + " on " + name_of(train, axes.second);
}

struct Spread {
    int meshes = 0;
    double least_mm = 0.0;
    double most_mm = 0.0;
    double module_mm = 0.0;

    void add(const PairSizes& pair, double mesh_module_mm) {
        const double distance_mm = pair.centre_distance_mm;
        least_mm = meshes == 0 ? distance_mm : std::min(least_mm, distance_mm);
        most_mm = meshes == 0 ? distance_mm : std::max(most_mm, distance_mm);
        module_mm = std::max(module_mm, mesh_module_mm);
        ++meshes;
    }
};

void check_centres(const Train& train, const TrainTeeth& teeth, std::vector<Finding>& found) {
    std::map<Axes, Spread> spreads;
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const Mesh& mesh = train.meshes[m];
        if (teeth.meshes[m].pair)
            spreads[axes_of(train, mesh)].add(*teeth.meshes[m].pair, teeth.gears[mesh.first.position()].spec.module_mm);
    }
    for (const auto& [axes, spread] : spreads) {
        if (spread.meshes < 2) continue;
        Finding base = finding("centre distances agree", name_of_axes(train, axes), spread.most_mm - spread.least_mm,
                               kSameDistance * spread.module_mm, "mm", kCommonPractice);
        const bool agree = base.figure <= base.limit;
        found.push_back(judged(std::move(base), agree ? Verdict::holds : Verdict::fails,
                               "solve the shifts with --match-shifts, or change a tooth count"));
    }
}

}  // namespace

std::vector<Finding> mesh_findings(const Train& train, const TrainTeeth& teeth) {
    std::vector<Finding> found;
    for (std::int32_t g = 0; g < static_cast<std::int32_t>(train.gears.size()); ++g)
        check_gear(train, teeth, {g}, found);
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.meshes.size()); ++m)
        check_mesh(view_of(train, teeth, {m}), found);
    check_centres(train, teeth, found);
    return found;
}

std::string axes_where(const Train& train, const Mesh& mesh) {
    return name_of_axes(train, axes_of(train, mesh));
}

}  // namespace couplet
