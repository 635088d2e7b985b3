#include "train/train.hpp"

#include <gtest/gtest.h>

#include "support/train_parts.hpp"

namespace couplet {
namespace {

// A sun, a carrier without gears, and a planet with two gears riding on the carrier.
Train stepped_train() {
    Train train;
    train.members = {member("sun"), member("spider"), member("planet", {1})};
    train.gears = {gear({0}, 24), gear({2}, 40, "large"), gear({2}, 16, "small")};
    train.meshes = {{{0}, {1}, {}}};
    train.settings = {{"slow", {}, {}, {}}, {"fast", {}, {}, {}}};
    return train;
}

TEST(TrainNames, CallTheFrameFrame) {
    const Train train = stepped_train();
    EXPECT_EQ(name_of(train, kFrame), "frame");
    EXPECT_EQ(name_of(train, MemberIndex{2}), "planet");
}

TEST(TrainNames, CallTheOnlyGearOfAMemberByTheMember) {
    const Train train = stepped_train();
    EXPECT_EQ(name_of(train, GearIndex{0}), "sun");
    EXPECT_EQ(name_of(train, GearIndex{1}), "planet/large");
    EXPECT_EQ(name_of(train, GearIndex{2}), "planet/small");
}

TEST(TrainNames, CallAJointByBothItsMembers) {
    const Train train = stepped_train();
    EXPECT_EQ(default_joint_name(train, {2}, {1}), "planet on spider");
    EXPECT_EQ(default_joint_name(train, {0}, kFrame), "sun on frame");
}

TEST(SettingParts, TellWhatIsHeldAndWhatDrives) {
    const Setting setting{"slow", {{1}}, {}, {{{0}, Ratio(30)}}};
    EXPECT_TRUE(is_held(setting, {1}));
    EXPECT_FALSE(is_held(setting, {0}));
    EXPECT_TRUE(is_driven(setting, {0}));
    EXPECT_FALSE(is_driven(setting, {1}));
}

TEST(TrainLookup, FindsMembersAndTheFrameByName) {
    const Train train = stepped_train();
    EXPECT_EQ(find_member(train, "planet"), MemberIndex{2});
    EXPECT_EQ(find_member(train, "frame"), kFrame);
    EXPECT_FALSE(find_member(train, "ring"));
}

TEST(TrainLookup, FindsSettingsByName) {
    const Train train = stepped_train();
    EXPECT_EQ(find_setting(train, "fast"), SettingIndex{1});
    EXPECT_FALSE(find_setting(train, "frame"));
}

TEST(TrainLookup, ListsTheGearsOfAMember) {
    const Train train = stepped_train();
    EXPECT_EQ(gears_of(train, {2}), (std::vector<GearIndex>{{1}, {2}}));
    EXPECT_TRUE(gears_of(train, {1}).empty());
}

TEST(TrainLookup, SaysWhatAMemberRidesOn) {
    const Train train = stepped_train();
    EXPECT_EQ(rides_on(train, {2}), MemberIndex{1});
    EXPECT_EQ(rides_on(train, {0}), kFrame);
}

TEST(TrainValue, DiffersWhereAnyPartDoes) {
    const Train train = stepped_train();
    Train other = train;
    EXPECT_EQ(train, other);
    other.gears[2].shift = Ratio(1, 10);
    EXPECT_NE(train, other);
}

}  // namespace
}  // namespace couplet
