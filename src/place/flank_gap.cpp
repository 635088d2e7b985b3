#include "place/flank_gap.hpp"

#include <cmath>
#include <numbers>

namespace couplet {

std::optional<FlankGap> flank_gap(const GearSizes& first, const GearSizes& second, double centre_distance_mm,
                                  double miss_pitches) {
    const std::optional<double> angle = operating_angle_at(first.spec, second.spec, centre_distance_mm);
    if (!angle) return std::nullopt;
    FlankGap gap{};
    gap.pair = pair_sizes(first, second, *angle);
    const double base_pitch_mm =
        std::numbers::pi * first.base_diameter_mm / first.spec.teeth * std::cos(first.base_helix_rad);
    const double centred_mm = gap.pair.normal_backlash_mm / 2.0;
    gap.ahead_mm = centred_mm + miss_pitches * base_pitch_mm;
    gap.behind_mm = centred_mm - miss_pitches * base_pitch_mm;
    gap.contact = gap.pair.path_end_mm > gap.pair.path_start_mm;
    return gap;
}

}  // namespace couplet
