// Stack: where along Z each gear and each carrier's plates sit, so that nothing runs into anything else.
//
// Gears in mesh share a layer, about its middle. Gears of one member, and gears that would run into each other, are in
// layers of their own; where a gear is in mesh with several that cannot share a layer, it is as long as all of their
// layers. Carriers' plates lie below their planets, in slots between the layers, and so do discs that join a ring to
// another gear of its member. z = 0 is the top of the stand, up is +Z; lengths in mm.
#pragma once

#include <optional>
#include <vector>

#include "place/placement.hpp"
#include "solid/anatomy.hpp"
#include "solid/sweep.hpp"

namespace couplet {

struct CarrierPlates {
    MemberIndex carrier;
    Span lower;                 // always there
    std::optional<Span> upper;  // where the planets' pins are held at both ends
};

struct RingDisc {
    GearIndex ring;
    Span span;
};

struct Stack {
    std::vector<Span> gears;              // by GearIndex
    std::vector<CarrierPlates> carriers;  // members that others ride on
    std::vector<RingDisc> discs;          // of rings whose member has an external gear and carries nothing
    std::vector<Span> tiers;              // layers and slots, rising
    double gap_mm = 0.0;                  // between tiers
    double top_mm = 0.0;

    // 1 for the lowest tier; where a height lies between two, the lower one's.
    [[nodiscard]] int tier_at(double z_mm) const;
};

[[nodiscard]] Stack stack_of(const Train& train, const TrainTeeth& teeth, const Placement& placement);
[[nodiscard]] Stack stack_of(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                             const Anatomy& anatomy);

}  // namespace couplet
