#include "app/joint_edits.hpp"

#include <gtest/gtest.h>

#include "couple/joints.hpp"
#include "support/train_notation.hpp"
#include "support/train_parts.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

// Members in order: sun, planet, carrier, ring. Default joints: sun, planet (on carrier), carrier, ring.
Train planetary() {
    return train_from("sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)");
}
const MemberIndex kSun{0};
const MemberIndex kPlanet{1};

MemberIndex named(const Train& train, const std::string& name) {
    return member_named(train, name);
}

std::vector<Coupling> couplings_of(const Train& train) {
    return couple(train, setting_from(train, "hold ring; drive sun 1"), {}).couplings;
}

std::vector<std::string> second_joints(const Train& train) {
    std::vector<std::string> names;
    for (const CouplingEntry& entry : train.couplings) names.push_back(entry.joints[1]);
    return names;
}

TEST(JointEdits, AddAJointNamedAfterItsMembers) {
    const Train train = planetary();
    const ChangedTrain changed = with_joint(train, kPlanet, kSun);
    ASSERT_TRUE(changed.train);
    EXPECT_EQ(changed.train->joints, (std::vector<Joint>{{"planet on sun", kPlanet, kSun, false}}));
    EXPECT_TRUE(faults(*changed.train).empty());
    EXPECT_EQ(with_joint(train, kSun, kFrame).why_not, "there is already sun on frame");
    EXPECT_EQ(with_joint(train, named(train, "carrier"), kPlanet).why_not, "there is already planet on carrier");
    EXPECT_EQ(with_joint(train, kSun, kSun).why_not, "a joint has two different members");
    // The frame turns against nothing: the pair is put the other way round.
    EXPECT_EQ(with_joint(train, kFrame, kPlanet).train->joints.front().turns, kPlanet);
}

TEST(JointEdits, OfferOnlyMembersWithoutAJointYet) {
    const Train train = planetary();
    // The planet has its joint with the carrier.
    EXPECT_EQ(could_turn_against(train, kPlanet), (std::vector<MemberIndex>{kFrame, kSun, named(train, "ring")}));
    for (const MemberIndex against : could_turn_against(train, kPlanet))
        EXPECT_TRUE(with_joint(train, kPlanet, against).train);
}

TEST(JointEdits, WriteADefaultJointDownWhenItChanges) {
    const Train train = planetary();
    const Joint pin = *find_joint(train, joints_of(train), "planet on carrier");
    EXPECT_FALSE(is_explicit(train, pin));
    const Train flipped = with_joint_flipped(train, pin, true);
    ASSERT_EQ(flipped.joints.size(), 1U);
    EXPECT_TRUE(flipped.joints.front().flipped);
    EXPECT_EQ(joints_of(flipped).size(), joints_of(train).size());
    EXPECT_EQ(with_joint_flipped(flipped, flipped.joints.front(), false).joints.size(), 1U);
}

TEST(JointEdits, CouplingsFollowANewNameAndLoseNoneWithTheJoint) {
    Train train = with_joint(planetary(), kPlanet, kSun).train.value();
    train.couplings = {{{"sun on frame", "planet on sun"}, std::array<Ratio, 2>{Ratio(360), Ratio(90)}}};
    const Train renamed = with_joint_named(train, train.joints.front(), "pin").train.value();
    EXPECT_EQ(renamed.couplings.front().joints[1], "pin");
    const Train without = without_joint(renamed, renamed.joints.front());
    EXPECT_TRUE(without.joints.empty());
    EXPECT_EQ(without.couplings.front().joints[1], "planet on sun");
    EXPECT_TRUE(without.couplings.front().typed);
}

TEST(JointEdits, RefuseNamesThatMeanAnotherJoint) {
    const Train train = with_joint(planetary(), kPlanet, kSun).train.value();
    const Joint& joint = train.joints.front();
    EXPECT_EQ(with_joint_named(train, joint, "ring on frame").why_not, "there is another joint of that name");
    EXPECT_EQ(with_joint_named(train, joint, "ring on sun").why_not, "that is the joint of ring against sun");
    EXPECT_EQ(with_joint_named(train, joint, "").why_not, "give the joint a name");
    EXPECT_TRUE(with_joint_named(train, joint, "planet on sun").train);
}

TEST(JointEdits, TypingForOneCouplingKeepsTheOthers) {
    const Train train = planetary();
    const std::vector<Coupling> couplings = couplings_of(train);
    ASSERT_EQ(couplings.size(), 3U);
    const DegreePair typed = {Ratio(360), Ratio(90)};
    const Train changed = with_typed(train, couplings, 1, typed).train.value();
    ASSERT_EQ(changed.couplings.size(), 3U);
    EXPECT_EQ(changed.couplings[1].typed, typed);
    EXPECT_FALSE(changed.couplings[0].typed);
    const std::vector<Coupling> after = couplings_of(changed);
    ASSERT_EQ(after.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(after[i].second, couplings[i].second);
    EXPECT_FALSE(with_typed(changed, after, 1, std::nullopt).train->couplings[1].typed);
}

TEST(JointEdits, RefuseToWriteAnAmbiguousName) {
    // "a on b on c" could be "a" against "b on c", or "a on b" against "c".
    Train train;
    train.members = {member("a"), member("b on c"), member("a on b"), member("c")};
    Coupling coupling;
    coupling.first = {"", {0}, kFrame, false};
    coupling.second = {"", {2}, {3}, false};
    EXPECT_NE(with_typed(train, {coupling}, 0, std::nullopt).why_not.find("could be another joint"), std::string::npos);
    coupling.second.against = kFrame;
    EXPECT_TRUE(with_typed(train, {coupling}, 0, std::nullopt).train);
}

TEST(JointEdits, AddAndTakeAwayCouplings) {
    const Train train = planetary();
    const std::vector<Coupling> couplings = couplings_of(train);
    const Joint first = couplings[0].second;
    const Joint second = couplings[1].second;
    const Train more = with_coupling(train, couplings, first, second).train.value();
    EXPECT_EQ(more.couplings.size(), 4U);
    EXPECT_EQ(with_coupling(train, couplings, first, first).why_not, "a coupling has two different joints");
    const Train fewer = without_coupling(train, couplings, 0).train.value();
    EXPECT_EQ(second_joints(fewer), (std::vector<std::string>{couplings[1].second.name, couplings[2].second.name}));
    EXPECT_TRUE(with_default_couplings(fewer).couplings.empty());
}

}  // namespace
}  // namespace couplet
