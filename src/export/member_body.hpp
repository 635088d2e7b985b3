// Member body: what is rigid of a machine: the parts of one member at one place, or the stand.
//
// Copies of a member are one body that stands at several places, each turned about the place's axis, unless their parts
// sit differently to each other (a carrier that rides in copies and whose own gear starts at another angle in each).
// Frame: that of the body's first place, +Z along its axis, z = 0 on top of the stand; lengths in mm.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "export/export_model.hpp"

namespace couplet {

struct MemberBody {
    std::string name;                // its member's, with the copy where a member has several bodies; "frame"
    std::vector<PlaceIndex> places;  // rising; {-1} alone: the frame
    std::vector<double> turned_rad;  // by entry of `places`: how far the body is turned there, against the first
    std::vector<std::size_t> parts;  // in Machine::parts, at the first place
};

// In the order of the places, the frame first; only those with parts.
[[nodiscard]] std::vector<MemberBody> member_bodies(const ExportModel& model);

// The body's parts as closed shells, one part after another. Each shell's points are its own, and different to the last
// bit; triangles run counter-clockwise seen from outside.
struct BodyMesh {
    std::vector<std::array<float, 3>> points_mm;
    std::vector<std::array<std::uint32_t, 3>> triangles;
};

// Tolerance above 0: how far a chord may leave its curve.
[[nodiscard]] BodyMesh body_mesh(const Machine& machine, const MemberBody& body, double tolerance_mm);

}  // namespace couplet
