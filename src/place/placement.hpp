// Placement: where every member and every copy stands in the start pose.
//
// Frames: in the start pose every member's own frame lies parallel to the frame's, and directions count from +X,
// counter-clockwise. A place is one copy of a member; a member that rides on something with copies has its own copies
// on each of them. Lengths in mm, exact angles in turns.
//
// METHOD    1  Members that ride on the same thing are coaxial where a mesh says so: in a mesh whose arm is a carrier,
//              the gear that does not ride on the carrier stands on the carrier's own axis.
//           2  On each carrier, the carried axes stand at the centre distance of their mesh with the carrier's own
//           axis,
//              at k / copies of a turn or at the places given. An axis in mesh with two that are placed completes the
//              triangle, counter-clockwise of the first; an axis in mesh with just one goes on in a straight line, or
//              stands where its `at` says.
//           3  The same on the frame, beginning at the origin along +X; copies on the frame are spread round the axis
//              that they mesh with, and a further single axis in mesh with them stands there too. An internal mesh
//              leads a chain back. Groups that no mesh joins are laid beside each other without touching.
//           4  Carriers first, each copy then gets all copies that ride on it.
//
// A direction out of a triangle is a symbol (angle.hpp) unless its cosine is 0, +-1/2 or +-1 to the last bits of a
// double: among the rational ones only these belong to rational angles (I. Niven, Irrational Numbers, 1956, 3.12).
#pragma once

#include <optional>
#include <vector>

#include "place/angle.hpp"
#include "tooth/train_teeth.hpp"
#include "train/finding.hpp"
#include "train/train.hpp"

namespace couplet {

using PlaceIndex = Index<struct Place>;
using PlacedMeshIndex = Index<struct PlacedMesh>;

struct Place {
    MemberIndex member;
    int copy = 1;      // from 1, counted over all places of what the member rides on
    int own_copy = 1;  // from 1, on its own carrier's copy: names the entry of `at`
    PlaceIndex under;  // the place that it rides on; -1: the frame
    // How far a copy-and-rotate turns the first copy to get this one.
    Ratio turns_from_first;
    PlanePoint centre_on_carrier_mm{};  // in the frame of what it rides on
    PlanePoint centre_mm{};             // in the frame
};

// A mesh of two places.
struct PlacedMesh {
    MeshIndex mesh;
    int copy = 1;       // from 1, among the places of this mesh
    PlaceIndex first;   // of the mesh's first gear
    PlaceIndex second;  // of its second
    Angle direction;    // from the first axis to the second, in turns
    double centre_distance_mm = 0.0;
    // True where the one gear is a copy that could stand elsewhere round the other, or both are carried round together.
    bool turns_with_copy = false;
};

struct Placement {
    std::vector<Place> places;       // of the first member all, then of the next
    std::vector<int> first_place;    // by member, and the end: places of m are [first_place[m], first_place[m + 1])
    std::vector<PlacedMesh> meshes;  // by mesh, then by copy
    std::vector<double> direction_turns;  // what the directions of an Angle stand for
    // Centre distances that disagree or do not exist, triangles that do not close, copies that cannot be paired.
    std::vector<Finding> findings;

    [[nodiscard]] const Place& operator[](PlaceIndex index) const { return places[index.position()]; }
};

// A train with more places than this is refused with std::length_error.
inline constexpr std::size_t kMostPlaces = 200000;

// The largest difference of two routes to a centre distance that still counts as agreement.
inline constexpr double kCentreDistanceLimit_mm = 1e-3;

// The train must have no faults; std::invalid_argument where a member's axis is not along +Z, std::length_error beyond
// kMostPlaces. What geometry does not allow is a finding: no number in the result is ever NaN.
[[nodiscard]] Placement place_members(const Train& train, const TrainTeeth& teeth);

}  // namespace couplet
