#include "solid/machine.hpp"

#include <algorithm>
#include <cmath>

#include "solid/gear_shapes.hpp"
#include "solid/workshop.hpp"

namespace couplet {

namespace {

PartRole role_of(const Workshop& shop, GearIndex gear) {
    if (shop.train[gear].internal) return PartRole::ring;
    return rides_on(shop.train, shop.train[gear].member) == kFrame ? PartRole::sun_or_wheel : PartRole::planet;
}

Shape shape_of(const Workshop& shop, GearIndex gear) {
    const GearSizes& sizes = shop.teeth.gears[gear.position()];
    const ProfileResult& profile = shop.teeth.profiles[gear.position()];
    const MemberIndex member = shop.train[gear].member;
    const Span& span = shop.machine.stack.gears[gear.position()];
    const double face = span.top_mm - span.bottom_mm;
    if (shop.train[gear].internal) return ring_shape(sizes, profile, face, shop.plates_of(member) == nullptr);
    const std::optional<Sleeve>& sleeve = shop.sleeves[member.position()];
    return external_gear_shape(sizes, profile, {2.0 * sleeve->outer_mm, face, rides_on(shop.train, member) == kFrame});
}

void add_gear(Workshop& shop, GearIndex gear) {
    const MemberIndex member = shop.train[gear].member;
    const Span& span = shop.machine.stack.gears[gear.position()];
    const Reach reach = reach_of(shop.teeth.gears[gear.position()]);
    const double inner = shop.train[gear].internal ? reach.inner_mm : shop.sleeves[member.position()]->outer_mm;
    const std::size_t shape = shop.add_shape(shape_of(shop, gear));
    for (const PlaceIndex place : shop.places_of(member))
        shop.add({shape,
                  place,
                  gear,
                  role_of(shop, gear),
                  span.bottom_mm,
                  shop.turned_rad(gear, place),
                  {},
                  shop.train[gear].internal,
                  shop.tier_at(span)},
                 shop.band(place, inner, reach.outer_mm, span));
}

// Screws on the bolt circle of a ring whose top is free.
void add_screws(Workshop& shop, GearIndex gear, const RingShape& ring) {
    const double module = ring.profile.sizes.spec.module_mm;
    constexpr double kHead_modules = 0.7;
    constexpr double kHeight_modules = 0.45;
    const TurnedShape head = turned_bar(kHead_modules * module, kHeight_modules * module, 0.12 * module);
    const Span span{shop.machine.stack.gears[gear.position()].top_mm,
                    shop.machine.stack.gears[gear.position()].top_mm + kHeight_modules * module};
    const std::size_t shape = shop.add_shape(head);
    for (const PlaceIndex place : shop.places_of(shop.train[gear].member)) {
        for (int k = 0; k < ring.bolts; ++k) {
            const double at =
                shop.turned_rad(gear, place) + 2.0 * std::numbers::pi * (static_cast<double>(k) + 0.5) / ring.bolts;
            const double radius = ring.bolt_circle_mm / 2.0;
            const PlanePoint offset{radius * std::cos(at), radius * std::sin(at)};
            const Band taken = shop.band_off(place, offset, kHead_modules * module, span);
            if (!shop.around.is_clear(taken)) return;
            shop.add({shape,
                      place,
                      {},
                      PartRole::fastener,
                      span.bottom_mm,
                      0.0,
                      offset,
                      true,
                      shop.tier_at(shop.machine.stack.gears[gear.position()]),
                      true},
                     taken);
        }
    }
}

// A round plate where it is a ring's disc too; else the hull of a boss and a lobe for each pin.
Shape plate_shape(const Workshop& shop, const CarrierPlates& plates, PlaceIndex place, double radius_mm) {
    const std::optional<Sleeve>& sleeve = shop.sleeves[plates.carrier.position()];
    const double thickness = plates.lower.top_mm - plates.lower.bottom_mm;
    const double bore = sleeve ? 2.0 * sleeve->outer_mm : 0.0;
    if (radius_mm > shop.anatomy.plate_reach_mm(plates.carrier))
        return turned_bar(radius_mm, thickness, 0.1 * thickness, bore);
    PlateShape plate;
    plate.thickness_mm = thickness;
    plate.chamfer_mm = 0.1 * thickness;
    constexpr double kBossOfBore = 1.6;
    constexpr double kLeastOfBore = 1.2;
    plate.lobes.push_back({{0.0, 0.0}, std::max(kLeastOfBore * bore, std::min(kBossOfBore * bore, 0.9 * radius_mm))});
    if (bore > 0.0) plate.holes.push_back({{0.0, 0.0}, bore});
    for (const int a : shop.anatomy.axes_on[plates.carrier.position()]) {
        const Axis& axis = shop.anatomy.axes[static_cast<std::size_t>(a)];
        for (const PlanePoint& offset : shop.pin_offsets(place, axis))
            plate.lobes.push_back({offset, 2.0 * shop.anatomy.lobe_mm(axis)});
    }
    return plate;
}

double plate_radius_mm(const Workshop& shop, MemberIndex carrier) {
    double radius = shop.anatomy.plate_reach_mm(carrier);
    for (const GearIndex gear : shop.anatomy.gears[carrier.position()])
        if (shop.train[gear].internal) radius = std::max(radius, shop.anatomy.bands[gear.position()].outer_mm);
    return radius;
}

void add_plate(Workshop& shop, const CarrierPlates& plates) {
    const std::vector<PlaceIndex> places = shop.places_of(plates.carrier);
    const double radius = plate_radius_mm(shop, plates.carrier);
    const std::optional<Sleeve>& sleeve = shop.sleeves[plates.carrier.position()];
    const std::size_t shape = shop.add_shape(plate_shape(shop, plates, places.front(), radius));
    const bool hides = std::ranges::any_of(shop.anatomy.gears[plates.carrier.position()], [&](GearIndex gear) {
        return shop.train[gear].internal && shop.machine.stack.gears[gear.position()].top_mm <= plates.lower.bottom_mm;
    });
    for (const PlaceIndex place : places)
        shop.add(
            {shape, place, {}, PartRole::carrier, plates.lower.bottom_mm, 0.0, {}, hides, shop.tier_at(plates.lower)},
            shop.band(place, sleeve ? sleeve->outer_mm : 0.0, radius, plates.lower));
}

// From the plate's middle to above what runs on it; shorter where something else is in the way.
Span pin_span(const Workshop& shop, const CarrierPlates& plates, std::size_t a) {
    const Axis& axis = shop.anatomy.axes[a];
    constexpr double kAbove = 0.65;  // of the gap: into the nut's washer
    const double bottom = (plates.lower.bottom_mm + plates.lower.top_mm) / 2.0;
    const double beyond = kAbove * shop.machine.stack.gap_mm;
    std::vector<double> tops{shop.axis_tops_mm[a] + beyond, shop.axis_tops_mm[a]};
    for (const MemberIndex member : axis.members)
        for (const GearIndex gear : shop.anatomy.gears[member.position()])
            tops.push_back(shop.machine.stack.gears[gear.position()].top_mm);
    std::ranges::sort(tops, std::ranges::greater{});
    for (const double top : tops) {
        const bool clear = std::ranges::all_of(shop.places_of(plates.carrier), [&](PlaceIndex carrier) {
            return std::ranges::all_of(shop.pin_offsets(carrier, axis), [&](const PlanePoint& offset) {
                return shop.around.is_clear(shop.band_off(carrier, offset, shop.pins_mm[a], {bottom, top}));
            });
        });
        if (clear && top > plates.lower.top_mm) return {bottom, top};
    }
    return {bottom, plates.lower.top_mm};
}

void add_pins(Workshop& shop, const CarrierPlates& plates) {
    for (const int a : shop.anatomy.axes_on[plates.carrier.position()]) {
        const double radius = shop.pins_mm[static_cast<std::size_t>(a)];
        constexpr double kOwnAxis_mm = 1e-3;  // what is carried there runs on the carrier's own shaft
        if (shop.anatomy.axes[static_cast<std::size_t>(a)].distance_mm < kOwnAxis_mm) continue;
        const Span span = pin_span(shop, plates, static_cast<std::size_t>(a));
        shop.pin_tops_mm[static_cast<std::size_t>(a)] = span.top_mm;
        const std::size_t shape = shop.add_shape(turned_bar(radius, span.top_mm - span.bottom_mm, 0.2 * radius));
        for (const PlaceIndex carrier : shop.places_of(plates.carrier))
            for (const PlanePoint& offset : shop.pin_offsets(carrier, shop.anatomy.axes[static_cast<std::size_t>(a)]))
                shop.add({shape,
                          carrier,
                          {},
                          PartRole::shaft,
                          span.bottom_mm,
                          0.0,
                          offset,
                          false,
                          shop.tier_at(plates.lower)},
                         shop.band_off(carrier, offset, radius, span));
    }
}

}  // namespace

void add_gears(Workshop& shop) {
    for (std::int32_t g = 0; g < static_cast<std::int32_t>(shop.train.gears.size()); ++g) add_gear(shop, {g});
}

void add_carriers(Workshop& shop) {
    for (const CarrierPlates& plates : shop.machine.stack.carriers) add_plate(shop, plates);
    for (const CarrierPlates& plates : shop.machine.stack.carriers) add_pins(shop, plates);
}

void add_ring_screws(Workshop& shop) {
    std::vector<std::pair<GearIndex, RingShape>> rings;
    for (const Part& part : shop.machine.parts)
        if (const auto* ring = std::get_if<RingShape>(&shop.machine.shapes[part.shape]);
            ring != nullptr && ring->bolts > 0 && shop.walled[part.gear.position()] == 0)
            if (rings.empty() || rings.back().first != part.gear) rings.emplace_back(part.gear, *ring);
    for (const auto& [gear, ring] : rings) add_screws(shop, gear, ring);
}

Machine machine_of(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                   const StartingRotations& rotations) {
    Workshop shop(train, teeth, placement, rotations);
    size_axes(shop);
    add_gears(shop);
    add_carriers(shop);
    add_shafts(shop);
    add_ring_screws(shop);
    add_stand(shop);
    return std::move(shop.machine);
}

}  // namespace couplet
