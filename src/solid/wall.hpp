// Wall: the side of a body, a contour drawn along Z, its edges broken by chamfers, twisted at will.
//
// Lengths in mm, angles in radians. A chamfer is as wide as it is high. The loops where the wall ends are the edges of
// the faces that close the body.
#pragma once

#include "solid/contour.hpp"

namespace couplet {

struct WallSpan {
    double bottom_mm;
    double top_mm;
    double bottom_chamfer_mm = 0.0;
    double top_chamfer_mm = 0.0;
};

struct Twist {
    double rad_per_mm = 0.0;  // counter-clockwise going up: right-handed
    double level_mm = 0.0;    // where the contour stands as it is
    int slices = 1;           // along Z

    [[nodiscard]] double at(double z_mm) const { return (z_mm - level_mm) * rad_per_mm; }
};

struct WallEnds {
    Loop bottom;
    Loop top;
};

WallEnds add_wall(Solid& solid, const Contour& contour, const WallSpan& span, const Twist& twist = {});

}  // namespace couplet
