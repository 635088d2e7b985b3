#include "place/copies_balance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace couplet {
namespace {

std::vector<Ratio> equal_places(int copies) {
    std::vector<Ratio> places;
    for (int copy = 0; copy < copies; ++copy) places.emplace_back(copy, copies);
    return places;
}

TEST(CopiesBalance, IsPerfectAtEqualAngles) {
    for (const int copies : {2, 3, 4, 5, 7}) EXPECT_EQ(balance_of(equal_places(copies), 21).residual, 0.0) << copies;
    EXPECT_EQ(balance_of(equal_places(1), 21).residual, 1.0);
}

// Two forces at right angles: sqrt(2) of 2.
TEST(CopiesBalance, IsWhatIsLeftOfTheForces) {
    const std::vector<Ratio> places = {Ratio(0), Ratio(1, 4)};
    EXPECT_DOUBLE_EQ(balance_of(places, 20).residual, std::sqrt(2.0) / 2.0);
}

// Mesh phases are the parts of a pitch at which copies stand: sun 21 with three copies 0, 7 and 14 pitches on, all in
// step; sun 20 with three at 0, 2/3 and 1/3; sun 22 with four at 0, 1/2, 0 and 1/2.
TEST(CopiesBalance, CountsCopiesInStep) {
    EXPECT_EQ(balance_of(equal_places(3), 21).in_step, 3);
    EXPECT_EQ(balance_of(equal_places(3), 20).in_step, 1);
    EXPECT_EQ(balance_of(equal_places(4), 22).in_step, 2);
}

}  // namespace
}  // namespace couplet
