// Likeness: how alike two pictures of one size are to the eye, whatever the driver that drew them.
//
// Both are halved, which takes what one driver does differently from another at edges; then windows of 8 x 8 pixels are
// compared by structural similarity of their luminance (Z. Wang et al., Image Quality Assessment: From Error Visibility
// to Structural Similarity, 2004, equation 13 with its constants; from memory) and by their mean colours.
#pragma once

#include "view/image.hpp"

namespace couplet {

struct Likeness {
    double mean = 0.0;    // similarity of all windows; 1: the same
    double worst = 0.0;   // of the hundredth part of them that is least alike
    double colour = 0.0;  // the largest difference of two windows' mean colours, in levels of 255; 0: the same
};

// Alpha counts as another colour over white. Throws std::invalid_argument where the sizes differ or are below 16.
[[nodiscard]] Likeness likeness(const Image& a, const Image& b);

// Bounds between noise and mistakes, with room on both sides; golden_stills_test.cpp draws both kinds. Found there:
// noise 0.983, 0.82 and 7; one planet half a tooth too far 0.987, 0.32 and 10; a planet of another metal 1.000, 0.99
// and 39.
[[nodiscard]] inline bool looks_alike(const Likeness& found) {
    return found.mean >= 0.965 && found.worst >= 0.60 && found.colour <= 15.0;
}

}  // namespace couplet
