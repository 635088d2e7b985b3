#include "motion/pose.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "exact/decimal.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

const char* const kSimpleSet = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";

// The phase after 10^exponent turns at numerator/denominator turns each: in small whole numbers alone.
Ratio phase_after_power_of_ten(std::int64_t numerator, std::int64_t denominator, int exponent) {
    std::int64_t remainder = 1 % denominator;
    for (int k = 0; k < exponent; ++k) remainder = remainder * 10 % denominator;
    const std::int64_t phase = numerator * remainder % denominator;
    return {phase < 0 ? phase + denominator : phase, denominator};
}

class PoseAfterManyTurns : public testing::TestWithParam<int> {};

TEST_P(PoseAfterManyTurns, IsExactOnTheJointsAndOnTheFrame) {
    const int exponent = GetParam();
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 1");
    const std::vector<Ratio> joints = joint_phases_turns(set.motion, power_of_ten(exponent));
    const std::vector<Ratio> frame = frame_phases_turns(set.train, joints);
    ASSERT_EQ(joints.size(), 4U);
    ASSERT_EQ(frame.size(), 4U);
    const std::size_t sun = member_named(set.train, "sun").position();
    const std::size_t planet = member_named(set.train, "planet").position();
    const std::size_t ring = member_named(set.train, "ring").position();
    const std::size_t carrier = member_named(set.train, "carrier").position();
    EXPECT_EQ(joints[sun], Ratio(0));
    EXPECT_EQ(joints[ring], Ratio(0));
    EXPECT_EQ(joints[carrier], phase_after_power_of_ten(5, 16, exponent));
    EXPECT_EQ(joints[planet], phase_after_power_of_ten(-55, 48, exponent));
    EXPECT_EQ(frame[carrier], joints[carrier]);
    EXPECT_EQ(frame[planet], phase_after_power_of_ten(-5, 6, exponent));
}

INSTANTIATE_TEST_SUITE_P(PowersOfTen, PoseAfterManyTurns, testing::Values(0, 1, 6, 18, 19, 30, 300),
                         [](const auto& row) { return "E" + std::to_string(row.param); });

TEST(Pose, IsAsSharpAfterManyTurnsAsAtTheStart) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 1");
    // 48 turns of the sun are whole turns of every joint; what is left is a little past the start.
    const Ratio little(1, 1000);
    const std::vector<Ratio> start = joint_phases_turns(set.motion, little);
    const std::vector<Ratio> late = joint_phases_turns(set.motion, Ratio(48) * power_of_ten(30) + little);
    EXPECT_EQ(late, start);
    for (std::size_t m = 0; m < start.size(); ++m) EXPECT_EQ(late[m].to_double(), start[m].to_double());
}

TEST(Pose, CountsBackwardsToo) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 1");
    const std::size_t carrier = member_named(set.train, "carrier").position();
    EXPECT_EQ(joint_phases_turns(set.motion, -1)[carrier], Ratio(11, 16));
    EXPECT_EQ(joint_phases_turns(set.motion, Ratio(-16, 5))[carrier], Ratio(0));
    EXPECT_EQ(joint_phases_turns(set.motion, Ratio(16, 50))[carrier], Ratio(1, 10));
}

TEST(Pose, StartsWithEveryPhaseAtZero) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 7, carrier 11");
    EXPECT_EQ(joint_phases_turns(set.motion, 0), std::vector<Ratio>(4));
}

TEST(Pose, RunsAllDriversAtTheirSpeeds) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 7, carrier 11");
    const std::vector<Ratio> phases = joint_phases_turns(set.motion, 5);
    // Five turns of the sun, the first driver that runs, take 5/7 of a minute.
    EXPECT_EQ(phases[member_named(set.train, "sun").position()], Ratio(0));
    EXPECT_EQ(phases[member_named(set.train, "carrier").position()], (Ratio(5, 7) * 11).fraction());
    EXPECT_EQ(phases[member_named(set.train, "ring").position()], (Ratio(5, 7) * set.turns("ring")).fraction());
}

TEST(Pose, LeavesADriverAtRestWhereItIs) {
    const SolvedTrain set = solved(kSimpleSet, "drive ring 0, sun 3");
    const std::vector<Ratio> phases = joint_phases_turns(set.motion, 1);
    EXPECT_EQ(phases[member_named(set.train, "ring").position()], Ratio(0));
    EXPECT_EQ(phases[member_named(set.train, "carrier").position()], Ratio(5, 16));
}

TEST(Pose, PhasesAreBelowOneTurnAndAddUp) {
    const Ratio turns = parse_ratio("123456789012345678901234567890.0625").value();
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.moves = true});
        const Motion motion = solve(random.train, random.setting);
        const std::vector<Ratio> joints = joint_phases_turns(motion, turns);
        const std::vector<Ratio> frame = frame_phases_turns(random.train, joints);
        ASSERT_EQ(joints.size(), random.train.members.size());
        ASSERT_EQ(frame.size(), random.train.members.size());
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(joints.size()); ++m) {
            const std::size_t at = static_cast<std::size_t>(m);
            for (const Ratio& phase : {joints[at], frame[at]}) {
                EXPECT_GE(phase, Ratio(0));
                EXPECT_LT(phase, Ratio(1));
            }
            const Ratio rate = turns_per_driver_turn(motion, rate_on(random.train, motion, {m}, kFrame)).value();
            EXPECT_EQ(frame[at], (rate * turns).fraction());
        }
    }
}

TEST(Pose, AddsUpWhatEachParameterTurnsARate) {
    const std::vector<Ratio> rate = {Ratio(1, 3), Ratio(0), Ratio(-2)};
    const std::vector<Ratio> turns = {Ratio(6), Ratio(5), Ratio(1, 4)};
    EXPECT_EQ(turned(rate, turns), Ratio(3, 2));
    EXPECT_EQ(turned({}, {}), Ratio(0));
}

TEST(Pose, IsForSettingsThatMoveOnly) {
    for (const char* setting : {"drive sun 1", "hold ring, carrier; drive sun 1", "drive sun 1, carrier 1, ring 2"}) {
        const SolvedTrain set = solved(kSimpleSet, setting);
        EXPECT_THROW((void)joint_phases_turns(set.motion, 1), std::invalid_argument) << setting;
    }
}

TEST(PoseAfterParameters, AddsTheTurnsOfEachDriver) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 7, carrier 11");
    const std::vector<Ratio> phases = joint_phases_after(set.motion, {Ratio(1, 3), Ratio(1, 5)});
    EXPECT_EQ(phases[member_named(set.train, "sun").position()], Ratio(1, 3));
    EXPECT_EQ(phases[member_named(set.train, "carrier").position()], Ratio(1, 5));
    // 66 ring + 30 sun = 96 carrier (Willis).
    EXPECT_EQ(phases[member_named(set.train, "ring").position()],
              ((Ratio(96) * Ratio(1, 5) - Ratio(30) * Ratio(1, 3)) / 66).fraction());
}

TEST(PoseAfterParameters, IsThePoseAfterTurnsWhereDriversRunTogether) {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.moves = true});
        const Motion motion = solve(random.train, random.setting);
        const Ratio turns(1234567, 89);
        EXPECT_EQ(joint_phases_after(motion, parameter_turns_of_drivers(motion, turns)),
                  joint_phases_turns(motion, turns));
    }
}

TEST(PoseAfterParameters, PosesAFreeTrain) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 1");
    ASSERT_EQ(set.motion.free_joints.size(), 1U);
    const std::size_t free_joint = set.motion.free_joints.front().position();
    const std::size_t sun = member_named(set.train, "sun").position();
    const std::vector<Ratio> phases = joint_phases_after(set.motion, {Ratio(1, 3), Ratio(-5, 4)});
    EXPECT_EQ(phases[sun], Ratio(1, 3));
    EXPECT_EQ(phases[free_joint], Ratio(3, 4));
    // 66 ring + 30 sun = 96 carrier (Willis), up to whole turns of each.
    const Ratio off = Ratio(66) * phases[member_named(set.train, "ring").position()] + Ratio(30) * phases[sun] -
                      Ratio(96) * phases[member_named(set.train, "carrier").position()];
    EXPECT_TRUE((off / 6).is_whole()) << "6 divides 66, 30 and 96";
}

TEST(PoseAfterParameters, NeedsAMotionAndAllItsParameters) {
    const SolvedTrain moving = solved(kSimpleSet, "drive sun 7, carrier 11");
    EXPECT_THROW((void)joint_phases_after(moving.motion, {Ratio(1)}), std::invalid_argument);
    EXPECT_THROW((void)joint_phases_after(moving.motion, std::vector<Ratio>(3)), std::invalid_argument);
    const SolvedTrain locked = solved(kSimpleSet, "hold ring, carrier; drive sun 1");
    EXPECT_THROW((void)joint_phases_after(locked.motion, {Ratio(1)}), std::invalid_argument);
    const SolvedTrain conflicting = solved(kSimpleSet, "drive sun 1, carrier 1, ring 2");
    EXPECT_THROW((void)joint_phases_after(conflicting.motion, std::vector<Ratio>(3)), std::invalid_argument);
}

TEST(DriverTurns, KeepTheProportionOfTheSpeeds) {
    const auto turns_of = [](const char* setting) {
        return parameter_turns_of_drivers(solved(kSimpleSet, setting).motion, Ratio(5, 2));
    };
    EXPECT_EQ(turns_of("drive sun 7, carrier -11"), (std::vector<Ratio>{Ratio(5, 2), Ratio(-55, 14)}));
    EXPECT_EQ(turns_of("drive ring 0, sun 3"), (std::vector<Ratio>{Ratio(0), Ratio(5, 2)}));
    EXPECT_EQ(turns_of("drive ring 0, sun 0"), (std::vector<Ratio>{Ratio(5, 2), Ratio(0)}));
    EXPECT_EQ(turns_of("drive sun 3"), (std::vector<Ratio>{Ratio(5, 2), Ratio(0)})) << "a free joint stands";
    EXPECT_EQ(turns_of("hold ring"), std::vector<Ratio>{}) << "no driver";
}

}  // namespace
}  // namespace couplet
