// Mesh groups: gears that stand in one layer because they are in mesh, and which groups cannot share a height.
//
// METHOD    1  Two gears clash where their bodies can meet in plan and no mesh joins them.
//           2  Gears joined by meshes are one group, unless two of them clash. Their meshes are then dealt out: each
//              goes to the first group that has one of its gears and no gear that clashes, or begins a new one. A gear
//              may so be in several groups, as a sun is that is in mesh with two sets of planets.
//           3  Two groups exclude each other where they share a member or where two of their gears clash.
#pragma once

#include <vector>

#include "solid/anatomy.hpp"

namespace couplet {

struct MeshGroups {
    std::vector<std::vector<GearIndex>> gears;     // by group
    std::vector<std::vector<int>> groups_of;       // by gear, rising
    std::vector<std::vector<GearIndex>> clashing;  // by gear; empty where nothing clashes
    std::vector<std::vector<int>> excluded;        // by group: those that cannot share its height, rising

    [[nodiscard]] int size() const { return static_cast<int>(gears.size()); }
};

[[nodiscard]] MeshGroups mesh_groups(const Train& train, const Placement& placement, const Anatomy& anatomy);

}  // namespace couplet
