// Which member's shaft lies inside of which, and the shafts themselves with their keys, nuts, discs and walls.
#include <algorithm>
#include <cmath>

#include "solid/gear_shapes.hpp"
#include "solid/workshop.hpp"

namespace couplet {

namespace {

constexpr double kChamferOfRadius = 0.16;

std::vector<Hub> hubs_of(const Workshop& shop, MemberIndex member) {
    std::vector<Hub> hubs;
    for (const GearIndex gear : shop.anatomy.gears[member.position()])
        if (!shop.train[gear].internal)
            hubs.push_back({shop.machine.stack.gears[gear.position()], shop.anatomy.bands[gear.position()].outer_mm});
    if (const CarrierPlates* plates = shop.plates_of(member))
        hubs.push_back({plates->lower, shop.anatomy.plate_reach_mm(member)});
    for (const RingDisc& disc : shop.machine.stack.discs)
        if (shop.train[disc.ring].member == member)
            hubs.push_back({disc.span, shop.anatomy.bands[disc.ring.position()].outer_mm});
    std::ranges::sort(hubs, {}, [](const Hub& hub) { return hub.span.bottom_mm; });
    return hubs;
}

double most_radius_mm(const Workshop& shop, MemberIndex member) {
    double most = 0.0;
    for (const GearIndex gear : shop.anatomy.gears[member.position()]) {
        if (shop.train[gear].internal) continue;
        const double own = most_bore_mm(shop.train, shop.teeth, gear) / 2.0;
        most = most == 0.0 ? own : std::min(most, own);
    }
    if (most > 0.0) return most;
    // A plate: up to its pins. A disc: as much as looks right in its middle.
    constexpr double kOfReach = 0.3;
    if (shop.plates_of(member) == nullptr) return kOfReach * shop.anatomy.reach_mm;
    for (const int a : shop.anatomy.axes_on[member.position()]) {
        const Axis& axis = shop.anatomy.axes[static_cast<std::size_t>(a)];
        const double own = axis.distance_mm - shop.anatomy.lobe_mm(axis);
        if (own > 0.0) most = most == 0.0 ? own : std::min(most, own);
    }
    return most > 0.0 ? most : kOfReach * shop.anatomy.plate_reach_mm(member);
}

double wanted_radius_mm(const Workshop& shop, MemberIndex member) {
    double wanted = 0.0;
    for (const GearIndex gear : shop.anatomy.gears[member.position()]) {
        if (shop.train[gear].internal) continue;
        const double own = usual_bore_mm(shop.train, shop.teeth, gear) / 2.0;
        wanted = wanted == 0.0 ? own : std::min(wanted, own);
    }
    constexpr double kOfPlate = 0.1;
    if (wanted == 0.0 && shop.plates_of(member) != nullptr) wanted = kOfPlate * shop.anatomy.plate_reach_mm(member);
    return wanted;
}

double wall_mm(const Workshop& shop, const Axis& axis) {
    constexpr double kOfBore = 0.13;
    constexpr double kOfFace = 0.12;
    return axis.bore_mm > 0.0 ? kOfBore * axis.bore_mm : kOfFace * shop.anatomy.typical_face_mm;
}

void size_axis(Workshop& shop, std::size_t a) {
    const Axis& axis = shop.anatomy.axes[a];
    std::vector<HubsOnAxis> members;
    double most = 0.0;
    double& top = shop.axis_tops_mm[a];
    for (const MemberIndex member : axis.members) {
        std::vector<Hub> hubs = hubs_of(shop, member);
        if (hubs.empty()) continue;
        for (const Hub& hub : hubs) top = std::max(top, hub.span.top_mm);
        members.push_back({member, std::move(hubs), wanted_radius_mm(shop, member), most_radius_mm(shop, member)});
        most = most == 0.0 ? members.back().most_mm : std::min(most, members.back().most_mm);
    }
    SleeveRoom room{wall_mm(shop, axis), shop.least_gap_mm(), std::nullopt};
    if (axis.carrier == kFrame) {
        room.bearing_mm = shop.least_gap_mm();
    } else {
        const Span plate = shop.plates_of(axis.carrier)->lower;
        top = std::max(top, plate.top_mm + shop.least_gap_mm());
        constexpr double kOfBore = 0.33;
        const double pin = axis.bore_mm > 0.0 ? kOfBore * axis.bore_mm : shop.anatomy.lobe_mm(axis) / 2.0;
        const double radius = most > 0.0 ? std::min(pin, most - room.wall_mm - room.clearance_mm) : pin;
        shop.pins_mm[a] = std::max(radius, pin / 4.0);
        members.push_back({kFrame, {{plate, 0.0}, {{top, top}, 0.0}}, shop.pins_mm[a], shop.pins_mm[a]});
    }
    for (const Sleeve& sleeve : nest_sleeves(members, room))
        if (sleeve.member != kFrame) shop.sleeves[sleeve.member.position()] = sleeve;
}

TurnedShape tube(const Sleeve& sleeve, double length_mm) {
    return turned_bar(sleeve.outer_mm, length_mm,
                      kChamferOfRadius * (sleeve.inner_mm > 0.0 ? sleeve.outer_mm - sleeve.inner_mm : sleeve.outer_mm),
                      2.0 * sleeve.inner_mm);
}

bool try_piece(Workshop& shop, const Sleeve& sleeve, const Span& span) {
    constexpr double kLeastWall_mm = 1e-3;
    if (sleeve.outer_mm - sleeve.inner_mm < kLeastWall_mm) return false;
    return shop.add_if_clear(sleeve.member, tube(sleeve, span.top_mm - span.bottom_mm), PartRole::shaft, span);
}

// Beyond its hubs by a part of the gap, where nothing is in the way; alone in its hubs where all else is. Whether it
// has its full length.
bool add_piece(Workshop& shop, const Sleeve& sleeve, const Span& piece, const std::vector<Hub>& hubs) {
    constexpr double kBeyondOfGap = 0.6;
    constexpr double kAboveOfRadius = 1.8;
    const double beyond = kBeyondOfGap * shop.machine.stack.gap_mm;
    const double lower = piece.bottom_mm > shop.machine.stack.gap_mm ? piece.bottom_mm - beyond : piece.bottom_mm;
    std::vector<double> tops{piece.top_mm + beyond, piece.top_mm};
    if (sleeve.inner_mm == 0.0 && rides_on(shop.train, sleeve.member) == kFrame)
        tops.insert(tops.begin(), shop.machine.stack.top_mm + kAboveOfRadius * sleeve.outer_mm + beyond);
    for (const double top : tops)
        for (const double bottom : {lower, piece.bottom_mm})
            if (try_piece(shop, sleeve, {bottom, top})) return true;
    for (const Hub& hub : hubs)
        if (hub.span.bottom_mm >= piece.bottom_mm && hub.span.top_mm <= piece.top_mm)
            (void)try_piece(shop, sleeve, hub.span);
    return false;
}

void add_keys(Workshop& shop, const Sleeve& sleeve) {
    if (rides_on(shop.train, sleeve.member) != kFrame) return;
    for (const GearIndex gear : shop.anatomy.gears[sleeve.member.position()]) {
        const double width = key_width_mm(shop.teeth.gears[gear.position()], 2.0 * sleeve.outer_mm);
        if (shop.train[gear].internal || width == 0.0 || !shop.teeth.profiles[gear.position()].profile) continue;
        const Span& span = shop.machine.stack.gears[gear.position()];
        constexpr double kInset = 0.03;
        const double length = (1.0 - 2.0 * kInset) * (span.top_mm - span.bottom_mm);
        if (!shop.is_clear(sleeve.member, sleeve.inner_mm, 1.05 * (sleeve.outer_mm + width / 2.0), span)) continue;
        const double fit = shop.least_gap_mm() / 4.0;
        const double depth = std::min(width / 2.0, 0.6 * (sleeve.outer_mm - sleeve.inner_mm));
        const std::size_t key =
            shop.add_shape(BarShape{{sleeve.outer_mm - depth, -width / 2.0 + fit, 0.0},
                                    {sleeve.outer_mm + width / 2.0 - fit, width / 2.0 - fit, length},
                                    width / 20.0});
        const double bottom = span.bottom_mm + kInset * (span.top_mm - span.bottom_mm);
        for (const PlaceIndex place : shop.places_of(sleeve.member))
            shop.machine.parts.push_back({key,
                                          place,
                                          {},
                                          PartRole::fastener,
                                          bottom,
                                          shop.turned_rad(gear, place),
                                          {},
                                          false,
                                          shop.tier_at(span),
                                          true});
    }
}

void add_nut(Workshop& shop, std::size_t a, double top_mm) {
    const Axis& axis = shop.anatomy.axes[a];
    const double pin = shop.pins_mm[a];
    const double gap = shop.machine.stack.gap_mm;
    const double washer = 1.9 * pin;
    const auto try_nut = [&](double height_mm) {
        const Span span{top_mm, top_mm + height_mm};
        TurnedShape nut;
        const double w = 0.28 * height_mm;
        const double c = 0.22 * height_mm;
        nut.outline = {{0.0, 0.0},      {washer - c / 3.0, 0.0},     {washer, c / 3.0},           {washer, w},
                       {1.35 * pin, w}, {1.35 * pin, height_mm - c}, {1.35 * pin - c, height_mm}, {0.0, height_mm}};
        const std::vector<PlaceIndex> carriers = shop.places_of(axis.carrier);
        for (const PlaceIndex carrier : carriers)
            for (const PlanePoint& offset : shop.pin_offsets(carrier, axis))
                if (!shop.around.is_clear(shop.band_off(carrier, offset, washer, span))) return false;
        const std::size_t shape = shop.add_shape(nut);
        for (const PlaceIndex carrier : carriers)
            for (const PlanePoint& offset : shop.pin_offsets(carrier, axis))
                shop.add({shape,
                          carrier,
                          {},
                          PartRole::fastener,
                          top_mm,
                          0.0,
                          offset,
                          false,
                          shop.machine.stack.tier_at(top_mm)},
                         shop.band_off(carrier, offset, washer, span));
        return true;
    };
    if (!try_nut(std::min(0.9 * pin, 2.0 * gap))) (void)try_nut(0.7 * gap);
}

// A slim ring over the planets that holds the upper ends of long pins.
double add_upper_plate(Workshop& shop, const CarrierPlates& plates) {
    if (!plates.upper) return 0.0;
    double inner = 0.0;
    double outer = 0.0;
    for (const int a : shop.anatomy.axes_on[plates.carrier.position()]) {
        const Axis& axis = shop.anatomy.axes[static_cast<std::size_t>(a)];
        const double lobe = 1.7 * shop.pins_mm[static_cast<std::size_t>(a)];
        inner = inner == 0.0 ? axis.distance_mm - lobe : std::min(inner, axis.distance_mm - lobe);
        outer = std::max(outer, axis.distance_mm + lobe);
    }
    const double thickness = plates.upper->top_mm - plates.upper->bottom_mm;
    const TurnedShape ring = turned_bar(outer, thickness, 0.1 * thickness, 2.0 * inner);
    return shop.add_if_clear(plates.carrier, ring, PartRole::carrier, *plates.upper, true) ? plates.upper->top_mm : 0.0;
}

bool lengthen_pin(Workshop& shop, const CarrierPlates& plates, std::size_t a) {
    const Axis& axis = shop.anatomy.axes[a];
    const double pin = shop.pins_mm[a];
    const Span span{shop.pin_tops_mm[a], plates.upper->bottom_mm};
    if (span.top_mm <= span.bottom_mm) return true;
    std::vector<std::pair<PlaceIndex, PlanePoint>> pins;
    for (const PlaceIndex carrier : shop.places_of(plates.carrier))
        for (const PlanePoint& offset : shop.pin_offsets(carrier, axis)) pins.emplace_back(carrier, offset);
    for (const auto& [carrier, offset] : pins)
        if (!shop.around.is_clear(shop.band_off(carrier, offset, pin, span))) return false;
    const std::size_t shape = shop.add_shape(turned_bar(pin, span.top_mm - span.bottom_mm, 0.0));
    for (const auto& [carrier, offset] : pins)
        shop.add({shape, carrier, {}, PartRole::shaft, span.bottom_mm, 0.0, offset, false, shop.tier_at(plates.lower)},
                 shop.band_off(carrier, offset, pin, span));
    return true;
}

// Pins go on to an upper plate; nuts sit on top of whatever is highest.
void finish_pins(Workshop& shop, const CarrierPlates& plates) {
    const double upper_top = add_upper_plate(shop, plates);
    for (const int a : shop.anatomy.axes_on[plates.carrier.position()]) {
        if (shop.pin_tops_mm[static_cast<std::size_t>(a)] < shop.axis_tops_mm[static_cast<std::size_t>(a)]) continue;
        double top = shop.pin_tops_mm[static_cast<std::size_t>(a)];
        if (upper_top > 0.0 && lengthen_pin(shop, plates, static_cast<std::size_t>(a))) top = upper_top;
        add_nut(shop, static_cast<std::size_t>(a), top);
    }
}

// The wall from a ring to the plate or the disc that joins it to its member.
void add_wall(Workshop& shop, GearIndex ring, const Span& plate) {
    const Span& own = shop.machine.stack.gears[ring.position()];
    const GearSizes& sizes = shop.teeth.gears[ring.position()];
    const bool above = plate.bottom_mm >= own.top_mm;
    const Span span = above ? Span{own.top_mm, plate.bottom_mm} : Span{plate.top_mm, own.bottom_mm};
    const double outer = reach_of(sizes).outer_mm;
    const double inner = std::max(sizes.root_diameter_mm / 2.0 + 0.8 * sizes.spec.module_mm, reach_of(sizes).inner_mm);
    if (span.top_mm - span.bottom_mm <= 0.0 || inner >= outer) return;
    if (shop.add_if_clear(shop.train[ring].member, turned_bar(outer, span.top_mm - span.bottom_mm, 0.0, 2.0 * inner),
                          PartRole::ring, span, above) &&
        above)
        shop.walled[ring.position()] = 1;
}

void add_discs(Workshop& shop) {
    for (const RingDisc& disc : shop.machine.stack.discs) {
        const MemberIndex member = shop.train[disc.ring].member;
        const double radius = shop.anatomy.bands[disc.ring.position()].outer_mm;
        const double thickness = disc.span.top_mm - disc.span.bottom_mm;
        const std::optional<Sleeve>& sleeve = shop.sleeves[member.position()];
        const double bore = sleeve ? 2.0 * sleeve->outer_mm : 0.0;
        const bool above = disc.span.bottom_mm > shop.machine.stack.gears[disc.ring.position()].bottom_mm;
        if (shop.add_if_clear(member, turned_bar(radius, thickness, 0.1 * thickness, bore), PartRole::ring, disc.span,
                              above))
            add_wall(shop, disc.ring, disc.span);
    }
    for (const CarrierPlates& plates : shop.machine.stack.carriers)
        for (const GearIndex gear : shop.anatomy.gears[plates.carrier.position()])
            if (shop.train[gear].internal) add_wall(shop, gear, plates.lower);
}

}  // namespace

void size_axes(Workshop& shop) {
    for (std::size_t a = 0; a < shop.anatomy.axes.size(); ++a) size_axis(shop, a);
}

void add_shafts(Workshop& shop) {
    for (std::optional<Sleeve>& sleeve : shop.sleeves) {
        if (!sleeve) continue;
        const std::vector<Hub> hubs = hubs_of(shop, sleeve->member);
        bool whole = true;
        for (const Span& piece : sleeve->pieces) whole = add_piece(shop, *sleeve, piece, hubs) && whole;
        sleeve->reaches_bearing = sleeve->reaches_bearing && whole;
        add_keys(shop, *sleeve);
    }
    add_discs(shop);
    for (const CarrierPlates& plates : shop.machine.stack.carriers) finish_pins(shop, plates);
}

}  // namespace couplet
