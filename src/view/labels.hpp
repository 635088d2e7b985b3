// Labels: where texts stand in a picture so that none covers another.
//
// Pixels, x to the right, y down, from the picture's top left corner. Each text stands near its anchor, in one of a few
// places around it, the nearest that is free of other texts, of anchors and of the picture's edges; the more important
// choose first, and those that find no room are left out. The same wishes give the same places; a text keeps to its
// earlier side where it can (`earlier`), so that moving anchors do not make texts jump about.
#pragma once

#include <cstddef>
#include <glm/vec2.hpp>
#include <optional>
#include <vector>

namespace couplet {

struct LabelWish {
    glm::vec2 anchor_px{0.0F};
    glm::vec2 size_px{0.0F};
    int importance = 0;
    std::optional<int> earlier_side;  // PlacedLabel::side of the last picture
};

struct PlacedLabel {
    std::size_t wish = 0;
    glm::vec2 top_left_px{0.0F};
    int side = 0;
};

[[nodiscard]] std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, glm::vec2 picture_px);

}  // namespace couplet
