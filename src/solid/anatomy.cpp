#include "solid/anatomy.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace couplet {

namespace {

constexpr double kMmPerInch = 25.4;
constexpr double kLeast_mm = 1e-3;

// The whole millimetre nearest to a length, or a tidy part of one where it is small.
double tidy(double mm) {
    const double step = mm > 6.0 ? 1.0 : mm > 1.5 ? 0.5 : 0.1;
    return std::max(std::round(mm / step) * step, kLeast_mm);
}

std::optional<double> given_bore_mm(const Train& train, GearIndex index) {
    const Gear& gear = train[index];
    if (!gear.bore) return std::nullopt;
    const bool inches = gear.spec.diametral_pitch || (!gear.spec.module_mm && train.teeth.diametral_pitch);
    return gear.bore->to_double() * (inches ? kMmPerInch : 1.0);
}

void group_axes(const Train& train, const Placement& placement, Anatomy& anatomy) {
    std::map<std::tuple<MemberIndex, std::int64_t, std::int64_t>, int> known;
    anatomy.axis_of.resize(train.members.size());
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
        const Place& place = placement[first_place_of(placement, {m})];
        const PlanePoint& at = place.centre_on_carrier_mm;
        constexpr double kSteps_per_mm = 1e4;
        const auto [entry, is_new] = known.try_emplace(
            {rides_on(train, {m}), std::llround(at.x_mm * kSteps_per_mm), std::llround(at.y_mm * kSteps_per_mm)},
            static_cast<int>(anatomy.axes.size()));
        if (is_new) anatomy.axes.push_back({rides_on(train, {m}), {}, {m}, std::hypot(at.x_mm, at.y_mm), 0.0});
        Axis& axis = anatomy.axes[static_cast<std::size_t>(entry->second)];
        axis.members.push_back({m});
        if (train[MemberIndex{m}].copies > train[axis.guide].copies) axis.guide = {m};
        anatomy.axis_of[static_cast<std::size_t>(m)] = entry->second;
    }
}

double bore_of(const Train& train, const TrainTeeth& teeth, const Anatomy& anatomy, const Axis& axis) {
    double bore = 0.0;
    for (const MemberIndex member : axis.members)
        for (const GearIndex gear : anatomy.gears[member.position()]) {
            if (train[gear].internal) continue;
            const double usual = usual_bore_mm(train, teeth, gear);
            bore = bore == 0.0 ? usual : std::min(bore, usual);
        }
    return bore;
}

}  // namespace

PlaceIndex first_place_of(const Placement& placement, MemberIndex member) {
    return {placement.first_place[member.position()]};
}

Reach reach_of(const GearSizes& gear) {
    const double module = gear.spec.module_mm;
    constexpr double kRim_modules = 3.0;
    if (!gear.spec.internal) return {0.0, std::max(gear.tip_diameter_mm / 2.0, kLeast_mm)};
    const double root = std::max({gear.root_diameter_mm, gear.tip_diameter_mm, kLeast_mm}) / 2.0;
    return {std::max(gear.tip_diameter_mm / 2.0, kLeast_mm), root + kRim_modules * module};
}

double usual_bore_mm(const Train& train, const TrainTeeth& teeth, GearIndex gear) {
    const GearSizes& sizes = teeth.gears[gear.position()];
    const double most = most_bore_mm(train, teeth, gear);
    if (given_bore_mm(train, gear)) return most;
    constexpr double kOfSmallRoot = 0.3;
    constexpr double kOfFurtherRoot = 0.06;
    constexpr double kSmall_modules = 16.0;
    const double small = std::min(sizes.root_diameter_mm, kSmall_modules * sizes.spec.module_mm);
    const double further = std::max(sizes.root_diameter_mm - small, 0.0);
    return std::min(tidy(kOfSmallRoot * std::max(small, 0.0) + kOfFurtherRoot * further), most);
}

double most_bore_mm(const Train& train, const TrainTeeth& teeth, GearIndex gear) {
    const GearSizes& sizes = teeth.gears[gear.position()];
    constexpr double kRim_modules = 1.6;
    constexpr double kLeastPart = 0.25;
    const double most = std::max(
        {sizes.root_diameter_mm - kRim_modules * sizes.spec.module_mm, kLeastPart * sizes.root_diameter_mm, kLeast_mm});
    return std::min(most, given_bore_mm(train, gear).value_or(most));
}

double Anatomy::lobe_mm(const Axis& axis) const {
    constexpr double kOfBore = 0.92;
    constexpr double kOfDistance = 0.09;
    return axis.bore_mm > 0.0 ? kOfBore * axis.bore_mm : kOfDistance * axis.distance_mm;
}

double Anatomy::plate_reach_mm(MemberIndex carrier) const {
    double reach = 0.0;
    for (const int a : axes_on[carrier.position()]) {
        const Axis& axis = axes[static_cast<std::size_t>(a)];
        reach = std::max(reach, axis.distance_mm + lobe_mm(axis));
    }
    return std::max(reach, kLeast_mm);
}

double Anatomy::plate_thickness_mm(MemberIndex carrier) const {
    constexpr double kOfFace = 0.28;
    constexpr double kOfReach = 0.035;
    return kOfFace * typical_face_mm + kOfReach * plate_reach_mm(carrier);
}

Anatomy anatomy_of(const Train& train, const TrainTeeth& teeth, const Placement& placement) {
    Anatomy anatomy;
    anatomy.gears.resize(train.members.size());
    std::vector<double> faces;
    for (std::int32_t g = 0; g < static_cast<std::int32_t>(train.gears.size()); ++g) {
        const GearSizes& sizes = teeth.gears[static_cast<std::size_t>(g)];
        const MemberIndex member = train.gears[static_cast<std::size_t>(g)].member;
        const PlaceIndex place = first_place_of(placement, member);
        const Reach reach = reach_of(sizes);
        anatomy.gears[member.position()].push_back({g});
        anatomy.bands.push_back({place, placement[place].centre_mm, reach.inner_mm, reach.outer_mm, {0.0, 1.0}});
        const Band swept = swept_on_frame(placement, anatomy.bands.back());
        anatomy.reach_mm =
            std::max(anatomy.reach_mm, std::hypot(swept.centre_mm.x_mm, swept.centre_mm.y_mm) + swept.outer_mm);
        faces.push_back(sizes.spec.face_width_mm);
    }
    if (!faces.empty()) {
        const auto middle = faces.begin() + static_cast<std::ptrdiff_t>(faces.size() / 2);
        std::nth_element(faces.begin(), middle, faces.end());
        anatomy.typical_face_mm = *middle;
    }
    group_axes(train, placement, anatomy);
    anatomy.axes_on.resize(train.members.size());
    for (std::size_t a = 0; a < anatomy.axes.size(); ++a) {
        Axis& axis = anatomy.axes[a];
        axis.bore_mm = bore_of(train, teeth, anatomy, axis);
        if (axis.carrier != kFrame) anatomy.axes_on[axis.carrier.position()].push_back(static_cast<int>(a));
    }
    each_member_from_the_frame(train, [&](MemberIndex member) {
        if (!anatomy.axes_on[member.position()].empty()) anatomy.carriers.push_back(member);
    });
    return anatomy;
}

}  // namespace couplet
