#include "tooth/basic_rack.hpp"

#include <cmath>
#include <numbers>

namespace couplet {

std::optional<BasicRack> iso_53_rack(char profile) {
    constexpr double kAngle = 20.0 * std::numbers::pi / 180.0;
    switch (profile) {
        case 'A':
            return BasicRack{kAngle, 1.0, 1.25, 0.38};
        case 'B':
            return BasicRack{kAngle, 1.0, 1.25, 0.30};
        case 'C':
            return BasicRack{kAngle, 1.0, 1.25, 0.25};
        case 'D':
            return BasicRack{kAngle, 1.0, 1.40, 0.39};
        default:
            return std::nullopt;
    }
}

// Half the root land, pi/4 - h_fP tan(alpha), is r tan((90 deg - alpha) / 2) long where the fillets meet.
double largest_root_radius(const BasicRack& rack) {
    const double half_land = std::numbers::pi / 4 - rack.dedendum * std::tan(rack.pressure_angle_rad);
    return half_land / std::tan((std::numbers::pi / 2 - rack.pressure_angle_rad) / 2);
}

double root_radius_in_clearance(const BasicRack& rack) {
    return (rack.dedendum - rack.addendum) / (1.0 - std::sin(rack.pressure_angle_rad));
}

}  // namespace couplet
