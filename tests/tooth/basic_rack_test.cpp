#include "tooth/basic_rack.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace couplet {
namespace {

TEST(BasicRack, IsKnownByTheLettersOfTheStandardOnly) {
    for (const char profile : {'A', 'B', 'C', 'D'}) EXPECT_TRUE(iso_53_rack(profile)) << profile;
    for (const char profile : {'a', 'E', ' ', '\0'}) EXPECT_FALSE(iso_53_rack(profile)) << profile;
}

TEST(BasicRack, HoldsItsOwnFillets) {
    for (const char profile : {'A', 'B', 'C', 'D'}) {
        const BasicRack rack = *iso_53_rack(profile);
        EXPECT_LE(rack.root_radius, largest_root_radius(rack)) << profile;
        EXPECT_NEAR(rack.root_radius, std::min(root_radius_in_clearance(rack), rack.root_radius), 1e-4) << profile;
    }
}

TEST(BasicRack, LargestRadiusTouchesBothFlanksAndTheRoot) {
    // Derived: a circle in the middle of the space, its lowest point on the root line, at its radius from the flank.
    const BasicRack rack{25.0 * std::numbers::pi / 180.0, 1.0, 1.2, 0.0};
    const double radius = largest_root_radius(rack);
    const double height = -rack.dedendum + radius;
    const double half_space = std::numbers::pi / 4 + height * std::tan(rack.pressure_angle_rad);
    EXPECT_NEAR(half_space * std::cos(rack.pressure_angle_rad), radius, 1e-14);
}

TEST(BasicRack, FlanksThatMeetAboveTheRootLeaveNoRoom) {
    EXPECT_LT(largest_root_radius({30.0 * std::numbers::pi / 180.0, 1.0, 1.5, 0.0}), 0.0);
}

TEST(BasicRack, FilletInTheClearanceEndsAtTheMatingTip) {
    const BasicRack rack{20.0 * std::numbers::pi / 180.0, 1.0, 1.4, 0.0};
    const double radius = root_radius_in_clearance(rack);
    // Derived: the flank touches the corner's circle at this depth.
    EXPECT_NEAR(rack.dedendum - radius + radius * std::sin(rack.pressure_angle_rad), rack.addendum, 1e-14);
}

}  // namespace
}  // namespace couplet
