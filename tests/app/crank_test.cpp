#include "app/crank.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "motion/pose.hpp"
#include "support/dice.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_builder.hpp"
#include "support/train_notation.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

// With the ring held the carrier turns by 30 / (30 + 66) = 5/16 of the sun, and the planet on the carrier by
// -30/18 (1 - 5/16) = -55/48 (Willis).
const char* const kSimpleSet = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";

// A train in a setting, with a crank on it.
struct Cranked {
    SolvedTrain set;
    Crank crank;

    [[nodiscard]] const Train& train() const { return set.train; }
    [[nodiscard]] const Motion& motion() const { return set.motion; }
    [[nodiscard]] MemberIndex member(const std::string& name) const {
        return name == "frame" ? kFrame : member_named(set.train, name);
    }
    // Of its joint.
    [[nodiscard]] Ratio phase(const std::string& name) const { return crank.joint_phases()[member(name).position()]; }

    void run(double turns) { crank.run(motion(), turns); }
    void step(int direction) { crank.step_one_tooth(train(), motion(), direction); }
    bool turn(const std::string& name, const std::string& observer, double turns) {
        return crank.turn_member(train(), motion(), member(name), member(observer), turns);
    }
    void set_to(const std::string& setting) {
        set = solved(set.train, setting_from(set.train, setting));
        crank.go_on_with(set.train, set.motion);
    }
};

Cranked cranked(SolvedTrain set) {
    Cranked made{std::move(set), {}};
    made.crank.start_again(made.train(), made.motion());
    return made;
}

Cranked cranked(const char* train, const char* setting) {
    return cranked(solved(train, setting));
}

// In every mesh the teeth that have passed the arm on one gear have met as many gaps of the other, up to whole teeth:
// N_A phase_A/c + N_B phase_B/c is whole, with - for an internal mesh.
testing::AssertionResult teeth_in_their_gaps(const Train& train, const std::vector<Ratio>& joint_phases) {
    const std::vector<Ratio> on_frame = frame_phases_turns(train, joint_phases);
    for (const Mesh& mesh : train.meshes) {
        const MemberIndex arm = arm_of(train, mesh).value();
        const auto teeth_passed = [&](GearIndex gear) {
            const Ratio arm_turns = arm == kFrame ? Ratio(0) : on_frame[arm.position()];
            return Ratio(train[gear].teeth) * (on_frame[train[gear].member.position()] - arm_turns);
        };
        const Ratio first = teeth_passed(mesh.first);
        const Ratio second = teeth_passed(mesh.second);
        const bool internal = train[mesh.first].internal || train[mesh.second].internal;
        const Ratio off = internal ? first - second : first + second;
        if (!off.is_whole())
            return testing::AssertionFailure() << name_of(train, mesh.first) << " and " << name_of(train, mesh.second)
                                               << " are off by " << off.fraction().to_string() << " of a tooth";
    }
    return testing::AssertionSuccess();
}

TEST(Crank, StartsInTheStartPose) {
    const Cranked cranked_set = cranked(kSimpleSet, "hold ring; drive sun 1");
    EXPECT_EQ(cranked_set.crank.joint_phases(), std::vector<Ratio>(4));
    EXPECT_EQ(cranked_set.crank.driver_turns(cranked_set.motion()), Ratio(0));
}

TEST(Crank, RunsByTheReferenceDriver) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    set.run(0.25);
    EXPECT_EQ(set.phase("sun"), Ratio(1, 4));
    EXPECT_EQ(set.phase("carrier"), Ratio(5, 64)) << "5/16 of it";
    EXPECT_EQ(set.phase("planet"), Ratio(-55, 192).fraction()) << "-55/48 of it";
    EXPECT_EQ(set.phase("ring"), Ratio(0));
    EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(1, 4));
}

TEST(Crank, RunsTheWayThatItIsDriven) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun -20");
    set.run(0.25);
    EXPECT_EQ(set.phase("sun"), Ratio(3, 4));
    EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(-1, 4));
    set.run(-0.25);
    EXPECT_EQ(set.phase("sun"), Ratio(0));
}

TEST(Crank, RunsAllDriversAtTheirSpeeds) {
    Cranked set = cranked(kSimpleSet, "drive sun 8, carrier -2");
    set.run(0.5);
    EXPECT_EQ(set.phase("sun"), Ratio(1, 2));
    EXPECT_EQ(set.phase("carrier"), Ratio(-1, 8).fraction()) << "-2/8 of it";
}

TEST(Crank, IsExactOverAMillionTurns) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    for (int i = 0; i < 4000; ++i) set.run(i % 2 == 0 ? 500.0625 : -0.0625);
    // 2000 times 500: the same at one go, by motion/pose.hpp.
    EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(1000000));
    EXPECT_EQ(set.crank.joint_phases(), joint_phases_turns(set.motion(), 1000000));
    set.run(0.5);
    EXPECT_EQ(set.crank.joint_phases(), joint_phases_turns(set.motion(), Ratio(2000001, 2)));
}

TEST(Crank, ComesBackTheWayItWent) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        Dice dice(seed);
        Cranked set = cranked(kSimpleSet, "drive sun 7, carrier 11");
        std::vector<double> ways;
        for (int i = 0; i < 50; ++i) ways.push_back(dice.between(-100000, 100000) / 7321.0);
        for (const double turns : ways) set.run(turns);
        EXPECT_NE(set.phase("planet"), Ratio(0));
        dice.shuffle(ways);
        for (const double turns : ways) set.run(-turns);
        EXPECT_EQ(set.crank.joint_phases(), std::vector<Ratio>(4));
        EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(0));
    }
}

TEST(Crank, MovesAtTheSlowestCrawl) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    // A tenth of a grain at a time; together a hundred thousand grains, but for rounding.
    const double tenth = 0.1 / static_cast<double>(Crank::kGrain);
    for (int i = 0; i < 1000000; ++i) set.run(tenth);
    const Ratio off = set.crank.driver_turns(set.motion()) - Ratio(100000, Crank::kGrain);
    EXPECT_LE(off.magnitude(), Ratio(1, Crank::kGrain));
}

TEST(Crank, KeepsNumbersSmall) {
    Cranked set = cranked(kSimpleSet, "drive sun 7, carrier 11");
    Dice dice(5);
    for (int i = 0; i < 2000; ++i) {
        set.run(dice.between(1, 1000000) / 999983.0);
        (void)set.turn(dice.chance(50) ? "planet" : "ring", "frame", dice.between(-1000, 1000) / 777.0);
    }
    for (const Ratio& phase : set.crank.joint_phases()) EXPECT_TRUE(phase.is_small()) << phase.to_string();
}

TEST(Crank, RefusesTurnsBeyondCounting) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    EXPECT_THROW(set.run(2e12), std::invalid_argument);
    EXPECT_THROW((void)set.turn("sun", "frame", std::nan("")), std::invalid_argument);
    EXPECT_EQ(set.crank.joint_phases(), std::vector<Ratio>(4));
}

TEST(ToothStep, TurnsTheDriversGearByOneTooth) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    set.step(1);
    EXPECT_EQ(set.phase("sun"), Ratio(1, 30));
    for (int i = 1; i < 30; ++i) set.step(1);
    EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(1));
    set.step(-1);
    EXPECT_EQ(set.phase("sun"), Ratio(29, 30));
}

TEST(ToothStep, GoesTheWayThatTheDriverIsDriven) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun -3");
    set.step(1);
    EXPECT_EQ(set.phase("sun"), Ratio(29, 30));
}

TEST(ToothStep, CountsTheLargestGearOfTheDriver) {
    Cranked set = cranked("shaft 12 x first 40; shaft 25 x second 20", "drive shaft 1");
    set.step(1);
    EXPECT_EQ(set.phase("shaft"), Ratio(1, 25));
}

// Against the carrier the sun's 30 teeth pass 16/5 - 1 = 11/5 times per turn of the carrier: 66 teeth, as many as the
// held ring has.
TEST(ToothStep, OfACarrierTakesOneToothPastIt) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive carrier 2");
    set.step(1);
    EXPECT_EQ(set.phase("carrier"), Ratio(1, 66));
    EXPECT_EQ(set.phase("sun") - set.phase("carrier"), Ratio(1, 30));
}

// A handle that is tied to a shaft has no teeth and carries nothing.
TEST(ToothStep, OfWhatHasNoTeethIsTenDegrees) {
    TrainBuilder builder;
    const MemberIndex handle = builder.member("handle");
    const MemberIndex shaft = builder.member("shaft");
    builder.external(shaft, 12, builder.member("wheel"), 40);
    Setting setting;
    setting.tie = {{handle, shaft}};
    setting.drive = {{handle, 1}};
    Cranked set = cranked(solved(builder.build(), setting));
    set.step(1);
    EXPECT_EQ(set.phase("handle"), Ratio(1, 36));
    EXPECT_EQ(set.phase("wheel"), (Ratio(-12, 40) * Ratio(1, 36)).fraction());
}

TEST(ToothStep, WorksWhereTheDriverIsAtRest) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 0");
    set.step(1);
    EXPECT_EQ(set.phase("sun"), Ratio(1, 30));
}

TEST(TurnByHand, TurnsTheMemberByWhatIsAsked) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    EXPECT_TRUE(set.turn("carrier", "frame", 0.25));
    EXPECT_EQ(set.phase("carrier"), Ratio(1, 4));
    EXPECT_EQ(set.phase("sun"), Ratio(4, 5)) << "16/5 of it";
    EXPECT_TRUE(set.turn("planet", "carrier", -0.5));
    EXPECT_EQ(set.phase("planet"), (Ratio(-11, 3) * Ratio(1, 4) - Ratio(1, 2)).fraction())
        << "-55/48 * 16/5 = -11/3 of the carrier, then half a turn back";
    EXPECT_TRUE(teeth_in_their_gaps(set.train(), set.crank.joint_phases()));
}

TEST(TurnByHand, IsAgainstTheObserver) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    EXPECT_TRUE(set.turn("ring", "carrier", 0.25)) << "a held ring turns in the eyes of the carrier";
    EXPECT_EQ(set.phase("ring"), Ratio(0));
    EXPECT_EQ(set.phase("carrier"), Ratio(3, 4));
    EXPECT_TRUE(set.turn("frame", "carrier", -0.25));
    EXPECT_EQ(set.phase("carrier"), Ratio(0));
    EXPECT_TRUE(set.turn("sun", "carrier", 0.5)) << "the driver too";
    EXPECT_EQ((set.phase("sun") - set.phase("carrier")).fraction(), Ratio(1, 2));
}

void expect_still(Cranked set, const std::string& member, const std::string& observer) {
    SCOPED_TRACE(member + " against " + observer);
    set.run(0.125);
    const std::vector<Ratio> before = set.crank.joint_phases();
    const std::uint64_t changes = set.crank.changes();
    EXPECT_FALSE(set.turn(member, observer, 0.25));
    EXPECT_TRUE(
        Crank::parameter_turns_for(set.train(), set.motion(), set.member(member), set.member(observer)).empty());
    EXPECT_EQ(set.crank.joint_phases(), before);
    EXPECT_EQ(set.crank.changes(), changes);
}

TEST(TurnByHand, ChangesNothingWhereTheMemberCannotTurn) {
    expect_still(cranked(kSimpleSet, "hold ring; drive sun 1"), "ring", "frame");
    expect_still(cranked(kSimpleSet, "hold ring; drive sun 1"), "sun", "sun");
    expect_still(cranked(kSimpleSet, "hold ring; drive sun 1"), "frame", "ring");
    expect_still(cranked(kSimpleSet, "hold ring, carrier; drive sun 1"), "sun", "frame");
    expect_still(cranked(kSimpleSet, "hold ring, carrier"), "sun", "frame");
    expect_still(cranked(kSimpleSet, "drive sun 1, carrier 1, ring 2"), "sun", "frame");
    // At -66 to 30 rpm of sun and ring the carrier stands, (30 * -66 + 66 * 30) / 96 = 0, and no driver of its own.
    expect_still(cranked(kSimpleSet, "drive sun -66, ring 30"), "carrier", "frame");
}

TEST(TurnByHand, MovesADriverAlone) {
    Cranked set = cranked(kSimpleSet, "drive sun 7, carrier 11");
    EXPECT_TRUE(set.turn("sun", "frame", 0.25));
    EXPECT_EQ(set.phase("sun"), Ratio(1, 4));
    EXPECT_EQ(set.phase("carrier"), Ratio(0));
    EXPECT_EQ(set.phase("ring"), Ratio(-5, 44).fraction()) << "-30/66 of the sun";
    EXPECT_TRUE(set.turn("carrier", "frame", 0.25));
    EXPECT_EQ(set.phase("sun"), Ratio(1, 4));
    EXPECT_EQ(set.phase("carrier"), Ratio(1, 4));
    EXPECT_EQ(set.phase("ring"), Ratio(-5, 44).fraction() + Ratio(1, 4) * Ratio(96, 66) - Ratio(1))
        << "96/66 of the carrier more";
}

// The ring turns by (96 * 11 - 30 * 7) / 66 = 141/11 while the sun turns by 7 and the carrier by 11.
TEST(TurnByHand, MovesAllDriversInProportionToTheirSpeeds) {
    Cranked set = cranked(kSimpleSet, "drive sun 7, carrier 11");
    EXPECT_TRUE(set.turn("ring", "frame", 0.25));
    const Ratio share = Ratio(1, 4) / Ratio(141, 11);
    EXPECT_EQ(set.phase("ring"), Ratio(1, 4));
    EXPECT_EQ(set.phase("sun"), share * 7);
    EXPECT_EQ(set.phase("carrier"), share * 11);
}

// One driver too many, at a speed that agrees: the carrier's is 5/16 of the sun's.
TEST(TurnByHand, MovesADriverThatFollowsFromOthersWithThem) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 16, carrier 5");
    EXPECT_TRUE(set.turn("carrier", "frame", 0.25));
    EXPECT_EQ(set.phase("carrier"), Ratio(1, 4));
    EXPECT_EQ(set.phase("sun"), Ratio(4, 5));
}

TEST(TurnByHand, TurnsAFreeTrain) {
    Cranked set = cranked(kSimpleSet, "hold ring");
    ASSERT_EQ(set.motion().outcome, Outcome::free);
    EXPECT_TRUE(set.turn("sun", "frame", 0.125));
    EXPECT_EQ(set.phase("sun"), Ratio(1, 8));
    EXPECT_EQ(set.phase("carrier"), Ratio(5, 128));
    EXPECT_EQ(set.phase("ring"), Ratio(0));
    set.run(1.0);
    EXPECT_EQ(set.phase("sun"), Ratio(1, 8)) << "nothing drives it";
    set.step(1);
    EXPECT_EQ(set.phase("sun"), Ratio(1, 8));
    EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(0));
}

TEST(TurnByHand, LeavesTheDriverOfAFreeTrainAlone) {
    for (const char* name : {"ring", "carrier"}) {
        SCOPED_TRACE(name);
        Cranked set = cranked(kSimpleSet, "drive sun 1");
        ASSERT_EQ(set.motion().outcome, Outcome::free);
        EXPECT_TRUE(set.turn(name, "frame", 0.25));
        EXPECT_EQ(set.phase(name), Ratio(1, 4));
        EXPECT_EQ(set.phase("sun"), Ratio(0));
        EXPECT_TRUE(set.turn("sun", "frame", 0.5));
        EXPECT_EQ(set.phase("sun"), Ratio(1, 2));
        EXPECT_TRUE(teeth_in_their_gaps(set.train(), set.crank.joint_phases()));
    }
}

TEST(TurnByHand, WorksWhereMoreIsFreeThanHasANameOfItsOwn) {
    std::string pairs = "a0 20 x b0 30";
    for (int i = 1; i <= Motion::kMostFreeParameters; ++i)
        pairs += "; a" + std::to_string(i) + " 20 x b" + std::to_string(i) + " 30";
    Cranked set = cranked(solved(pairs, ""));
    ASSERT_TRUE(set.motion().free_joints.empty());
    EXPECT_TRUE(set.turn("b3", "frame", 0.25));
    EXPECT_EQ(set.phase("b3"), Ratio(1, 4));
    EXPECT_EQ(set.phase("a3"), Ratio(-3, 8).fraction());
    EXPECT_TRUE(teeth_in_their_gaps(set.train(), set.crank.joint_phases()));
}

TEST(NewSetting, GoesOnFromWhereEverythingStands) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    set.run(0.25);
    const std::vector<Ratio> before = set.crank.joint_phases();
    set.set_to("hold carrier; drive ring 3");
    EXPECT_EQ(set.crank.joint_phases(), before);
    EXPECT_EQ(set.crank.driver_turns(set.motion()), Ratio(0));
    set.run(0.5);
    EXPECT_EQ(set.phase("carrier"), Ratio(5, 64)) << "held where it stood";
    EXPECT_EQ(set.phase("ring"), Ratio(1, 2));
    EXPECT_EQ(set.phase("sun"), (Ratio(1, 4) - Ratio(11, 10)).fraction()) << "-66/30 of the ring's half turn";
    set.set_to("hold ring, carrier; drive sun 1");
    const std::vector<Ratio> locked = set.crank.joint_phases();
    set.run(1.5);
    set.step(1);
    EXPECT_EQ(set.crank.joint_phases(), locked);
    EXPECT_TRUE(teeth_in_their_gaps(set.train(), locked));
}

TEST(NewSetting, OfAnotherTrainStartsAgain) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    set.run(0.25);
    set.set = solved("a 20 x b 30", "drive a 1");
    set.crank.go_on_with(set.train(), set.motion());
    EXPECT_EQ(set.crank.joint_phases(), std::vector<Ratio>(2));
    set.run(0.25);
    set.crank.start_again(set.train(), set.motion());
    EXPECT_EQ(set.crank.joint_phases(), std::vector<Ratio>(2));
}

TEST(Changes, RiseExactlyWhereThePoseChanges) {
    Cranked set = cranked(kSimpleSet, "hold ring; drive sun 1");
    std::uint64_t changes = set.crank.changes();
    const auto risen = [&] { return std::exchange(changes, set.crank.changes()) < set.crank.changes(); };
    set.run(0.25);
    EXPECT_TRUE(risen());
    set.run(0.0);
    EXPECT_FALSE(risen());
    set.step(1);
    EXPECT_TRUE(risen());
    (void)set.turn("planet", "carrier", 0.1);
    EXPECT_TRUE(risen());
    (void)set.turn("ring", "frame", 0.1);
    EXPECT_FALSE(risen());
    set.set_to("hold carrier; drive sun 1");
    EXPECT_FALSE(risen());
    set.crank.start_again(set.train(), set.motion());
    EXPECT_TRUE(risen());
}

// A setting of any outcome: each member that rides on the frame may be held, driven or left alone.
Setting random_setting(const Train& train, Dice& dice) {
    Setting setting;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
        if (rides_on(train, {m}) != kFrame) continue;
        if (dice.chance(25)) {
            setting.hold.push_back({m});
        } else if (dice.chance(25)) {
            setting.drive.push_back({{m}, dice.speed()});
        }
    }
    return setting;
}

// One thing that the window can do.
void crank_somehow(Cranked& set, Dice& dice) {
    const auto any = [&] { return MemberIndex{dice.between(-1, static_cast<int>(set.train().members.size()) - 1)}; };
    switch (dice.between(1, 5)) {
        case 1:
            set.run(dice.between(-1000, 1000) / 137.0);
            break;
        case 2:
            set.step(dice.chance(50) ? 1 : -1);
            break;
        case 3:
            set.set = solved(set.train(), random_setting(set.train(), dice));
            set.crank.go_on_with(set.train(), set.motion());
            break;
        default: {
            const MemberIndex member = any();
            (void)set.crank.turn_member(set.train(), set.motion(), member, any(), dice.between(-1000, 1000) / 731.0);
        }
    }
}

TEST(Teeth, StayInTheirGapsWhateverIsDone) {
    std::size_t moved = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.most_members = 12, .moves = true});
        Cranked set = cranked(solved(random.train, random.setting));
        Dice dice(1000 + seed);
        for (int i = 0; i < 40; ++i) {
            const std::uint64_t before = set.crank.changes();
            crank_somehow(set, dice);
            moved += set.crank.changes() - before;
            ASSERT_TRUE(teeth_in_their_gaps(set.train(), set.crank.joint_phases())) << "after deed " << i;
        }
    }
    EXPECT_GT(moved, 500U) << "of 2400 deeds";
}

}  // namespace
}  // namespace couplet
