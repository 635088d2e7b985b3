// ToothedPart: the teeth of a gear or a ring as a twisted wall, and the flat faces at its ends.
//
// A face is a strip for each tooth, between its flanks, and a band between the foot of the teeth and another loop: the
// bore or the rim of a gear, the outside of a ring. The marked tooth and the sector of the band at its foot are one
// region round the inlaid mark. From z = 0 up, lengths in mm, angles in radians.
#pragma once

#include <optional>
#include <vector>

#include "solid/flat_face.hpp"
#include "solid/holes.hpp"
#include "solid/tooth_contour.hpp"
#include "solid/wall.hpp"

namespace couplet {

struct ToothedPart {
    ToothProfile profile;
    ToothContour outline;
    double width_mm;
    double chamfer_mm;  // that has room
    Twist twist;
    bool marked;
    double tolerance_mm;
    std::size_t strip_from;         // the point of a tooth from which its strip goes on to the tip
    std::vector<std::size_t> foot;  // the points of the band's edge; the marked tooth's first, from root to root
};

// At least three teeth, a width above 0.
[[nodiscard]] ToothedPart toothed_part(const ToothProfile& profile, double width_mm, double chamfer_mm, bool marked,
                                       double tolerance_mm);

// One end of the part.
struct ToothedEnd {
    Loop teeth;
    Loop foot;
    double turned_rad;              // by the twist
    std::optional<Opening> mark{};  // inlaid
};

struct ToothedEnds {
    ToothedEnd bottom;
    ToothedEnd top;
};

ToothedEnds add_teeth(Solid& solid, const ToothedPart& part);

// Finds room for the marks of a marked part, each between the teeth and the loop on the far side of the band. Where an
// end has none, the part is no longer marked.
void find_marks(ToothedPart& part, ToothedEnds& ends, const Loop& bottom_other, const Loop& top_other);

// The face at an end, as far as the `other` loop, with openings beside the mark.
void add_toothed_face(Solid& solid, const ToothedPart& part, const ToothedEnd& end, bool up, const Loop& other,
                      std::vector<Opening> openings = {});

}  // namespace couplet
