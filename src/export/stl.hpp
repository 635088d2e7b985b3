// STL: one body as a bare list of triangles, in binary, in mm.
//
// Each part of the body is a closed shell. Normals are those of the triangles' winding.
//
// Source: the format's description by its maker, 3D Systems, Stereolithography Interface Specification, 1989 (from
// memory): 80 bytes of heading, the number of triangles, and for each its normal, its corners and two spare bytes.
#pragma once

#include <string>

#include "export/member_body.hpp"

namespace couplet {

struct StlOptions {
    double tolerance_mm = 0.01;  // how far a chord may leave its curve; above 0
};

[[nodiscard]] std::string stl_of(const Machine& machine, const MemberBody& body, const StlOptions& options);

}  // namespace couplet
