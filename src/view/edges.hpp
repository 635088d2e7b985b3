// Edges: the lines that a technical drawing of a solid is made of.
//
// Every edge where two triangles meet that do not lie in one plane, with the normals of both: whether it is drawn
// depends on the eye. Part frame, mm.
#pragma once

#include <array>
#include <vector>

#include "solid/solid.hpp"

namespace couplet {

struct SolidEdge {
    std::array<float, 3> from_mm;
    std::array<float, 3> to_mm;
    std::array<float, 3> first_normal;  // of the flat triangles
    std::array<float, 3> second_normal;
};

[[nodiscard]] std::vector<SolidEdge> edges_of(const Solid& solid);

}  // namespace couplet
