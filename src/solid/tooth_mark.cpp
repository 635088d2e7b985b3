#include "solid/tooth_mark.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

// Where a slot would reach that took no heed of the tooth's room: from its tip end's edge to its root end's.
ToothMark wished_mark(const GearSizes& sizes) {
    constexpr double kBelowTip_modules = 0.25;
    constexpr double kBelowPitch_modules = 1.9;
    constexpr double kHalfWidth = 0.24;  // of the thickness at the pitch circle
    const double to_tip = sizes.spec.internal ? -1.0 : 1.0;
    const double module = sizes.spec.module_mm;
    return {sizes.tip_diameter_mm / 2.0 - to_tip * kBelowTip_modules * module,
            sizes.pitch_diameter_mm / 2.0 - to_tip * kBelowPitch_modules * module,
            kHalfWidth * sizes.pitch_thickness_mm};
}

bool is_clear(const std::vector<PlanePoint>& boundary, double from_mm, double to_mm, double room_mm) {
    const PlanePoint from{from_mm, 0.0};
    const PlanePoint to{to_mm, 0.0};
    for (std::size_t i = 0; i < boundary.size(); ++i) {
        const PlanePoint& a = boundary[i];
        const PlanePoint& b = boundary[i + 1 == boundary.size() ? 0 : i + 1];
        if (distance_to_segment(a, from, to) < room_mm || distance_to_segment(from, a, b) < room_mm ||
            distance_to_segment(to, a, b) < room_mm)
            return false;
    }
    return true;
}

// The first clear place for the middle of an end, on the way from where it is wished to the other end.
std::optional<double> clear_end(const std::vector<PlanePoint>& tooth, double wished_mm, double other_mm,
                                double room_mm) {
    constexpr int kSteps = 24;
    for (int i = 0; i < kSteps; ++i) {
        const double at = wished_mm + (other_mm - wished_mm) * i / kSteps;
        if (is_clear(tooth, at, at, room_mm)) return at;
    }
    return std::nullopt;
}

// The longest mark of one width with metal left all round it.
std::optional<ToothMark> mark_of_width(const std::vector<PlanePoint>& tooth, const ToothMark& wished,
                                       double half_width_mm) {
    constexpr double kEdge = 1.3;  // metal that is left, with the half width
    const double room = kEdge * half_width_mm;
    const double to_tip = wished.to_tip();
    const double foot = to_tip * tooth.front().x_mm + room;
    const double tip = wished.tip_mm - to_tip * half_width_mm;
    const double root = to_tip * std::max(foot, to_tip * wished.root_mm + half_width_mm);
    if (to_tip * (tip - root) <= 0.0) return std::nullopt;
    const auto clear_tip = clear_end(tooth, tip, root, room);
    const auto clear_root = clear_end(tooth, root, tip, room);
    if (!clear_tip || !clear_root || to_tip * (*clear_tip - *clear_root) <= half_width_mm) return std::nullopt;
    if (!is_clear(tooth, *clear_tip, *clear_root, room)) return std::nullopt;
    return ToothMark{*clear_tip, *clear_root, half_width_mm};
}

}  // namespace

std::optional<ToothMark> mark_in_tooth(const GearSizes& sizes, const std::vector<PlanePoint>& tooth) {
    constexpr int kWidths = 10;
    constexpr double kNarrower = 0.8;
    const ToothMark wished = wished_mark(sizes);
    double half_width = wished.half_width_mm;
    for (int i = 0; i < kWidths; ++i, half_width *= kNarrower)
        if (const auto mark = mark_of_width(tooth, wished, half_width)) return mark;
    return std::nullopt;
}

Loop mark_loop(const ToothMark& mark, double turned_rad, float z_mm, double tolerance_mm) {
    const int quarter = circle_sides(mark.half_width_mm, tolerance_mm, 4) / 4;
    const double half_pi = std::numbers::pi / 2.0;
    Loop loop;
    // The angle from the direction to the tip.
    const auto add = [&](double middle_mm, double angle_rad, double side) {
        const PlanePoint round = direction_at(angle_rad);
        const PlanePoint p = turned_by(
            {middle_mm + mark.to_tip() * mark.half_width_mm * round.x_mm, side * mark.half_width_mm * round.y_mm},
            turned_rad);
        loop.push_back({static_cast<float>(p.x_mm), static_cast<float>(p.y_mm), z_mm});
    };
    for (int i = 0; i <= quarter; ++i) add(mark.root_mm, half_pi * (2.0 - static_cast<double>(i) / quarter), -1.0);
    for (int i = quarter; i >= 0; --i) add(mark.tip_mm, half_pi * i / quarter, -1.0);
    for (int i = 1; i <= quarter; ++i) add(mark.tip_mm, half_pi * i / quarter, 1.0);
    for (int i = 0; i < quarter; ++i) add(mark.root_mm, half_pi * (1.0 + static_cast<double>(i) / quarter), 1.0);
    return loop;
}

}  // namespace couplet
