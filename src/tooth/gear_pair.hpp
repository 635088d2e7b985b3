// Gear pair: two gears in mesh, at the centre distance that their shifts give or at one that is set.
//
// The first gear is external; the second may be internal. Lengths in mm, angles in radians, transverse unless they say
// normal. Thinning never moves the centres: the shifts alone place them, and thinning opens the backlash. Formulas by
// ISO 21771:2007, clauses 5 and 6 (from memory of the clauses; the numbers are checked in tests/published).
#pragma once

#include <optional>

#include "tooth/gear.hpp"

namespace couplet {

struct PairSizes {
    double reference_centre_mm;  // a: of the reference circles
    double centre_distance_mm;   // a_w: operating
    double operating_angle_rad;  // alpha_wt
    double first_operating_diameter_mm;
    double second_operating_diameter_mm;
    double transverse_contact_ratio;  // eps_alpha of the handbooks: of the path between the tip circles, whether or not
                                      // the partner has an involute there (active_path.hpp looks)
    double overlap_ratio;             // eps_beta
    double circular_backlash_mm;      // at the operating circles
    double normal_backlash_mm;        // along the line of action, in the normal section
    double first_backlash_rad;        // turning play of each gear, the other held
    double second_backlash_rad;
    double first_root_clearance_mm;  // from the second gear's tip to the first gear's root circle
    double second_root_clearance_mm;
    double path_start_mm;  // along the line of action from the pitch point, towards where the first gear's
                           // tip touches: the second gear's tip, below 0 in a usual pair
    double path_end_mm;    // the first gear's tip
};

// The operating angle of two gears at the centre distance that their shifts give: inv a_wt = inv a_t + 2 tan(a_n)
// (x1 +- x2) / (z1 +- z2), minus for an internal second gear with z2 - z1. Nothing where there is none: the shifts
// bring the centres closer than the base circles allow, or an internal pair has equal teeth.
[[nodiscard]] std::optional<double> operating_angle_of(const GearSpec& first, const GearSpec& second);

// Where both base circles touch, an internal second one from inside: no mesh is possible at a smaller centre distance.
[[nodiscard]] double base_distance_mm(const GearSizes& first, const GearSizes& second);

// The centre distance at an operating angle, and the reverse (nothing where the base circles do not allow it).
[[nodiscard]] double centre_distance_at(const GearSpec& first, const GearSpec& second, double operating_angle_rad);
[[nodiscard]] std::optional<double> operating_angle_at(const GearSpec& first, const GearSpec& second,
                                                       double centre_distance_mm);

// x1 + x2 (external) or x2 - x1 (internal) that gives the operating angle without backlash.
[[nodiscard]] double shift_sum_for(const GearSpec& first, const GearSpec& second, double operating_angle_rad);

// How much both teeth of an external pair are shortened so that the tip clearance of the rack stays: k = y - (x1 + x2),
// 0 or less; 0 for an internal pair.
[[nodiscard]] double tip_change_for(const GearSpec& first, const GearSpec& second, double operating_angle_rad);

[[nodiscard]] PairSizes pair_sizes(const GearSizes& first, const GearSizes& second, double operating_angle_rad);

}  // namespace couplet
