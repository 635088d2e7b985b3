#include "solid/workshop.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

double typical_radius_mm(const Anatomy& anatomy) {
    double sum = 0.0;
    for (const Band& band : anatomy.bands) sum += band.outer_mm;
    return anatomy.bands.empty() ? 1.0 : sum / static_cast<double>(anatomy.bands.size());
}

}  // namespace

Workshop::Workshop(const Train& train_, const TrainTeeth& teeth_, const Placement& placement_,
                   const StartingRotations& rotations_)
    : train(train_),
      teeth(teeth_),
      placement(placement_),
      rotations(rotations_),
      anatomy(anatomy_of(train_, teeth_, placement_)),
      around(placement_, 2.0 * typical_radius_mm(anatomy),
             std::max(anatomy.typical_face_mm, typical_radius_mm(anatomy) / 2.0)),
      sleeves(train_.members.size()),
      pins_mm(anatomy.axes.size(), 0.0),
      axis_tops_mm(anatomy.axes.size(), 0.0),
      pin_tops_mm(anatomy.axes.size(), 0.0),
      walled(train_.gears.size(), 0),
      plates_by_member_(train_.members.size(), -1),
      places_under_(placement_.places.size()) {
    machine.stack = stack_of(train, teeth, placement, anatomy);
    for (std::size_t c = 0; c < machine.stack.carriers.size(); ++c)
        plates_by_member_[machine.stack.carriers[c].carrier.position()] = static_cast<int>(c);
    for (std::int32_t p = 0; p < static_cast<std::int32_t>(placement.places.size()); ++p) {
        const PlaceIndex under = placement[PlaceIndex{p}].under;
        if (under.value >= 0) places_under_[under.position()].push_back({p});
    }
}

std::size_t Workshop::add_shape(Shape shape) {
    machine.shapes.push_back(std::move(shape));
    return machine.shapes.size() - 1;
}

std::vector<PlaceIndex> Workshop::places_of(MemberIndex member) const {
    std::vector<PlaceIndex> places;
    for (int p = placement.first_place[member.position()]; p < placement.first_place[member.position() + 1]; ++p)
        places.push_back({p});
    return places;
}

double Workshop::turned_rad(GearIndex gear, PlaceIndex place) const {
    const Angle within_turn = reduced(rotations.of(gear, place).tooth, Ratio(1), placement.direction_turns);
    return 2.0 * std::numbers::pi * within_turn.value(placement.direction_turns);
}

int Workshop::tier_at(const Span& span) const {
    return machine.stack.tier_at((span.bottom_mm + span.top_mm) / 2.0);
}

Band Workshop::band(PlaceIndex place, double inner_mm, double outer_mm, const Span& span) const {
    return {place, placement[place].centre_mm, inner_mm, outer_mm, span};
}

Band Workshop::band_off(PlaceIndex place, const PlanePoint& offset, double outer_mm, const Span& span) const {
    Band result = band(place, 0.0, outer_mm, span);
    result.centre_mm.x_mm += offset.x_mm;
    result.centre_mm.y_mm += offset.y_mm;
    return result;
}

void Workshop::add(const Part& part, const Band& taken) {
    machine.parts.push_back(part);
    around.add(taken);
}

bool Workshop::is_clear(MemberIndex member, double inner_mm, double outer_mm, const Span& span) const {
    return std::ranges::all_of(
        places_of(member), [&](PlaceIndex place) { return around.is_clear(band(place, inner_mm, outer_mm, span)); });
}

bool Workshop::add_if_clear(MemberIndex member, const TurnedShape& shape, PartRole role, const Span& span, bool opens) {
    double outer = 0.0;
    for (const TurnedShape::Corner& corner : shape.outline) outer = std::max(outer, corner.radius_mm);
    const double inner = shape.bore_mm / 2.0;
    if (!is_clear(member, inner, outer, span)) return false;
    const std::size_t index = add_shape(shape);
    for (const PlaceIndex place : places_of(member))
        add({index, place, {}, role, span.bottom_mm, 0.0, {}, opens, tier_at(span)}, band(place, inner, outer, span));
    return true;
}

const CarrierPlates* Workshop::plates_of(MemberIndex member) const {
    const int found = plates_by_member_[member.position()];
    return found < 0 ? nullptr : &machine.stack.carriers[static_cast<std::size_t>(found)];
}

double Workshop::least_gap_mm() const {
    constexpr double kOfFace = 0.015;
    return kOfFace * anatomy.typical_face_mm;
}

std::vector<PlanePoint> Workshop::pin_offsets(PlaceIndex carrier, const Axis& axis) const {
    constexpr double kSame_mm = 1e-3;
    std::vector<PlanePoint> offsets;
    for (const PlaceIndex rider : places_under_[carrier.position()]) {
        if (&anatomy.axes[static_cast<std::size_t>(anatomy.axis_of[placement[rider].member.position()])] != &axis)
            continue;
        const PlanePoint& at = placement[rider].centre_on_carrier_mm;
        const bool known = std::ranges::any_of(offsets, [&](const PlanePoint& other) {
            return std::hypot(at.x_mm - other.x_mm, at.y_mm - other.y_mm) < kSame_mm;
        });
        if (!known) offsets.push_back(at);
    }
    return offsets;
}

}  // namespace couplet
