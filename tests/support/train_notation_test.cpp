#include "support/train_notation.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TEST(TrainNotation, ReadsMembersGearsAndMeshesInOrder) {
    const Train train = train_from("sun 20 x planet 24; planet 24 in ring out 68 (planet on arm)");
    ASSERT_EQ(train.members.size(), 4U);
    EXPECT_EQ(train.members[2].name, "ring out");
    EXPECT_EQ(train.members[3].name, "arm");
    EXPECT_EQ(train.members[1].rides_on, MemberIndex{3});
    EXPECT_EQ(train.members[0].rides_on, kFrame);
    ASSERT_EQ(train.gears.size(), 3U);
    EXPECT_EQ(train.gears[2].teeth, 68);
    EXPECT_TRUE(train.gears[2].internal);
    EXPECT_FALSE(train.gears[1].internal);
    ASSERT_EQ(train.meshes.size(), 2U);
    EXPECT_EQ(train.meshes[1].first, GearIndex{1});
    EXPECT_EQ(train.meshes[1].second, GearIndex{2});
}

TEST(TrainNotation, GivesAMemberAFurtherGearForAnotherToothCount) {
    const Train train = train_from("sun 18 x step 36; step 18 in ring 72; step 36 x outer 40 (step on carrier)");
    ASSERT_EQ(train.gears.size(), 5U);
    EXPECT_EQ(train.gears[1].member, train.gears[2].member);
    EXPECT_EQ(name_of(train, GearIndex{1}), "step/1");
    EXPECT_EQ(name_of(train, GearIndex{2}), "step/2");
    EXPECT_EQ(train.meshes[2].first, GearIndex{1});
}

TEST(TrainNotation, KeepsGearsGroupedByMember) {
    const Train train = train_from("a 10 x b 11; c 12 x a 13");
    ASSERT_EQ(train.gears.size(), 4U);
    for (std::size_t k = 1; k < train.gears.size(); ++k) EXPECT_LE(train.gears[k - 1].member, train.gears[k].member);
    EXPECT_EQ(train[train.meshes[1].second].teeth, 13);
    EXPECT_EQ(train[train.meshes[1].first].teeth, 12);
}

TEST(TrainNotation, ReadsASetting) {
    const Train train = train_from("sun 20 x planet 20; planet 20 in ring out 60 (planet on carrier)");
    const Setting setting =
        setting_from(train, "hold ring out, sun; tie carrier=planet; drive sun 1, ring out -3/2, carrier 0.1");
    EXPECT_EQ(setting.hold, (std::vector<MemberIndex>{{2}, {0}}));
    ASSERT_EQ(setting.tie.size(), 1U);
    EXPECT_EQ(setting.tie[0].second, MemberIndex{1});
    ASSERT_EQ(setting.drive.size(), 3U);
    EXPECT_EQ(setting.drive[1].member, MemberIndex{2});
    EXPECT_EQ(setting.drive[1].rpm, Ratio(-3, 2));
    EXPECT_EQ(setting.drive[2].rpm, Ratio(1, 10));
}

TEST(TrainNotation, RefusesAnythingElse) {
    EXPECT_THROW((void)train_from("sun 20 planet 20"), std::invalid_argument);
    EXPECT_THROW((void)train_from("sun 20 x planet"), std::invalid_argument);
    EXPECT_THROW((void)train_from("sun 20 x planet 2o"), std::invalid_argument);
    EXPECT_THROW((void)train_from("sun 20 x planet 20 x ring 60"), std::invalid_argument);
    EXPECT_THROW((void)train_from("sun 20 x planet 20;"), std::invalid_argument);
    EXPECT_THROW((void)train_from("sun 20 x planet 20 (planet on carrier"), std::invalid_argument);
    EXPECT_THROW((void)train_from("sun 20 x planet 20 (planet carrier)"), std::invalid_argument);
    const Train train = train_from("a 10 x b 20");
    EXPECT_THROW((void)setting_from(train, "hold c"), std::invalid_argument);
    EXPECT_THROW((void)setting_from(train, "grip a"), std::invalid_argument);
    EXPECT_THROW((void)setting_from(train, "tie a"), std::invalid_argument);
    EXPECT_THROW((void)setting_from(train, "drive a fast"), std::invalid_argument);
    EXPECT_THROW((void)setting_from(train, "drive a"), std::invalid_argument);
}

TEST(SolvedTrain, TellsTurnsAtTheDriversSpeeds) {
    const SolvedTrain pair = solved("a 10 x b 20", "drive a 6");
    EXPECT_EQ(pair.turns("b"), Ratio(-3));
    EXPECT_EQ(pair.turns("a", "b"), Ratio(9));
    EXPECT_EQ(pair.turns("frame", "a"), Ratio(-6));
}

TEST(SolvedTrain, TellsNoTurnsThatNeedAMissingDriver) {
    const SolvedTrain two_pairs = solved("a 10 x b 20; c 10 x d 20", "drive a 1");
    EXPECT_EQ(two_pairs.turns("b"), Ratio(-1, 2));
    EXPECT_THROW((void)two_pairs.turns("d"), std::logic_error);
}

}  // namespace
}  // namespace couplet
