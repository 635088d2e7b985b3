#include "tooth/active_path.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace couplet {

namespace {

// With curvature radii of both flanks where they touch; a flank's speed of rolling is its radius x its rate.
std::optional<double> specific_sliding(double own_mm, double other_mm, double other_turns_per_own) {
    constexpr double kSharp_mm = 1e-9;
    if (own_mm < kSharp_mm) return std::nullopt;
    return 1.0 - other_mm * other_turns_per_own / own_mm;
}

}  // namespace

ActivePath active_path(const ToothProfile& first, const ToothProfile& second, const PairSizes& pair) {
    const double sense = second.sizes.spec.internal ? -1.0 : 1.0;
    const double first_to_pitch = tangent_length_mm(first.sizes, pair.first_operating_diameter_mm);
    const double second_to_pitch = tangent_length_mm(second.sizes, pair.second_operating_diameter_mm);
    const double first_inner = first.flank.base_radius_mm * first.flank.inner_roll;
    const double second_base = second.flank.base_radius_mm;
    const double second_root = second_base * (sense > 0.0 ? second.flank.inner_roll : second.flank.outer_roll);

    ActivePath path{};
    path.start_mm = std::max(pair.path_start_mm, first_inner - first_to_pitch);
    path.end_mm = std::min(pair.path_end_mm, sense * (second_to_pitch - second_root));
    if (path.end_mm <= path.start_mm) return path;
    const double base_pitch_mm = 2.0 * std::numbers::pi * first.flank.base_radius_mm / first.sizes.spec.teeth;
    path.contact_ratio = (path.end_mm - path.start_mm) / base_pitch_mm;

    const double first_per_second = static_cast<double>(second.sizes.spec.teeth) / first.sizes.spec.teeth;
    path.first_sliding = specific_sliding(first_to_pitch + path.start_mm, second_to_pitch - sense * path.start_mm,
                                          1.0 / first_per_second);
    path.second_sliding =
        specific_sliding(second_to_pitch - sense * path.end_mm, first_to_pitch + path.end_mm, first_per_second);
    return path;
}

}  // namespace couplet
