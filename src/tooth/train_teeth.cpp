#include "tooth/train_teeth.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "exact/decimal.hpp"
#include "tooth/involute.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

constexpr double kInch_mm = 25.4;
constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kMostPressure_deg = 45.0;
constexpr double kMostHelix_deg = 60.0;

double value_or(const std::optional<Ratio>& own, const std::optional<Ratio>& common, double otherwise) {
    if (own) return own->to_double();
    return common ? common->to_double() : otherwise;
}

// Lengths follow the unit of the level that gives them.
bool is_in_inches(const Train& train, const ToothSpec& spec) {
    if (spec.module_mm) return false;
    return spec.diametral_pitch.has_value() || (!train.teeth.module_mm && train.teeth.diametral_pitch);
}

double length_mm(const Train& train, const std::optional<Ratio>& own, const ToothSpec& spec,
                 const std::optional<Ratio>& common, double otherwise_mm) {
    if (own) return own->to_double() * (is_in_inches(train, spec) ? kInch_mm : 1.0);
    if (common) return common->to_double() * (is_in_inches(train, ToothSpec{}) ? kInch_mm : 1.0);
    return otherwise_mm;
}

// ISO 53 profile A has 0.38 over a clearance of 0.25: a shallower clearance has as much less.
double usual_root_radius(const BasicRack& rack) {
    const double in_clearance = 0.38 * (rack.dedendum - rack.addendum) / 0.25;
    return std::max(0.0, std::min({0.38, in_clearance, largest_root_radius(rack)}));
}

// A rule that a gear or a mesh breaks so that there is nothing to work out.
struct Impossible {
    const char* rule;
    double figure;
    double limit;
    const char* unit;
    const char* mend;
};

Finding finding_of(const Impossible& impossible, std::string where) {
    return {impossible.rule, std::move(where), impossible.figure,   impossible.limit,
            impossible.unit, Verdict::fails,   "geometry of gears", impossible.mend};
}

void require(bool right, const Train& train, GearIndex gear, const char* wrong, const Impossible& impossible) {
    if (right) return;
    const std::string name = name_of(train, gear);
    throw TeethError("gear '" + name + "' " + wrong, finding_of(impossible, name));
}

void require_possible(const Train& train, GearIndex index, const GearSpec& spec) {
    const double pressure_deg = spec.rack.pressure_angle_rad / kDegree;
    const double helix_deg = spec.helix_angle_rad / kDegree;
    require(spec.teeth >= kFewestTeeth, train, index, "has too few teeth",
            {"fewest teeth", static_cast<double>(spec.teeth), kFewestTeeth, "teeth", "give at least 3"});
    require(spec.module_mm > 0.0, train, index, "has no size",
            {"module given", spec.module_mm, 0.0, "mm", "its module must be above 0"});
    require(spec.rack.pressure_angle_rad > 0.0 && spec.rack.pressure_angle_rad < kMostPressure_deg * kDegree, train,
            index, "has an impossible pressure angle",
            {"pressure angle", pressure_deg, kMostPressure_deg, "deg", "give one above 0 and below 45 degrees"});
    require(std::abs(spec.helix_angle_rad) < kMostHelix_deg * kDegree, train, index, "has an impossible helix angle",
            {"helix angle", helix_deg, kMostHelix_deg, "deg", "give one between -60 and 60 degrees"});
    require(spec.rack.addendum > 0.0, train, index, "has no height above its pitch circle",
            {"addendum", spec.rack.addendum, 0.0, "x module", "give an addendum above 0"});
    require(spec.rack.dedendum > 0.0, train, index, "has no depth below its pitch circle",
            {"dedendum", spec.rack.dedendum, 0.0, "x module", "give a dedendum above 0"});
    require(spec.rack.root_radius >= 0.0, train, index, "has a negative root radius",
            {"root radius", spec.rack.root_radius, 0.0, "x module", "give 0 or more"});
    require(spec.face_width_mm > 0.0, train, index, "has no width",
            {"face width", spec.face_width_mm, 0.0, "mm", "give a face width above 0"});
}

GearSpec own_spec(const Train& train, GearIndex index) {
    const Gear& gear = train[index];
    GearSpec spec;
    spec.teeth = gear.teeth;
    spec.internal = gear.internal;
    spec.module_mm = module_of(train, index);
    spec.rack.pressure_angle_rad =
        value_or(gear.spec.pressure_angle_deg, train.teeth.pressure_angle_deg, 20.0) * kDegree;
    spec.rack.addendum = value_or(gear.spec.addendum, train.teeth.addendum, 1.0);
    spec.rack.dedendum = value_or(gear.spec.dedendum, train.teeth.dedendum, 1.25);
    spec.rack.root_radius = value_or(gear.spec.root_radius, train.teeth.root_radius, usual_root_radius(spec.rack));
    spec.helix_angle_rad = value_or(gear.spec.helix_angle_deg, train.teeth.helix_angle_deg, 0.0) * kDegree;
    spec.shift = gear.shift ? gear.shift->to_double() : 0.0;
    spec.face_width_mm =
        length_mm(train, gear.spec.face_width, gear.spec, train.teeth.face_width, 10.0 * spec.module_mm);
    require_possible(train, index, spec);
    return spec;
}

std::vector<std::vector<MeshIndex>> meshes_by_gear(const Train& train) {
    std::vector<std::vector<MeshIndex>> meshes(train.gears.size());
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.meshes.size()); ++m) {
        meshes[train[MeshIndex{m}].first.position()].push_back({m});
        meshes[train[MeshIndex{m}].second.position()].push_back({m});
    }
    return meshes;
}

void set_hands(const Train& train, const std::vector<std::vector<MeshIndex>>& meshes, std::vector<GearSpec>& specs) {
    std::vector<bool> reached(specs.size(), false);
    std::vector<GearIndex> waiting;
    for (std::int32_t g = 0; g < static_cast<std::int32_t>(specs.size()); ++g) {
        if (reached[static_cast<std::size_t>(g)]) continue;
        reached[static_cast<std::size_t>(g)] = true;
        waiting.push_back({g});
        while (!waiting.empty()) {
            const GearIndex gear = waiting.back();
            waiting.pop_back();
            for (const MeshIndex m : meshes[gear.position()]) {
                const GearIndex other = train[m].first == gear ? train[m].second : train[m].first;
                if (reached[other.position()]) continue;
                reached[other.position()] = true;
                const bool same = train[gear].internal != train[other].internal;
                const double hand = std::copysign(1.0, specs[gear.position()].helix_angle_rad) * (same ? 1.0 : -1.0);
                double& helix = specs[other.position()].helix_angle_rad;
                helix = std::copysign(helix, hand);
                waiting.push_back(other);
            }
        }
    }
}

std::string gears_in_quotes(const Train& train, const Mesh& mesh) {
    return "'" + name_of(train, mesh.first) + "' and '" + name_of(train, mesh.second) + "'";
}

void require_alike(const Train& train, const Mesh& mesh, const std::vector<GearSpec>& specs) {
    const GearSpec& a = specs[mesh.first.position()];
    const GearSpec& b = specs[mesh.second.position()];
    const auto require_same = [&](double x, double y, const char* what, const Impossible& impossible) {
        if (std::abs(x - y) <= 1e-9 * std::max(std::abs(x), std::abs(y))) return;
        throw TeethError(gears_in_quotes(train, mesh) + " are in mesh with different " + what,
                         finding_of(impossible, mesh_where(train, mesh)));
    };
    const char* const mend = "both need the same one";
    require_same(a.module_mm, b.module_mm, "modules", {"same module in mesh", a.module_mm, b.module_mm, "mm", mend});
    const double a_pressure = a.rack.pressure_angle_rad;
    const double b_pressure = b.rack.pressure_angle_rad;
    require_same(a_pressure, b_pressure, "pressure angles",
                 {"same pressure angle in mesh", a_pressure / kDegree, b_pressure / kDegree, "deg", mend});
    const double a_helix = std::abs(a.helix_angle_rad);
    const double b_helix = std::abs(b.helix_angle_rad);
    require_same(a_helix, b_helix, "helix angles",
                 {"same helix angle in mesh", a_helix / kDegree, b_helix / kDegree, "deg", mend});
}

std::optional<double> operating_angle(const Train& train, const Mesh& mesh, const std::vector<GearSpec>& specs) {
    const GearSpec& first = specs[external_gear_of(train, mesh).position()];
    const GearSpec& second = specs[other_gear_of(train, mesh).position()];
    const std::optional<double> given_mm = given_centre_distance_mm(train, mesh);
    return given_mm ? operating_angle_at(first, second, *given_mm) : operating_angle_of(first, second);
}

double backlash_mm(const Train& train, GearIndex gear) {
    return length_mm(train, train[gear].spec.backlash, train[gear].spec, train.teeth.backlash, 0.0);
}

}  // namespace

GearIndex external_gear_of(const Train& train, const Mesh& mesh) {
    return train[mesh.first].internal ? mesh.second : mesh.first;
}

GearIndex other_gear_of(const Train& train, const Mesh& mesh) {
    return train[mesh.first].internal ? mesh.first : mesh.second;
}

std::string mesh_where(const Train& train, const Mesh& mesh) {
    return name_of(train, external_gear_of(train, mesh)) + ", " + name_of(train, other_gear_of(train, mesh));
}

std::optional<GearIndex> carried_gear_of(const Train& train, const Mesh& mesh) {
    const std::optional<MemberIndex> arm = arm_of(train, mesh);
    if (!arm || *arm == kFrame) return std::nullopt;
    const bool first_rides = rides_on(train, train[mesh.first].member) == *arm;
    const bool second_rides = rides_on(train, train[mesh.second].member) == *arm;
    if (first_rides == second_rides) return std::nullopt;
    return first_rides ? mesh.first : mesh.second;
}

std::optional<double> given_centre_distance_mm(const Train& train, const Mesh& mesh) {
    if (!mesh.centre_distance) return std::nullopt;
    const bool inches = is_in_inches(train, train[external_gear_of(train, mesh)].spec);
    return mesh.centre_distance->to_double() * (inches ? kInch_mm : 1.0);
}

double module_of(const Train& train, GearIndex gear) {
    for (const ToothSpec* spec : {&train[gear].spec, &train.teeth}) {
        if (spec->module_mm) return spec->module_mm->to_double();
        if (spec->diametral_pitch) return kInch_mm / spec->diametral_pitch->to_double();
    }
    const Impossible impossible{"module given", 0.0, 0.0, "mm",
                                "give 'module' (mm) or 'diametral_pitch' (per inch) in [teeth] or on the gear"};
    throw TeethError("gear '" + name_of(train, gear) + "' has no size", finding_of(impossible, name_of(train, gear)));
}

TrainTeeth teeth_of(const Train& train) {
    std::vector<GearSpec> specs;
    specs.reserve(train.gears.size());
    for (std::int32_t g = 0; g < static_cast<std::int32_t>(train.gears.size()); ++g)
        specs.push_back(own_spec(train, {g}));
    const std::vector<std::vector<MeshIndex>> meshes = meshes_by_gear(train);
    set_hands(train, meshes, specs);

    std::vector<std::optional<double>> angles;
    angles.reserve(train.meshes.size());
    for (const Mesh& mesh : train.meshes) {
        require_alike(train, mesh, specs);
        angles.push_back(operating_angle(train, mesh, specs));
        const GearIndex first = external_gear_of(train, mesh);
        const GearIndex second = other_gear_of(train, mesh);
        if (!angles.back()) continue;
        const double change = tip_change_for(specs[first.position()], specs[second.position()], *angles.back());
        for (const GearIndex gear : {first, second})
            specs[gear.position()].tip_change = std::min(specs[gear.position()].tip_change, change);
    }

    TrainTeeth teeth;
    teeth.operating_diameters_mm.resize(specs.size());
    for (std::size_t g = 0; g < specs.size(); ++g) {
        GearSpec& spec = specs[g];
        const std::optional<double> angle = meshes[g].empty() ? std::nullopt : angles[meshes[g].front().position()];
        const double transverse = std::atan(std::tan(spec.rack.pressure_angle_rad) / std::cos(spec.helix_angle_rad));
        // An arc between two involutes grows with the circle as 1 / cos of the pressure angle there.
        const double at_reference = angle ? std::cos(*angle) / std::cos(transverse) : 1.0;
        spec.thinning_mm = backlash_mm(train, {static_cast<std::int32_t>(g)}) / 2.0 * at_reference;
        teeth.gears.push_back(sizes_of(spec));
        teeth.profiles.push_back(profile_of(teeth.gears.back()));
        if (angle) teeth.operating_diameters_mm[g] = teeth.gears.back().base_diameter_mm / std::cos(*angle);
    }
    for (std::size_t m = 0; m < train.meshes.size(); ++m) {
        const Mesh& mesh = train.meshes[m];
        const std::size_t first = external_gear_of(train, mesh).position();
        const std::size_t second = other_gear_of(train, mesh).position();
        MeshSizes sizes;
        if (angles[m]) sizes.pair = pair_sizes(teeth.gears[first], teeth.gears[second], *angles[m]);
        if (sizes.pair && teeth.profiles[first].profile && teeth.profiles[second].profile)
            sizes.active = active_path(*teeth.profiles[first].profile, *teeth.profiles[second].profile, *sizes.pair);
        teeth.meshes.push_back(sizes);
    }
    return teeth;
}

namespace {

// The shift of `partner` that brings the mesh to the operating angle, the other gear's shift being what it is.
double partner_shift(const Train& train, const Mesh& mesh, GearIndex partner, const GearSpec& external,
                     const GearSpec& other, double angle_rad) {
    const double sum = shift_sum_for(external, other, angle_rad);
    if (!other.internal) return partner == external_gear_of(train, mesh) ? sum - other.shift : sum - external.shift;
    return partner == other_gear_of(train, mesh) ? sum + external.shift : other.shift - sum;
}

}  // namespace

MatchedTrain match_shifts(const Train& train) {
    MatchedTrain matched{train, {}};
    std::vector<std::optional<MeshIndex>> kept(train.members.size());
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.meshes.size()); ++m) {
        const MeshIndex index{m};
        const Mesh& mesh = train[index];
        const std::optional<GearIndex> carried = carried_gear_of(train, mesh);
        if (!carried) continue;
        std::optional<MeshIndex>& first = kept[train[*carried].member.position()];
        if (!first) {
            first = index;
            continue;
        }
        const TrainTeeth teeth = teeth_of(matched.train);
        const std::string gears = gears_in_quotes(train, mesh);
        // Its figure and limit: the centre distance wanted, and the base circles' in their way.
        const auto no_shift = [&](double wanted_mm, double least_mm, const char* mend) {
            return finding_of({"shift that matches", wanted_mm, least_mm, "mm", mend}, mesh_where(train, mesh));
        };
        if (!teeth.meshes[first->position()].pair)
            throw TeethError("no shift can bring " + gears + " to a centre distance that does not exist itself",
                             no_shift(0.0, 0.0, "change the teeth of the scene"));
        const double distance_mm = teeth.meshes[first->position()].pair->centre_distance_mm;
        const GearIndex partner = mesh.first == *carried ? mesh.second : mesh.first;
        const GearSpec& external = teeth.gears[external_gear_of(train, mesh).position()].spec;
        const GearSpec& other = teeth.gears[other_gear_of(train, mesh).position()].spec;
        const std::optional<double> angle = operating_angle_at(external, other, distance_mm);
        if (!angle)
            throw TeethError("no shift can bring " + gears + " to the centre distance of " +
                                 decimal_text(Ratio(std::llround(distance_mm * 1e4), 10000), 4) +
                                 " mm: their base circles do not allow it",
                             no_shift(distance_mm,
                                      base_distance_mm(teeth.gears[external_gear_of(train, mesh).position()],
                                                       teeth.gears[other_gear_of(train, mesh).position()]),
                                      "change a tooth count"));
        const double shift = partner_shift(train, mesh, partner, external, other, *angle);
        const Ratio written(std::llround(shift * 1e6), 1000000);
        const double before = teeth.gears[partner.position()].spec.shift;
        if (std::abs(written.to_double() - before) < 1e-6) continue;
        matched.train.gears[partner.position()].shift = written;
        matched.shifts.push_back({partner, written.to_double(), *first, index, distance_mm});
    }
    return matched;
}

}  // namespace couplet
