// Workshop: the machine while it is being built, with what its parts must keep clear of.
//
// The steps, each in a file of its own, in this order; each keeps clear of what is there already, and leaves out or
// shortens what cannot be:
//     gears and carriers  must be there whatever they meet: gears, plates with pins
//     shafts              sleeves, keys, nuts, upper plates, discs and walls that join rings to their members
//     stand               posts under rings, bearings, the base
#pragma once

#include <optional>
#include <vector>

#include "solid/machine.hpp"
#include "solid/sleeves.hpp"

namespace couplet {

struct Workshop {
    Workshop(const Train& train_, const TrainTeeth& teeth_, const Placement& placement_,
             const StartingRotations& rotations_);

    const Train& train;
    const TrainTeeth& teeth;
    const Placement& placement;
    const StartingRotations& rotations;
    Anatomy anatomy;
    Machine machine;
    Surroundings around;

    std::vector<std::optional<Sleeve>> sleeves;  // by member
    std::vector<double> pins_mm;                 // by axis: radius of the carrier's pin; 0 on the frame
    std::vector<double> axis_tops_mm;            // by axis: of the gears and plates on it
    std::vector<double> pin_tops_mm;             // by axis, where pins end
    std::vector<char> walled;                    // by gear: rings that a wall joins to their member

    [[nodiscard]] std::size_t add_shape(Shape shape);
    [[nodiscard]] std::vector<PlaceIndex> places_of(MemberIndex member) const;
    [[nodiscard]] double turned_rad(GearIndex gear, PlaceIndex place) const;  // where a tooth stands
    [[nodiscard]] int tier_at(const Span& span) const;
    [[nodiscard]] Band band(PlaceIndex place, double inner_mm, double outer_mm, const Span& span) const;
    // Where a point stands that is `offset` from a place's axis in the start pose.
    [[nodiscard]] Band band_off(PlaceIndex place, const PlanePoint& offset, double outer_mm, const Span& span) const;

    // Adds the part and what it takes up.
    void add(const Part& part, const Band& taken);
    // At every place of the member, if all are clear.
    bool add_if_clear(MemberIndex member, const TurnedShape& shape, PartRole role, const Span& span,
                      bool opens = false);
    [[nodiscard]] bool is_clear(MemberIndex member, double inner_mm, double outer_mm, const Span& span) const;

    [[nodiscard]] const CarrierPlates* plates_of(MemberIndex member) const;
    [[nodiscard]] double least_gap_mm() const;  // between radii that turn against each other
    // Where each place of a carrier has an axis's pin, from the carrier's own axis; coinciding places once.
    [[nodiscard]] std::vector<PlanePoint> pin_offsets(PlaceIndex carrier, const Axis& axis) const;

  private:
    std::vector<int> plates_by_member_;
    std::vector<std::vector<PlaceIndex>> places_under_;
};

void size_axes(Workshop& shop);
void add_gears(Workshop& shop);
void add_carriers(Workshop& shop);
void add_shafts(Workshop& shop);
void add_ring_screws(Workshop& shop);
void add_stand(Workshop& shop);

}  // namespace couplet
