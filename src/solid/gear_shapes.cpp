#include "solid/gear_shapes.hpp"

#include <algorithm>
#include <cmath>

#include "solid/anatomy.hpp"

namespace couplet {

namespace {

double chamfer_mm(const GearSizes& sizes) {
    constexpr double kOfModule = 0.12;
    constexpr double kMost_mm = 0.5;
    return std::min({kOfModule * sizes.spec.module_mm, kMost_mm, sizes.spec.face_width_mm / 6.0});
}

// A web between hub and rim, with holes, where there is room for all three.
void lighten(GearShape& gear, const GearSizes& sizes) {
    const double module = sizes.spec.module_mm;
    constexpr double kHubOfBore = 1.7;
    constexpr double kRim_modules = 2.25;
    constexpr double kLeastRoot_modules = 8.0;
    constexpr double kLeastOfHub = 2.2;
    constexpr double kWebOfFace = 0.45;
    constexpr double kDeepest_modules = 1.8;
    gear.web_mm = gear.face_width_mm;
    const double hub = kHubOfBore * gear.bore_mm;
    const double rim = sizes.root_diameter_mm - 2.0 * kRim_modules * module;
    if (sizes.root_diameter_mm < kLeastRoot_modules * module || sizes.root_diameter_mm < kLeastOfHub * hub ||
        rim - hub < 4.0 * module)
        return;
    gear.hub_mm = hub;
    gear.rim_mm = rim;
    gear.web_mm = std::max(kWebOfFace * gear.face_width_mm, gear.face_width_mm - 2.0 * kDeepest_modules * module);
    constexpr double kHoleOfWeb = 0.6;
    constexpr double kHoleOfCircle = 0.3;
    const double circle = (hub + rim) / 2.0;
    const double hole = std::min(kHoleOfWeb * (rim - hub) / 2.0, kHoleOfCircle * circle);
    if (hole < 1.2 * module) return;
    constexpr double kWide_modules = 40.0;
    gear.holes = sizes.root_diameter_mm > kWide_modules * module ? 6 : 5;
    gear.hole_mm = hole;
    gear.hole_circle_mm = circle;
}

int bolts_of(const GearSizes& sizes) {
    return sizes.spec.teeth < 40 ? 6 : sizes.spec.teeth < 100 ? 8 : 12;
}

}  // namespace

double key_width_mm(const GearSizes& sizes, double bore_mm) {
    const double width = bore_mm / 4.0;
    constexpr double kMetal_modules = 0.4;
    return bore_mm / 2.0 + width / 2.0 < sizes.root_diameter_mm / 2.0 - kMetal_modules * sizes.spec.module_mm ? width
                                                                                                              : 0.0;
}

TurnedShape turned_bar(double radius_mm, double length_mm, double chamfer_mm, double bore_mm) {
    const double bore = bore_mm / 2.0;
    const double c = std::min({chamfer_mm, (radius_mm - bore) / 3.0, length_mm / 3.0});
    TurnedShape bar;
    bar.bore_mm = bore_mm;
    bar.outline = {
        {bore, 0.0},      {radius_mm - c, 0.0}, {radius_mm, c}, {radius_mm, length_mm - c}, {radius_mm - c, length_mm},
        {bore, length_mm}};
    return bar;
}

Shape external_gear_shape(const GearSizes& sizes, const ProfileResult& profile, const HubWishes& hub) {
    if (!profile.profile)
        return turned_bar(std::max(sizes.tip_diameter_mm / 2.0, hub.bore_mm), hub.face_mm, chamfer_mm(sizes),
                          hub.bore_mm);
    GearShape gear;
    gear.profile = *profile.profile;
    gear.face_width_mm = hub.face_mm;
    gear.chamfer_mm = chamfer_mm(sizes);
    gear.bore_mm = hub.bore_mm;
    gear.key_width_mm = hub.keyed ? key_width_mm(sizes, hub.bore_mm) : 0.0;
    lighten(gear, sizes);
    return gear;
}

Shape ring_shape(const GearSizes& sizes, const ProfileResult& profile, double face_mm, bool bolted) {
    const Reach reach = reach_of(sizes);
    if (!profile.profile) return turned_bar(reach.outer_mm, face_mm, chamfer_mm(sizes), 2.0 * reach.inner_mm);
    const double module = sizes.spec.module_mm;
    constexpr double kCircle_modules = 1.15;
    constexpr double kBolt_modules = 0.8;
    RingShape ring;
    ring.profile = *profile.profile;
    ring.face_width_mm = face_mm;
    ring.chamfer_mm = chamfer_mm(sizes);
    ring.outside_mm = 2.0 * reach.outer_mm;
    if (!bolted) return ring;
    ring.bolts = bolts_of(sizes);
    ring.bolt_mm = kBolt_modules * module;
    ring.bolt_circle_mm = sizes.root_diameter_mm + 2.0 * kCircle_modules * module;
    return ring;
}

}  // namespace couplet
