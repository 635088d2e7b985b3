// Solid: a part as a closed triangle mesh on the CPU, with what each of its surfaces is.
//
// Frame: the part's own, right-handed, its axis on +Z, lengths in mm. Triangles run counter-clockwise seen from
// outside, normals have unit length and point outwards. A solid is closed: every edge of a triangle is met by exactly
// one other triangle along it in the opposite sense, positions being equal to the last bit; at a sharp edge a position
// occurs in several vertices with different normals. A pure value: only the view uploads it, only an export writes it.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace couplet {

// What a surface is, for its finish in the picture.
enum class Surface : std::uint8_t {
    turned,  // faced or turned on a lathe: fine tool marks round the part's axis
    ground,  // smooth: flanks, roots, bores, chamfers
    milled,  // flat, without a direction: plates
    mark     // inlaid enamel: the tooth mark
};

struct SolidVertex {
    std::array<float, 3> position_mm;
    std::array<float, 3> normal;
    Surface surface;

    friend bool operator==(const SolidVertex&, const SolidVertex&) = default;
};

struct Solid {
    std::vector<SolidVertex> vertices;
    std::vector<std::array<std::uint32_t, 3>> triangles;
};

}  // namespace couplet
