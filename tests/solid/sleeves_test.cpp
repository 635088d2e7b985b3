// Heights and radii are derived by hand from the method in sleeves.hpp.
#include "solid/sleeves.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

constexpr MemberIndex kA{0};
constexpr MemberIndex kB{1};
constexpr SleeveRoom kOnFrame{1.0, 0.1, 0.0};

HubsOnAxis hubs(MemberIndex member, std::vector<Hub> list, double wanted_mm, double most_mm) {
    return {member, std::move(list), wanted_mm, most_mm};
}

TEST(Sleeves, AShaftAloneGoesDownToItsBearing) {
    const auto sleeves = nest_sleeves({hubs(kA, {{{10, 20}, 30}}, 4.0, 8.0)}, kOnFrame);
    EXPECT_TRUE(sleeves[0].reaches_bearing);
    EXPECT_EQ(sleeves[0].pieces, (std::vector<Span>{{0, 20}}));
    EXPECT_DOUBLE_EQ(sleeves[0].inner_mm, 0.0);
    EXPECT_DOUBLE_EQ(sleeves[0].outer_mm, 4.0);
}

TEST(Sleeves, TheHigherMemberRunsInsideTheLower) {
    const auto sleeves =
        nest_sleeves({hubs(kA, {{{20, 30}, 30}}, 4.0, 8.0), hubs(kB, {{{5, 10}, 50}}, 0.0, 20.0)}, kOnFrame);
    EXPECT_TRUE(sleeves[0].reaches_bearing);
    EXPECT_TRUE(sleeves[1].reaches_bearing);
    EXPECT_DOUBLE_EQ(sleeves[1].inner_mm, 4.1);
    EXPECT_DOUBLE_EQ(sleeves[1].outer_mm, 5.1);
}

TEST(Sleeves, WhereTheLowerGearIsTooSmallTheHigherShaftEndsAboveIt) {
    const auto sleeves =
        nest_sleeves({hubs(kA, {{{20, 30}, 30}}, 4.0, 8.0), hubs(kB, {{{5, 10}, 6}}, 2.0, 3.0)}, kOnFrame);
    EXPECT_FALSE(sleeves[0].reaches_bearing);
    EXPECT_EQ(sleeves[0].pieces, (std::vector<Span>{{20, 30}}));
    EXPECT_TRUE(sleeves[1].reaches_bearing);
    EXPECT_DOUBLE_EQ(sleeves[1].inner_mm, 0.0);
}

TEST(Sleeves, AMemberBetweenTheHubsOfAnotherRunsOnItsShaft) {
    const auto sleeves = nest_sleeves(
        {hubs(kA, {{{10, 20}, 30}, {{50, 60}, 30}}, 4.0, 8.0), hubs(kB, {{{30, 40}, 30}}, 5.0, 9.0)}, kOnFrame);
    EXPECT_EQ(sleeves[0].pieces, (std::vector<Span>{{0, 60}}));
    EXPECT_FALSE(sleeves[1].reaches_bearing);
    EXPECT_EQ(sleeves[1].pieces, (std::vector<Span>{{30, 40}}));
    EXPECT_DOUBLE_EQ(sleeves[1].inner_mm, 4.1);
}

TEST(Sleeves, MembersThatEachHaveToPassTheOtherAreCut) {
    const auto sleeves = nest_sleeves(
        {hubs(kA, {{{10, 20}, 30}, {{50, 60}, 30}}, 4.0, 8.0), hubs(kB, {{{30, 40}, 30}, {{70, 80}, 30}}, 4.0, 8.0)},
        {1.0, 0.1, std::nullopt});
    int pieces = 0;
    for (const Sleeve& sleeve : sleeves) pieces += static_cast<int>(sleeve.pieces.size());
    EXPECT_EQ(pieces, 3);
}

// A plate round a long gear at its own height: bored for the gear's tips, not for its shaft.
TEST(Sleeves, APlateLiesRoundALongGear) {
    const auto sleeves =
        nest_sleeves({hubs(kA, {{{10, 60}, 15}}, 4.0, 8.0), hubs(kB, {{{30, 35}, 50}}, 6.0, 40.0)}, kOnFrame);
    EXPECT_DOUBLE_EQ(sleeves[1].inner_mm, 15.1);
    EXPECT_FALSE(sleeves[1].reaches_bearing);
    EXPECT_TRUE(sleeves[0].reaches_bearing);
}

}  // namespace
}  // namespace couplet
