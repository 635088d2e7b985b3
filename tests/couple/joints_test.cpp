#include "couple/joints.hpp"

#include <gtest/gtest.h>

#include "support/train_notation.hpp"

namespace couplet {
namespace {

constexpr const char* kCapstan = "crank 21 x planet 24; planet 24 in ring 69 (planet on drum)";

std::vector<std::string> names(const std::vector<Joint>& joints) {
    std::vector<std::string> result;
    for (const Joint& joint : joints) result.push_back(joint.name);
    return result;
}

TEST(Joints, DefaultToEveryMemberAgainstWhatItRidesOn) {
    EXPECT_EQ(names(joints_of(train_from(kCapstan))),
              (std::vector<std::string>{"crank on frame", "planet on drum", "ring on frame", "drum on frame"}));
}

TEST(Joints, AnExplicitOneStandsForTheDefaultOfTheMemberThatItTurns) {
    Train train = train_from(kCapstan);
    train.joints = {{"planet pin", member_named(train, "planet"), member_named(train, "ring"), false}};
    EXPECT_EQ(names(joints_of(train)),
              (std::vector<std::string>{"planet pin", "crank on frame", "ring on frame", "drum on frame"}));
}

TEST(Joints, OneWrittenFromTheCarrierStandsForThePlanets) {
    Train train = train_from(kCapstan);
    train.joints = {{"pin", member_named(train, "drum"), member_named(train, "planet"), false}};
    EXPECT_EQ(names(joints_of(train)),
              (std::vector<std::string>{"pin", "crank on frame", "ring on frame", "drum on frame"}));
}

TEST(Joints, AreFoundByNameAndByAnyTwoMembers) {
    Train train = train_from(kCapstan);
    train.joints = {{"planet pin", member_named(train, "planet"), member_named(train, "drum"), true}};
    const std::vector<Joint> joints = joints_of(train);
    EXPECT_TRUE(find_joint(train, joints, "planet pin")->flipped);
    const std::optional<Joint> made = find_joint(train, joints, "drum on crank");
    ASSERT_TRUE(made);
    EXPECT_EQ(made->turns, member_named(train, "drum"));
    EXPECT_EQ(made->against, member_named(train, "crank"));
    EXPECT_FALSE(find_joint(train, joints, "drum on drum"));
    EXPECT_FALSE(find_joint(train, joints, "drum on windlass"));
}

TEST(Joints, MemberNamesMayHoldTheWordOn) {
    Train train = train_from("wheel on top 20 x pinion 10");
    const std::optional<Joint> joint = find_joint(train, joints_of(train), "pinion on wheel on top");
    ASSERT_TRUE(joint);
    EXPECT_EQ(joint->against, member_named(train, "wheel on top"));
}

TEST(Joints, TheDriversIsTheOneOnTheFrame) {
    Train train = train_from(kCapstan);
    const MemberIndex crank = member_named(train, "crank");
    EXPECT_EQ(joint_of_driver(train, joints_of(train), crank).name, "crank on frame");
    train.joints = {{"crank in drum", crank, member_named(train, "drum"), false}};
    EXPECT_EQ(joint_of_driver(train, joints_of(train), crank).name, "crank in drum");
    train.joints.push_back({"crank bearing", crank, kFrame, false});
    EXPECT_EQ(joint_of_driver(train, joints_of(train), crank).name, "crank bearing");
}

}  // namespace
}  // namespace couplet
