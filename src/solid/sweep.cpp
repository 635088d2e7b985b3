#include "solid/sweep.hpp"

#include <algorithm>
#include <cmath>

namespace couplet {

namespace {

constexpr double kTouching_mm = 1e-6;
constexpr PlaceIndex kOnFrame{-1};
constexpr std::int64_t kMostCells = 64;

int depth_of(const Placement& placement, PlaceIndex body) {
    int depth = 0;
    for (; body != kOnFrame; body = placement[body].under) ++depth;
    return depth;
}

// The deepest body that both are or ride on.
PlaceIndex common_body(const Placement& placement, PlaceIndex a, PlaceIndex b) {
    int depth_a = depth_of(placement, a);
    int depth_b = depth_of(placement, b);
    for (; depth_a > depth_b; --depth_a) a = placement[a].under;
    for (; depth_b > depth_a; --depth_b) b = placement[b].under;
    while (a != b) {
        a = placement[a].under;
        b = placement[b].under;
    }
    return a;
}

double distance(const PlanePoint& a, const PlanePoint& b) {
    return std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
}

Band swept_on(const Placement& placement, Band band, PlaceIndex body) {
    while (band.body != body) {
        const Place& place = placement[band.body];
        const double away = distance(band.centre_mm, place.centre_mm);
        if (away > kTouching_mm) {
            band.inner_mm = std::max({0.0, away - band.outer_mm, band.inner_mm - away});
            band.outer_mm += away;
            band.centre_mm = place.centre_mm;
        }
        band.body = place.under;
    }
    return band;
}

bool rings_overlap(const Band& a, const Band& b) {
    const double away = distance(a.centre_mm, b.centre_mm);
    return away < a.outer_mm + b.outer_mm - kTouching_mm && away + a.outer_mm > b.inner_mm + kTouching_mm &&
           away + b.outer_mm > a.inner_mm + kTouching_mm;
}

bool heights_overlap(const Span& a, const Span& b) {
    return a.bottom_mm < b.top_mm - kTouching_mm && b.bottom_mm < a.top_mm - kTouching_mm;
}

}  // namespace

bool can_meet_in_plan(const Placement& placement, const Band& a, const Band& b) {
    if (a.body == b.body) return false;
    const PlaceIndex common = common_body(placement, a.body, b.body);
    return rings_overlap(swept_on(placement, a, common), swept_on(placement, b, common));
}

bool can_meet(const Placement& placement, const Band& a, const Band& b) {
    return heights_overlap(a.span, b.span) && can_meet_in_plan(placement, a, b);
}

Band swept_on_frame(const Placement& placement, const Band& band) {
    return swept_on(placement, band, kOnFrame);
}

Surroundings::Surroundings(const Placement& placement, double cell_mm, double cell_height_mm)
    : placement_(placement), cell_mm_(std::max(cell_mm, 1e-3)), cell_height_mm_(std::max(cell_height_mm, 1e-3)) {}

Surroundings::Cells Surroundings::cells_of(const Band& band) const {
    const Band swept = swept_on_frame(placement_, band);
    const auto cell = [](double at_mm, double size_mm) { return std::llround(std::floor(at_mm / size_mm)); };
    return {cell(swept.centre_mm.x_mm - swept.outer_mm, cell_mm_),
            cell(swept.centre_mm.x_mm + swept.outer_mm, cell_mm_), cell(swept.span.bottom_mm, cell_height_mm_),
            cell(swept.span.top_mm, cell_height_mm_)};
}

void Surroundings::add(const Band& band) {
    const Cells cells = cells_of(band);
    const std::size_t position = bands_.size();
    bands_.push_back(band);
    if ((cells.right - cells.left + 1) * (cells.high - cells.low + 1) > kMostCells) {
        large_.push_back(position);
        return;
    }
    for (std::int64_t x = cells.left; x <= cells.right; ++x)
        for (std::int64_t z = cells.low; z <= cells.high; ++z)
            in_cell_[x * (std::int64_t{1} << 32) + z].push_back(position);
}

template <class Visit>
void Surroundings::each_near(const Band& band, Visit visit) const {
    const Cells cells = cells_of(band);
    if ((cells.right - cells.left + 1) * (cells.high - cells.low + 1) > kMostCells) {
        for (std::size_t i = 0; i < bands_.size(); ++i)
            if (!visit(i)) return;
        return;
    }
    for (const std::size_t i : large_)
        if (!visit(i)) return;
    for (std::int64_t x = cells.left; x <= cells.right; ++x)
        for (std::int64_t z = cells.low; z <= cells.high; ++z) {
            const auto found = in_cell_.find(x * (std::int64_t{1} << 32) + z);
            if (found == in_cell_.end()) continue;
            for (const std::size_t i : found->second)
                if (!visit(i)) return;
        }
}

bool Surroundings::is_clear(const Band& band) const {
    bool clear = true;
    each_near(band, [&](std::size_t i) {
        clear = !can_meet(placement_, band, bands_[i]);
        return clear;
    });
    return clear;
}

std::vector<std::size_t> Surroundings::meeting(const Band& band) const {
    std::vector<std::size_t> found;
    each_near(band, [&](std::size_t i) {
        if (can_meet(placement_, band, bands_[i])) found.push_back(i);
        return true;
    });
    std::ranges::sort(found);
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

}  // namespace couplet
