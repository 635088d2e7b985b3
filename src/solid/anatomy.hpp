// Anatomy: which members share an axis, what rides on what, and the radii from which a machine is proportioned.
//
// Lengths in mm. The proportions are those of a tabletop exhibit: everything follows from modules and face widths.
#pragma once

#include <vector>

#include "solid/sweep.hpp"

namespace couplet {

// One axis of a carrier, or of the frame, in the first copy; coaxial members share it.
struct Axis {
    MemberIndex carrier;
    std::vector<MemberIndex> members;
    MemberIndex guide;         // the member with the most copies: where the axis stands in each
    double distance_mm = 0.0;  // from the carrier's own axis
    double bore_mm = 0.0;      // that suits the smallest gear on it
};

struct Anatomy {
    std::vector<std::vector<GearIndex>> gears;  // by member
    std::vector<Axis> axes;
    std::vector<int> axis_of;               // by member
    std::vector<std::vector<int>> axes_on;  // by member: those that ride on it
    std::vector<MemberIndex> carriers;      // members that others ride on, the outermost first
    std::vector<Band> bands;                // by gear, at its member's first place: tip to axis, or rim
    double typical_face_mm = 0.0;
    double reach_mm = 0.0;  // of all gears from the origin

    [[nodiscard]] double lobe_mm(const Axis& axis) const;            // radius of a carrier's lobe round a pin
    [[nodiscard]] double plate_reach_mm(MemberIndex carrier) const;  // radius that its lobes reach
    [[nodiscard]] double plate_thickness_mm(MemberIndex carrier) const;
};

[[nodiscard]] Anatomy anatomy_of(const Train& train, const TrainTeeth& teeth, const Placement& placement);

// The hole that a scene gives a gear, or the one that suits it; and the widest that leaves metal under its teeth.
[[nodiscard]] double usual_bore_mm(const Train& train, const TrainTeeth& teeth, GearIndex gear);
[[nodiscard]] double most_bore_mm(const Train& train, const TrainTeeth& teeth, GearIndex gear);

// Radii of the metal of a gear: from its axis to its tips, or from a ring's tips to the outside of its rim.
struct Reach {
    double inner_mm;
    double outer_mm;
};
[[nodiscard]] Reach reach_of(const GearSizes& gear);

// The place of a member's first copy.
[[nodiscard]] PlaceIndex first_place_of(const Placement& placement, MemberIndex member);

}  // namespace couplet
