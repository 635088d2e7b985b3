#include "tooth/meshing.hpp"

#include <algorithm>
#include <cmath>

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

Outline upper_half_of(const Outline& tooth) {
    Outline upper;
    std::ranges::copy_if(tooth, std::back_inserter(upper), [](const PlanePoint& p) { return p.y_mm >= 0.0; });
    return upper;
}

}  // namespace

Meshing::Meshing(const GearSpec& first, const GearSpec& second, double operating_angle_rad, double tolerance_mm)
    : first_(profile_for(first)),
      second_(profile_for(second)),
      pair_(pair_sizes(first_.sizes, second_.sizes, operating_angle_rad)),
      first_upper_(upper_half_of(open_tooth(first_, tolerance_mm))),
      second_tooth_(open_tooth(second_, tolerance_mm)) {}

std::vector<Meshing::Facing> Meshing::facing(double first_turned_rad) const {
    const int first_teeth = first_.sizes.spec.teeth;
    const int second_teeth = second_.sizes.spec.teeth;
    const bool internal = second_.sizes.spec.internal;
    const PlanePoint pitch_point{pair_.first_operating_diameter_mm / 2.0, 0.0};
    const double line = kPi / 2 - pair_.operating_angle_rad;
    constexpr int kNeighbours = 4;

    std::vector<double> of_second;
    const double second_turned = first_turned_rad * first_teeth / second_teeth * (internal ? 1.0 : -1.0);
    for (int k = -kNeighbours; k <= kNeighbours; ++k) {
        const double angle = (internal ? 0.0 : kPi) + second_turned + (2.0 * k + 1.0) * kPi / second_teeth;
        const double centre = internal ? -pair_.centre_distance_mm : pair_.centre_distance_mm;
        for (const double at : crossings(moved(turned(second_tooth_, angle), centre, 0.0), pitch_point, line))
            of_second.push_back(at);
    }
    std::ranges::sort(of_second);

    std::vector<Facing> found;
    for (int k = -kNeighbours; k <= kNeighbours; ++k) {
        for (const double at :
             crossings(turned(first_upper_, first_turned_rad + 2.0 * kPi * k / first_teeth), pitch_point, line)) {
            constexpr double kRoundError_mm = 1e-5;
            const auto beyond = std::ranges::lower_bound(of_second, at - kRoundError_mm);
            if (beyond != of_second.end()) found.push_back({at, *beyond});
        }
    }
    return found;
}

double Meshing::counted_contact_ratio(int steps, double tolerance_mm) const {
    std::ptrdiff_t touching = 0;
    for (int s = 0; s < steps; ++s) {
        const double turned_rad = 2.0 * kPi / first_.sizes.spec.teeth * (s + 0.5) / steps;
        touching += std::ranges::count_if(facing(turned_rad),
                                          [=](const Facing& f) { return f.second_mm - f.first_mm <= tolerance_mm; });
    }
    return static_cast<double>(touching) / steps;
}

}  // namespace couplet
