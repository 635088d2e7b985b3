// Copy places: where copies stand among each other.
#pragma once

#include "place/placement.hpp"

namespace couplet {

// How far round its centre copy k (from 0) of a member stands from the first one: where its places say, else where
// those of another member do whose as many copies it is in mesh with on the same carrier (one outer planet to each
// inner one), else at equal angles.
[[nodiscard]] Ratio turns_from_first(const Train& train, MemberIndex member, int k);

struct ClosestCopies {
    PlaceIndex first;
    PlaceIndex second;
    double distance_mm = 0.0;
};

// The closest two copies of members a and b on one carrier's place, neighbours round it; of copies that are in mesh
// (the same copy of both) not one with the other. Both members have the same number of copies, more than 1.
[[nodiscard]] ClosestCopies closest_copies(const Placement& placement, MemberIndex a, MemberIndex b);

// Of the circle that a gear fills: the tip circle, or the root circle and its rim.
[[nodiscard]] double outer_diameter_mm(const TrainTeeth& teeth, GearIndex gear);

}  // namespace couplet
