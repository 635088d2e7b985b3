#include "view/labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/common.hpp>
#include <numeric>
#include <utility>

namespace couplet {
namespace {

constexpr float kNear_px = 6.0F;  // from the anchor to the text
constexpr float kFar_px = 26.0F;
constexpr float kClear_px = 2.0F;  // left free round a text

// Where a text may stand: its middle lies off the anchor in this direction.
struct Side {
    glm::vec2 direction;
    float gap_px;
};

// From the side that is liked best to the one that is liked least; PlacedLabel::side counts them.
constexpr std::array<Side, 16> kSides = {{
    {{1.0F, 0.0F}, kNear_px},
    {{-1.0F, 0.0F}, kNear_px},
    {{0.0F, -1.0F}, kNear_px},
    {{0.0F, 1.0F}, kNear_px},
    {{1.0F, -1.0F}, kNear_px},
    {{-1.0F, -1.0F}, kNear_px},
    {{1.0F, 1.0F}, kNear_px},
    {{-1.0F, 1.0F}, kNear_px},
    {{1.0F, -1.0F}, kFar_px},
    {{-1.0F, -1.0F}, kFar_px},
    {{1.0F, 1.0F}, kFar_px},
    {{-1.0F, 1.0F}, kFar_px},
    {{0.0F, -1.0F}, kFar_px},
    {{0.0F, 1.0F}, kFar_px},
    {{1.0F, 0.0F}, kFar_px},
    {{-1.0F, 0.0F}, kFar_px},
}};

struct Box {
    glm::vec2 from;
    glm::vec2 to;
};

Box box_at(const LabelWish& wish, const Side& side) {
    // Along an axis the gap is whole; in a corner the two gaps together are as far from the anchor.
    const float gap = side.gap_px / std::hypot(side.direction.x, side.direction.y);
    const glm::vec2 middle = wish.anchor_px + side.direction * (0.5F * wish.size_px + gap);
    const glm::vec2 from = glm::floor(middle - 0.5F * wish.size_px + 0.5F);  // whole pixels keep letters sharp
    return {from, from + wish.size_px};
}

bool overlap(const Box& a, const Box& b) {
    return a.from.x < b.to.x && b.from.x < a.to.x && a.from.y < b.to.y && b.from.y < a.to.y;
}

bool is_within(const Box& box, glm::vec2 picture_px) {
    return box.from.x >= 0 && box.from.y >= 0 && box.to.x <= picture_px.x && box.to.y <= picture_px.y;
}

// What is taken, sorted into cells: a text asks only the cells that it touches.
class TakenPlaces {
  public:
    explicit TakenPlaces(glm::vec2 picture_px) : cells_per_px_(static_cast<float>(kCells) / picture_px) {}

    // The box lies within the picture.
    void take(const Box& box) {
        for_cells(box, [&](std::vector<Box>& cell) {
            cell.push_back(box);
            return true;
        });
    }

    [[nodiscard]] bool is_free(const Box& box) {
        const Box wanted{box.from - kClear_px, box.to + kClear_px};
        return for_cells(wanted, [&](const std::vector<Box>& cell) {
            return std::ranges::none_of(cell, [&](const Box& taken) { return overlap(taken, wanted); });
        });
    }

  private:
    static constexpr std::size_t kCells = 32;  // each way

    // Stops, and says false, where the visit does.
    template <class Visit>
    bool for_cells(const Box& box, Visit visit) {
        const auto cell_of = [](float px, float cells_per_px) {
            return static_cast<std::size_t>(std::clamp(px * cells_per_px, 0.0F, kCells - 1.0F));
        };
        for (std::size_t y = cell_of(box.from.y, cells_per_px_.y); y <= cell_of(box.to.y, cells_per_px_.y); ++y)
            for (std::size_t x = cell_of(box.from.x, cells_per_px_.x); x <= cell_of(box.to.x, cells_per_px_.x); ++x)
                if (!visit(cells_[y * kCells + x])) return false;
        return true;
    }

    glm::vec2 cells_per_px_;
    std::array<std::vector<Box>, kCells * kCells> cells_;
};

// The more important first; of equals those that stood in the last picture, so that a newcomer takes no place of
// theirs.
std::vector<std::size_t> order_of_choice(const std::vector<LabelWish>& wishes) {
    std::vector<std::size_t> order(wishes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::greater{}, [&](std::size_t i) {
        return std::pair(wishes[i].importance, wishes[i].earlier_side.has_value());
    });
    return order;
}

std::optional<PlacedLabel> placed(const LabelWish& wish, std::size_t index, TakenPlaces& places, glm::vec2 picture_px) {
    if (!(wish.size_px.x > 0 && wish.size_px.y > 0)) return std::nullopt;
    const auto try_side = [&](int side) -> std::optional<PlacedLabel> {
        const Box box = box_at(wish, kSides[static_cast<std::size_t>(side)]);
        if (!is_within(box, picture_px) || !places.is_free(box)) return std::nullopt;
        places.take(box);
        return PlacedLabel{index, box.from, side};
    };
    const int sides = static_cast<int>(kSides.size());
    const int earlier = wish.earlier_side.value_or(-1);
    if (earlier >= 0 && earlier < sides)
        if (const auto label = try_side(earlier)) return label;
    for (int side = 0; side < sides; ++side)
        if (const auto label = try_side(side)) return label;
    return std::nullopt;
}

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, glm::vec2 picture_px) {
    if (!(picture_px.x > 0 && picture_px.y > 0)) return {};
    TakenPlaces places(picture_px);
    for (const LabelWish& wish : wishes) {
        const Box point{wish.anchor_px, wish.anchor_px};
        if (is_within(point, picture_px)) places.take(point);
    }
    std::vector<PlacedLabel> labels;
    for (const std::size_t i : order_of_choice(wishes))
        if (const auto label = placed(wishes[i], i, places, picture_px)) labels.push_back(*label);
    std::ranges::sort(labels, {}, &PlacedLabel::wish);
    return labels;
}

}  // namespace couplet
