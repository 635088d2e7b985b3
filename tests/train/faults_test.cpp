#include "train/faults.hpp"

#include <gtest/gtest.h>

#include "support/train_parts.hpp"

namespace couplet {
namespace {

constexpr MemberIndex kSun{0};
constexpr MemberIndex kSpider{1};
constexpr MemberIndex kPlanet{2};
constexpr MemberIndex kRing{3};

// A simple planetary set: sun 27, planet 18 on the spider, ring 63.
Train simple_set() {
    Train train;
    train.members = {member("sun"), member("spider"), member("planet", kSpider), member("ring")};
    train.gears = {gear(kSun, 27), gear(kPlanet, 18), gear(kRing, 63)};
    train.members[2].copies = 3;
    train.gears[2].internal = true;
    train.meshes = {{{0}, {1}, {}}, {{1}, {2}, {}}};
    train.settings = {{"slow", {kRing}, {}, {{kSun, 20}}}};
    train.joints = {{"pin", kPlanet, kSpider}};
    train.shots = {{0, 30, {}, {}, kFrame}, {Ratio(1, 2), {}, 20, 2, kPlanet}};
    return train;
}

// The train's only fault as "list position key: wrong; right".
std::string only_fault(const Train& train) {
    static const char* const kLists[] = {"member", "gear", "mesh", "setting", "joint", "shot"};
    const std::vector<TrainFault> found = faults(train);
    if (found.size() != 1) return std::to_string(found.size()) + " faults";
    const TrainFault& fault = found.front();
    return std::string(kLists[static_cast<int>(fault.list)]) + " " + std::to_string(fault.position) + " " + fault.key +
           ": " + fault.wrong + "; " + fault.right;
}

TEST(TrainFaults, AreNoneInASoundTrain) {
    EXPECT_TRUE(faults(simple_set()).empty());
    EXPECT_TRUE(faults(Train{}).empty());
}

TEST(TrainFaults, NameAMemberThatRidesOnItself) {
    Train train = simple_set();
    train.members[3].rides_on = kRing;
    train.meshes.clear();
    EXPECT_EQ(only_fault(train),
              "member 3 on: member 'ring' rides on itself; what a member rides on must lead to the frame");
}

TEST(TrainFaults, NameTheWayRoundACycleFromItsFirstMember) {
    Train train;
    train.members = {member("above", {3}), member("a", {2}), member("b", {3}), member("c", {1})};
    EXPECT_EQ(only_fault(train),
              "member 1 on: member 'a' rides on itself by way of 'b' and 'c'; what a member rides on must lead to the "
              "frame");
}

TEST(TrainFaults, CutTheWayRoundALongCycle) {
    Train train;
    for (int i = 0; i < 9; ++i) train.members.push_back(member(std::to_string(i), {(i + 1) % 9}));
    EXPECT_EQ(only_fault(train),
              "member 0 on: member '0' rides on itself by way of '1', '2', '3' and 5 more; what a member rides on must "
              "lead to the frame");
}

TEST(TrainFaults, NameEveryCycleOnce) {
    Train train;
    train.members = {member("a", {1}), member("b", {0}), member("c", {2})};
    EXPECT_EQ(faults(train).size(), 2U);
}

TEST(TrainFaults, NameMembersThatAreNotThere) {
    Train train = simple_set();
    train.members[2].rides_on = {4};
    train.meshes.clear();
    EXPECT_EQ(only_fault(train),
              "member 2 on: member 'planet' rides on a member that is not there; name a member of the train");
}

TEST(TrainFaults, NameCopiesOutsideTheLimits) {
    Train train = simple_set();
    train.members[2].copies = 0;
    EXPECT_EQ(only_fault(train), "member 2 copies: member 'planet' has 0 copies; a member has from 1 to 100000 copies");
}

TEST(TrainFaults, NamePlacesThatAreNotOneForEachCopy) {
    Train train = simple_set();
    train.members[2].at_deg = {0, 120};
    EXPECT_EQ(only_fault(train),
              "member 2 at: member 'planet' has 3 copies and 2 places for them; give one angle for each copy");
}

TEST(TrainFaults, NameAnAxisWithoutDirection) {
    Train train = simple_set();
    train.members[2].axis = {0, 0, 0};
    EXPECT_EQ(
        only_fault(train),
        "member 2 axis: the axis of member 'planet' has no direction; give three numbers of which at least one is "
        "not 0");
}

TEST(TrainFaults, NameTooManyMembers) {
    Train train;
    train.members.resize(100001);
    EXPECT_EQ(only_fault(train), "member 100000 : the train has 100001 members; a train has at most 100000 members");
}

TEST(TrainFaults, NameTeethOutsideTheLimits) {
    Train train = simple_set();
    train.gears[1].teeth = 2;
    EXPECT_EQ(only_fault(train),
              "gear 1 teeth: a gear of member 'planet' has 2 teeth; a gear has from 3 to 100000 teeth");
    train.gears[1].teeth = 100001;
    EXPECT_EQ(only_fault(train),
              "gear 1 teeth: a gear of member 'planet' has 100001 teeth; a gear has from 3 to 100000 teeth");
}

TEST(TrainFaults, NameGearsOutOfOrderOrOfNoMember) {
    Train train = simple_set();
    train.meshes.clear();
    std::swap(train.gears[0], train.gears[1]);
    EXPECT_EQ(only_fault(train),
              "gear 1 : a gear of member 'sun' stands out of order; gears follow the order of their members");
    train = simple_set();
    train.meshes.clear();
    train.gears[2].member = kFrame;
    EXPECT_EQ(only_fault(train), "gear 2 : a gear belongs to a member that is not there; name a member of the train");
}

TEST(TrainFaults, NameAMeshOfTwoGearsOfOneMember) {
    Train train = simple_set();
    train.gears.insert(train.gears.begin() + 2, gear(kPlanet, 12, "small"));
    train.gears[1].name = "large";
    train.meshes = {{{1}, {2}, {}}};
    EXPECT_EQ(only_fault(train),
              "mesh 0 gears: the gears 'planet/large' and 'planet/small' are fast on one member; a mesh joins gears of "
              "two members");
}

TEST(TrainFaults, NameAMeshOfTwoInternalGears) {
    Train train = simple_set();
    train.gears[1].internal = true;
    EXPECT_EQ(only_fault(train),
              "mesh 1 gears: the gears 'planet' and 'ring' are both internal; at most one gear of a mesh is internal");
}

TEST(TrainFaults, NameAMeshWithoutAnArm) {
    Train train = simple_set();
    train.members.push_back(member("boat", kPlanet));
    train.gears.push_back(gear({4}, 12));
    train.meshes.push_back({{0}, {3}, {}});
    EXPECT_EQ(only_fault(train),
              "mesh 2 gears: the mesh of 'sun' and 'boat' has no arm, a member in which both axes stand still; both "
              "members ride on the same one, or one rides on a member beside the other");
}

TEST(TrainFaults, NameAMeshOfGearsThatAreNotThere) {
    Train train = simple_set();
    train.meshes[1].second = {3};
    EXPECT_EQ(only_fault(train), "mesh 1 gears: a mesh has a gear that is not there; name two gears of the train");
}

TEST(TrainFaults, NameAMemberHeldOrDrivenTwice) {
    Train train = simple_set();
    train.settings[0].hold = {kRing, kSpider, kRing};
    EXPECT_EQ(only_fault(train), "setting 0 hold: setting 'slow' holds 'ring' twice; name each member once");
    train = simple_set();
    train.settings[0].drive = {{kSun, 20}, {kSun, 20}};
    EXPECT_EQ(only_fault(train), "setting 0 drive: setting 'slow' drives 'sun' twice; name each member once");
}

TEST(TrainFaults, AllowAMemberInEachSetting) {
    Train train = simple_set();
    train.settings.push_back(train.settings[0]);
    train.settings.back().name = "again";
    EXPECT_TRUE(faults(train).empty());
}

TEST(TrainFaults, NameTheFrameHeldDrivenOrTied) {
    Train train = simple_set();
    train.settings[0].hold = {kFrame};
    EXPECT_EQ(only_fault(train), "setting 0 hold: setting 'slow' holds the frame; the frame never turns: leave it out");
    train = simple_set();
    train.settings[0].drive = {{kFrame, 20}};
    EXPECT_EQ(only_fault(train),
              "setting 0 drive: setting 'slow' drives the frame; the frame never turns: leave it out");
    train = simple_set();
    train.settings[0].tie = {{kSun, kFrame}};
    EXPECT_EQ(only_fault(train),
              "setting 0 tie: setting 'slow' ties 'sun' to the frame; to tie a member to the frame is to hold it: "
              "write it under hold");
}

TEST(TrainFaults, NameTiesToItselfAndTiesTwice) {
    Train train = simple_set();
    train.settings[0].tie = {{kSun, kSun}};
    EXPECT_EQ(only_fault(train), "setting 0 tie: setting 'slow' ties 'sun' to itself; tie two different members");
    train.settings[0].tie = {{kSun, kSpider}, {kSpider, kRing}, {kSpider, kSun}};
    EXPECT_EQ(only_fault(train), "setting 0 tie: setting 'slow' ties 'spider' and 'sun' twice; name each pair once");
}

TEST(TrainFaults, NameJointsOfAMemberAgainstItself) {
    Train train = simple_set();
    train.joints[0].against = kPlanet;
    EXPECT_EQ(only_fault(train),
              "joint 0 against: joint 'pin' turns 'planet' against itself; a joint names two different members");
    train.joints[0].turns = {7};
    EXPECT_EQ(only_fault(train), "joint 0 : joint 'pin' names a member that is not there; name a member of the train");
}

TEST(TrainFaults, NameShotsThatDoNotRise) {
    Train train = simple_set();
    train.shots[1].at = 0;
    EXPECT_EQ(only_fault(train),
              "shot 1 at: shot 2 is at 0, and the one before it at 0; each shot comes later in the clip than the one "
              "before");
}

TEST(TrainFaults, NameShotsOfMembersThatAreNotThere) {
    Train train = simple_set();
    train.shots[1].look_at = {4};
    EXPECT_EQ(only_fault(train),
              "shot 1 look_at: shot 2 looks at a member that is not there; name a member of the train");
}

TEST(TrainFaults, NameTooManyShots) {
    Train train = simple_set();
    train.shots.clear();
    for (int i = 0; i <= kMostShots; ++i) train.shots.push_back({Ratio(i, kMostShots), {}, {}, {}, {}});
    EXPECT_EQ(only_fault(train), "shot 100 : the train has 101 shots; a train has at most 100 shots");
}

TEST(TrainFaults, ComeInTheOrderOfTheLists) {
    Train train = simple_set();
    train.shots[1].at = 0;
    train.joints[0].against = kPlanet;
    train.gears[1].teeth = 2;
    train.members[3].copies = 0;
    train.members[0].rides_on = kSun;
    train.meshes.clear();
    const std::vector<TrainFault> found = faults(train);
    ASSERT_EQ(found.size(), 5U);
    EXPECT_EQ(found[0].key, "on");
    EXPECT_EQ(found[1].key, "copies");
    EXPECT_EQ(found[2].key, "teeth");
    EXPECT_EQ(found[3].key, "against");
    EXPECT_EQ(found[4].key, "at");
}

TEST(TrainFaults, TakeLinearTimeForALongChainOfRiding) {
    Train train;
    for (int i = 0; i < kMostMembers; ++i) {
        train.members.push_back(member("m" + std::to_string(i), {i - 1}));
        train.gears.push_back(gear({i}, 20));
        if (i > 0) train.meshes.push_back({{i - 1}, {i}, {}});
    }
    // Neighbours in a chain of riding have no arm: each rides on the other.
    EXPECT_EQ(faults(train).size(), static_cast<std::size_t>(kMostMembers) - 1);
    train.meshes.clear();
    EXPECT_TRUE(faults(train).empty());
    train.members[0].rides_on = {kMostMembers - 1};
    EXPECT_EQ(faults(train).size(), 1U);
}

TEST(ArmOf, IsWhatBothGearsRideOn) {
    Train train = simple_set();
    train.members.push_back(member("second planet", kSpider));
    train.gears.push_back(gear({4}, 17));
    EXPECT_EQ(arm_of(train, {{1}, {3}, {}}), kSpider);
    EXPECT_EQ(arm_of(train, {{0}, {2}, {}}), kFrame);
}

TEST(ArmOf, IsTheCarrierOfAPlanetBesideASun) {
    const Train train = simple_set();
    EXPECT_EQ(arm_of(train, train.meshes[0]), kSpider);
    EXPECT_EQ(arm_of(train, {{1}, {0}, {}}), kSpider);
    EXPECT_EQ(arm_of(train, train.meshes[1]), kSpider);
}

TEST(ArmOf, IsThePlanetThatCarriesAPlanet) {
    Train train = simple_set();
    // A wheel on the spider beside the planet, and a boat that rides on the planet.
    train.members.push_back(member("hub", kSpider));
    train.members.push_back(member("boat", kPlanet));
    train.gears.push_back(gear({4}, 36));
    train.gears.push_back(gear({5}, 20));
    EXPECT_EQ(arm_of(train, {{3}, {4}, {}}), kPlanet);
}

TEST(ArmOf, IsNothingWhereTheAxesMoveAgainstEachOther) {
    Train train = simple_set();
    train.members.push_back(member("boat", kPlanet));
    train.gears.push_back(gear({4}, 12));
    EXPECT_FALSE(arm_of(train, {{0}, {3}, {}}));  // two levels apart
    EXPECT_FALSE(arm_of(train, {{1}, {3}, {}}));  // a planet and what rides on it
    EXPECT_FALSE(arm_of(train, {{1}, {1}, {}}));  // one member
}

}  // namespace
}  // namespace couplet
