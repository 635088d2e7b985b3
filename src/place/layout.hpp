// Layout: where the axes stand that ride on one member, seen from that member.
//
// A part of placement.hpp, which gives the method. Node 0 is the carrier's own axis, at the origin (unused on the
// frame); nodes from 1 on are axes that ride there, each shared by coaxial members. Positions are those of the first
// copy.
#pragma once

#include <vector>

#include "place/angle.hpp"
#include "tooth/profile.hpp"
#include "train/finding.hpp"
#include "train/train.hpp"

namespace couplet {

struct LaidAxis {
    std::vector<MemberIndex> members;
    int copies = 1;
    double reach_mm = 0.0;  // of all that stands on it, from the axis
    int hub = 0;            // the node that its copies are spread round
    Angle direction;        // from the node that it was placed by
    PlanePoint position_mm{};
    bool starts_group = false;  // placed by nothing
    bool placed = false;
    int order = 0;  // in which the axes were placed
};

struct LaidMesh {
    MeshIndex mesh;
    int first = 0;  // nodes
    int second = 0;
    double distance_mm = 0.0;
    bool internal = false;
    Angle direction;  // from first to second, first copies
};

struct CarrierLayout {
    MemberIndex carrier = kFrame;
    std::vector<LaidAxis> axes{1};
    std::vector<LaidMesh> meshes;
};

// Places every axis. Triangles that do not close are findings. New directions are added to the list.
void lay_out(const Train& train, CarrierLayout& layout, std::vector<double>& direction_turns,
             std::vector<Finding>& findings);

// Where copy k (from 0) of a node stands.
[[nodiscard]] PlanePoint position_of(const Train& train, const CarrierLayout& layout, int node, int k);

// How far the layout reaches from its origin.
[[nodiscard]] double reach_of(const CarrierLayout& layout);

}  // namespace couplet
