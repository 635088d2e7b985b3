// Basic rack: the straight-sided tooth that defines a gear's teeth in its normal section.
//
// Lengths are multiples of the normal module, angles in radians (ISO 53:1998, which calls them alpha_P, h_aP, h_fP and
// rho_fP). A rack is sound where its fillet fits between the flanks and the root line.
#pragma once

#include <optional>

namespace couplet {

struct BasicRack {
    double pressure_angle_rad;
    double addendum;
    double dedendum;
    double root_radius;
};

// ISO 53:1998, table 1: profiles A, B, C and D; nothing for any other name.
[[nodiscard]] std::optional<BasicRack> iso_53_rack(char profile);

// The largest fillet radius that the rack's bottom has room for, x module: where both fillets meet in the middle of the
// space. Zero or less: the flanks meet before the root line.
[[nodiscard]] double largest_root_radius(const BasicRack& rack);

// The fillet radius that leaves the flank straight down to the mating rack's tip, x module: what fits into the
// clearance of dedendum over addendum.
[[nodiscard]] double root_radius_in_clearance(const BasicRack& rack);

}  // namespace couplet
