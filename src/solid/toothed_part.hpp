// ToothedPart: the teeth of a gear or a ring as a twisted wall, and the flat faces at its ends.
//
// A face is a strip for each tooth, between its flanks, and a band between the foot of the teeth and another loop: the
// bore or the rim of a gear, the outside of a ring. In the marked tooth's strip lies the inlaid mark. From z = 0 up,
// lengths in mm, angles in radians.
#pragma once

#include <optional>
#include <vector>

#include "solid/flat_face.hpp"
#include "solid/holes.hpp"
#include "solid/tooth_contour.hpp"
#include "solid/tooth_mark.hpp"
#include "solid/wall.hpp"

namespace couplet {

struct ToothedPart {
    ToothContour outline;
    double width_mm;
    double chamfer_mm;  // that has room
    Twist twist;
    double tolerance_mm;
    std::vector<PlanePoint> first_tooth;  // its points on a face
    std::size_t strip_from;               // the point of a tooth from which its strip goes on towards the tip
    std::size_t strip_to;                 // and the one up to which it goes; the rest is the tip
    std::vector<std::size_t> foot;        // the points of the band's edge
    std::optional<ToothMark> mark;
};

// At least three teeth, a width above 0.
[[nodiscard]] ToothedPart toothed_part(const ToothProfile& profile, double width_mm, double chamfer_mm, bool marked,
                                       double tolerance_mm);

// One end of the part.
struct ToothedEnd {
    Loop teeth;
    Loop foot;
    double turned_rad;  // by the twist
};

struct ToothedEnds {
    ToothedEnd bottom;
    ToothedEnd top;
};

ToothedEnds add_teeth(Solid& solid, const ToothedPart& part);

// The face at an end, as far as the `other` loop, with openings in the band.
void add_toothed_face(Solid& solid, const ToothedPart& part, const ToothedEnd& end, bool up, const Loop& other,
                      std::vector<Opening> openings = {});

}  // namespace couplet
