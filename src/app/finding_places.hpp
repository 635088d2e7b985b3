// Finding places: beside which field of the Size panel each design rule that does not hold is shown.
//
// A finding says where by the names of gears, meshes and members (tooth/mesh_checks.hpp, place/assembly.hpp); the field
// is the one that a user would change first. A mesh's findings stand with the gear that is named first in them.
#pragma once

#include <map>
#include <vector>

#include "train/finding.hpp"
#include "train/train.hpp"

namespace couplet {

struct FindingPlaces {
    // Of all teeth: a module out of the series, a mesh without backlash. Each rule once for each figure.
    std::vector<Finding> module;
    std::vector<Finding> backlash;
    std::map<GearIndex, std::vector<Finding>> gears;
    // How many copies there are and where they stand; whether the meshes of a carried member agree.
    std::map<MemberIndex, std::vector<Finding>> members;
    std::vector<Finding> elsewhere;
};

// Of those that fail or are a caution, in their order.
[[nodiscard]] FindingPlaces finding_places(const Train& train, const std::vector<Finding>& findings);

}  // namespace couplet
