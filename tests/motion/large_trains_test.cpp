// Trains far beyond a bench top: exact, or refused in so many words.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "motion/motion.hpp"
#include "motion/pose.hpp"
#include "support/flint_rates.hpp"
#include "support/outcome_printer.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_builder.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

MemberIndex member_at(std::size_t position) {
    return {static_cast<std::int32_t>(position)};
}

TEST(LargeTrain, OfFiveHundredFiveDigitMeshesIsExact) {
    const FamilyTrain chain = compound_chain(500);
    const Motion motion = solve(chain.train, chain.setting);
    ASSERT_EQ(motion.outcome, Outcome::moves);
    std::vector<Ratio> steps;
    for (std::size_t mesh = 0; mesh < 500; ++mesh) {
        const Mesh& between = chain.train.meshes[mesh];
        steps.emplace_back(-chain.train[between.first].teeth, chain.train[between.second].teeth);
        EXPECT_EQ(motion.joint_rate(member_at(mesh + 1))[0], product_by_flint(steps)) << mesh;
    }
    EXPECT_GT(motion.joint_rate(member_at(500))[0].denominator().to_string().size(), 1000U);
    EXPECT_GT(motion.joint_rate(member_at(500))[0].numerator().to_string().size(), 1000U);
}

TEST(LargeTrain, OfThousandsOfEqualStagesStaysInMachineWordsUntilItsValues) {
    const FamilyTrain stages = family_c(10000);
    ASSERT_EQ(stages.train.members.size(), 10000U);
    const Motion motion = solve(stages.train, stages.setting);
    ASSERT_EQ(motion.outcome, Outcome::moves);
    EXPECT_EQ(motion.steps_beyond_words, 0);
    // Members: sun1, then carrier, ring and planet of each stage. A stage turns 16/5 down: 1 + 66/30.
    Ratio carrier = 1;
    for (std::size_t stage = 0; stage < 3333; ++stage) {
        const Ratio sun = carrier;
        carrier *= Ratio(5, 16);
        ASSERT_EQ(motion.joint_rate(member_at(3 * stage + 1))[0], carrier) << stage;
        ASSERT_EQ(motion.joint_rate(member_at(3 * stage + 2))[0], Ratio(0)) << stage;
        // The planet on its carrier: -30/18 of the sun on the carrier.
        ASSERT_EQ(motion.joint_rate(member_at(3 * stage + 3))[0], (sun - carrier) * Ratio(-30, 18)) << stage;
    }
}

TEST(LargeTrain, OfStagesThatShareTwoMembersIsExactEitherWayItIsDriven) {
    const FamilyTrain near = family_b(400, DriverPlace::beside_the_held);
    const FamilyTrain far = family_b(400, DriverPlace::far_end);
    const Motion near_motion = solve(near.train, near.setting);
    const Motion far_motion = solve(far.train, far.setting);
    ASSERT_EQ(near_motion.outcome, Outcome::moves);
    ASSERT_EQ(far_motion.outcome, Outcome::moves);
    // One motion told by two drivers: all rates differ by one factor.
    const Ratio factor = near_motion.joint_rate(far.setting.drive[0].member)[0];
    EXPECT_GT(factor.bits(), 640U);
    for (std::size_t m = 0; m < near.train.members.size(); ++m)
        EXPECT_EQ(near_motion.joint_rate(member_at(m))[0], far_motion.joint_rate(member_at(m))[0] * factor);
}

TEST(LargeTrain, OfAHundredThousandIdlersIsExact) {
    const FamilyTrain chain = idler_chain(100000);
    ASSERT_EQ(chain.train.members.size(), static_cast<std::size_t>(kMostMembers));
    const Motion motion = solve(chain.train, chain.setting);
    ASSERT_EQ(motion.outcome, Outcome::moves);
    EXPECT_EQ(motion.steps_beyond_words, 0);
    for (std::size_t m = 0; m < chain.train.members.size(); ++m)
        ASSERT_EQ(motion.joint_rate(member_at(m))[0],
                  Ratio((m % 2 == 0 ? 1 : -1) * chain.train.gears[0].teeth, chain.train.gears[m].teeth));
}

TEST(LargeTrain, OfAHundredThousandIdlersHeldAtItsEndIsLocked) {
    FamilyTrain chain = idler_chain(100000);
    chain.setting.hold.push_back(member_at(99999));
    const Motion motion = solve(chain.train, chain.setting);
    EXPECT_EQ(motion.outcome, Outcome::locked);
    EXPECT_EQ(motion.freedom, 0);
}

TEST(LargeTrain, OfManySmallSetsPosesExactly) {
    const FamilyTrain sets = many_small_sets(10000);
    const Motion motion = solve(sets.train, sets.setting);
    ASSERT_EQ(motion.outcome, Outcome::moves);
    const Ratio turns(12345678, 1000);
    const std::vector<Ratio> phases = joint_phases_turns(motion, turns);
    ASSERT_EQ(phases.size(), 10000U);
    for (std::size_t m = 0; m < phases.size(); ++m)
        EXPECT_EQ(phases[m], (motion.joint_rate(member_at(m))[0] * turns).fraction());
}

TEST(LargeTrain, OfAHundredThousandMembersThatRideOnOneAnotherIsFree) {
    TrainBuilder builder;
    MemberIndex top = builder.member("m0");
    for (int m = 1; m < kMostMembers; ++m) top = builder.member("m" + std::to_string(m), top);
    const Motion motion = solve(builder.build(), {"", {}, {}, {{top, 1}}});
    EXPECT_EQ(motion.outcome, Outcome::free);
    EXPECT_EQ(motion.missing_drivers, kMostMembers - 1);
}

TEST(LargeTrain, OfAHundredThousandPlanetsRoundOneSunIsExact) {
    TrainBuilder builder;
    const MemberIndex sun = builder.member("sun");
    const MemberIndex carrier = builder.member("carrier");
    const MemberIndex ring = builder.member("ring");
    for (int p = 3; p < kMostMembers; ++p) {
        const MemberIndex planet = builder.member("planet" + std::to_string(p), carrier);
        builder.external(sun, 30, planet, 18);
        builder.internal(planet, 18, ring, 66);
    }
    const Train train = builder.build();
    const Motion held = solve(train, {"", {ring}, {}, {{sun, 1}}});
    ASSERT_EQ(held.outcome, Outcome::moves);
    EXPECT_EQ(held.joint_rate(carrier)[0], Ratio(5, 16));
    EXPECT_EQ(held.joint_rate(member_at(99999))[0], Ratio(-55, 48));
    const Motion free = solve(train, {"", {}, {}, {{sun, 1}}});
    EXPECT_EQ(free.outcome, Outcome::free);
    EXPECT_EQ(free.missing_drivers, 1);
}

TEST(LargeTrain, IsRefusedWhereItsEquationsWouldNotFit) {
    // Holding one of forty thousand members that ride on one another is an equation of all those below it.
    TrainBuilder builder;
    Setting setting;
    MemberIndex top = builder.member("m0");
    for (int m = 1; m < 40000; ++m) top = builder.member("m" + std::to_string(m), top);
    for (std::int32_t m = 0; m < 39999; m += 5) setting.hold.push_back({m});
    setting.drive.push_back({top, 1});
    EXPECT_THROW((void)solve(builder.build(), setting), RatesTooLarge);
}

TEST(LargeTrain, IsRefusedWhereItsRatesWouldNotFit) {
    // Fifty thousand shafts, the last with a rate of half a million digits: gigabytes together.
    const FamilyTrain chain = compound_chain(50000);
    EXPECT_THROW((void)solve(chain.train, chain.setting), RatesTooLarge);
}

}  // namespace
}  // namespace couplet
