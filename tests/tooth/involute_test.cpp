#include "tooth/involute.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace couplet {
namespace {

TEST(Involute, IsTheArcThatAStringUnwindsLessTheAngleSeen) {
    // Derived: the end of a string unwound by a roll of 1 from a circle of radius 1 stands at (cos 1 + sin 1, sin 1 -
    // cos 1), seen under its polar angle; its pressure angle is atan(1).
    const double seen = std::atan2(std::sin(1.0) - std::cos(1.0), std::cos(1.0) + std::sin(1.0));
    EXPECT_NEAR(involute(std::numbers::pi / 4), seen, 1e-15);
}

TEST(Involute, KeepsItsDigitsForSmallAngles) {
    // Derived: alpha^3 / 3 + 2 alpha^5 / 15 is exact to the last bit there.
    EXPECT_NEAR(involute(1e-4) / (1e-12 / 3.0 + 2e-20 / 15.0), 1.0, 1e-15);
    // The series and the difference meet.
    EXPECT_NEAR(involute(std::nextafter(0.1, 0.0)) / involute(std::nextafter(0.1, 1.0)), 1.0, 1e-13);
    EXPECT_EQ(involute(0.0), 0.0);
}

TEST(Involute, IsInvertedAtEverySize) {
    for (double angle = 1e-6; angle < 1.57; angle *= 1.1)
        EXPECT_NEAR(inverse_involute(involute(angle)) / angle, 1.0, 1e-13) << angle;
    for (const double value : {1e-18, 1e-9, 1e-3, 0.5, 1.0, 7.0, 1e3, 1e6})
        EXPECT_NEAR(involute(inverse_involute(value)) / value, 1.0, 1e-9) << value;
    EXPECT_EQ(inverse_involute(0.0), 0.0);
}

TEST(Involute, HasNoAngleBelowNothing) {
    EXPECT_TRUE(std::isnan(inverse_involute(-1e-12)));
    EXPECT_TRUE(std::isnan(inverse_involute(std::nan(""))));
}

}  // namespace
}  // namespace couplet
