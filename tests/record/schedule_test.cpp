#include "record/schedule.hpp"

#include <stdexcept>

#include "motion/loop.hpp"
#include "motion/pose.hpp"
#include "support/ratio_printer.hpp"
#include "support/shipped_scenes.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

Motion capstan_motion(std::size_t setting) {
    const Train train = shipped_train("harbour_capstan");
    return solve(train, train.settings.at(setting));
}

bool all_zero(const std::vector<Ratio>& phases) {
    return std::ranges::all_of(phases, [](const Ratio& phase) { return phase.is_zero(); });
}

TEST(Schedule, ShowsAtFrameKJustThatPartOfTheTurns) {
    const Schedule schedule{30, 300, {{capstan_motion(0), Ratio(40, 7)}}};
    for (int k = 0; k <= 300; ++k) {
        const Instant instant = instant_at(schedule, k);
        ASSERT_EQ(instant.part, Ratio(k, 300));
        ASSERT_EQ(instant.leg, 0U);
        ASSERT_EQ(instant.leg_turns, Ratio(40, 7) * Ratio(k, 300));
        ASSERT_EQ(instant.joint_phases_turns, joint_phases_turns(schedule.legs[0].motion, Ratio(40 * k, 2100)));
    }
}

TEST(Schedule, ShowsWhatLiesBetweenFrames) {
    const Schedule schedule{24, 10, {{capstan_motion(0), 3}}};
    // 3 turns x 7/2 of 10 frames.
    EXPECT_EQ(instant_at(schedule, Ratio(7, 2)).leg_turns, Ratio(21, 20));
    EXPECT_EQ(instant_at(schedule, Ratio(7, 2)).part, Ratio(7, 20));
}

TEST(Schedule, TurnsTheOtherWayWhereTurnsAreNegative) {
    const Motion motion = capstan_motion(0);
    const Schedule schedule{30, 8, {{motion, -1}}};
    const Instant instant = instant_at(schedule, 2);
    EXPECT_EQ(instant.leg_turns, Ratio(-1, 4));
    // The crank is the first member: a quarter back.
    EXPECT_EQ(instant.joint_phases_turns[0], Ratio(3, 4));
}

// The seam: the instant after the last frame is frame 0 itself, for every setting that moves of every shipped scene.
TEST(Schedule, ClosesAStrictLoopExactly) {
    int loops = 0;
    for (const std::string& name : shipped_names()) {
        const Train train = shipped_train(name);
        for (const Setting& setting : train.settings) {
            const Motion motion = solve(train, setting);
            const std::optional<Ratio> strict = strict_loop_turns(motion);
            if (!strict) continue;
            ++loops;
            const Schedule schedule{30, 97, {{motion, *strict}}};
            const Instant first = instant_at(schedule, 0);
            const Instant after = instant_at(schedule, 97);
            EXPECT_TRUE(all_zero(first.joint_phases_turns)) << name;
            EXPECT_TRUE(all_zero(after.joint_phases_turns)) << name << ", " << setting.name;
            // The loop is the shortest, so half of it is none.
            const Schedule half{30, 97, {{motion, *strict / Ratio(2)}}};
            EXPECT_FALSE(all_zero(instant_at(half, 97).joint_phases_turns)) << name << ", " << setting.name;
        }
    }
    EXPECT_GE(loops, static_cast<int>(shipped_names().size()) - 2) << "most scenes have a setting that moves";
}

TEST(Schedule, StepsFromTheLastFrameToTheFirstAsFromAnyToTheNext) {
    const Motion motion = capstan_motion(0);
    const Schedule schedule{30, 300, {{motion, *strict_loop_turns(motion)}}};
    const auto step = [&](int from) {
        std::vector<Ratio> way = instant_at(schedule, from + 1).joint_phases_turns;
        const std::vector<Ratio> before = instant_at(schedule, from).joint_phases_turns;
        for (std::size_t m = 0; m < way.size(); ++m) way[m] = (way[m] - before[m]).fraction();
        return way;
    };
    EXPECT_EQ(step(299), step(0));
    EXPECT_EQ(step(299), step(137));
}

// 3 p^2 - 2 p^3: 5/32 at 1/4, 1/2 at 1/2, 27/32 at 3/4.
TEST(Schedule, EasesEachOfSeveralLegs) {
    const Schedule schedule{30, 80, {{capstan_motion(0), 4}, {capstan_motion(2), 32}}};
    EXPECT_EQ(instant_at(schedule, 10).leg_turns, Ratio(4 * 5, 32));
    EXPECT_EQ(instant_at(schedule, 20).leg_turns, Ratio(2));
    EXPECT_EQ(instant_at(schedule, 30).leg_turns, Ratio(4 * 27, 32));
    EXPECT_EQ(instant_at(schedule, 50).leg, 1U);
    EXPECT_EQ(instant_at(schedule, 50).leg_turns, Ratio(5));
    EXPECT_EQ(instant_at(schedule, 80).leg_turns, Ratio(32));
}

TEST(Schedule, HasNoSpeedWhereALegBeginsOrEnds) {
    const Schedule schedule{30, 80, {{capstan_motion(0), 4}, {capstan_motion(2), 32}}};
    const Ratio instant(1, 1'000'000);
    // A way of 3 p^2 or less in the part p; anything with a speed of its own goes a way of p.
    const Ratio p = instant / Ratio(40);
    EXPECT_LE(instant_at(schedule, instant).leg_turns, Ratio(4 * 3) * p * p);
    EXPECT_LE(Ratio(4) - instant_at(schedule, Ratio(40) - instant).leg_turns, Ratio(4 * 3) * p * p);
    EXPECT_LE(instant_at(schedule, Ratio(40) + instant).leg_turns, Ratio(32 * 3) * p * p);
    EXPECT_LE(Ratio(32) - instant_at(schedule, Ratio(80) - instant).leg_turns, Ratio(32 * 3) * p * p);
}

TEST(Schedule, GoesOnFromWhereTheLegBeforeEnded) {
    const Motion first = capstan_motion(0);
    const Motion second = capstan_motion(2);
    const Schedule schedule{30, 80, {{first, Ratio(5, 3)}, {second, Ratio(-7, 4)}}};
    const std::vector<Ratio> of_first = joint_phases_turns(first, Ratio(5, 3));
    EXPECT_EQ(instant_at(schedule, 40).joint_phases_turns, of_first);
    std::vector<Ratio> of_both = joint_phases_turns(second, Ratio(-7, 4));
    for (std::size_t m = 0; m < of_both.size(); ++m) of_both[m] = (of_both[m] + of_first[m]).fraction();
    EXPECT_EQ(instant_at(schedule, 80).joint_phases_turns, of_both);
    // From just before the boundary to just after it no phase jumps, the way round the circle.
    const Ratio instant(1, 1000);
    const std::vector<Ratio> before = instant_at(schedule, Ratio(40) - instant).joint_phases_turns;
    const std::vector<Ratio> after = instant_at(schedule, Ratio(40) + instant).joint_phases_turns;
    for (std::size_t m = 0; m < before.size(); ++m) {
        const Ratio way = (after[m] - before[m]).fraction();
        EXPECT_LT(std::min(way, Ratio(1) - way), Ratio(1, 1'000'000)) << "member " << m;
    }
}

TEST(Schedule, StaysWhereItIsThroughALegThatStands) {
    const Motion moving = capstan_motion(0);
    const Schedule ends_standing{30, 20, {{moving, Ratio(5, 3)}, {resting_motion(), 0}}};
    const std::vector<Ratio> there = joint_phases_turns(moving, Ratio(5, 3));
    for (int k = 10; k <= 20; ++k) EXPECT_EQ(instant_at(ends_standing, k).joint_phases_turns, there);
    const Schedule begins_standing{30, 20, {{resting_motion(), 0}, {moving, Ratio(5, 3)}}};
    EXPECT_TRUE(all_zero(instant_at(begins_standing, 10).joint_phases_turns));
    EXPECT_EQ(instant_at(begins_standing, 20).joint_phases_turns, there);
}

// The steepest slope of 3 p^2 - 2 p^3 is 3/2, at 1/2.
TEST(Schedule, KnowsHowFastALegRunsAtMost) {
    const Motion motion = capstan_motion(0);
    for (const std::size_t legs : {1U, 2U, 3U}) {
        Schedule schedule{30, 600, {}};
        for (std::size_t i = 0; i < legs; ++i) schedule.legs.push_back({motion, 1});
        const Ratio mean(static_cast<std::int64_t>(legs), 600);
        Ratio fastest;
        for (int k = 0; k < 600 / static_cast<int>(legs); ++k)
            fastest = std::max(fastest,
                               instant_at(schedule, Ratio(2 * k + 1, 2)).leg_turns - instant_at(schedule, k).leg_turns);
        fastest *= Ratio(2);
        EXPECT_LE(fastest, top_speed(legs) * mean);
        EXPECT_GE(fastest, top_speed(legs) * mean * Ratio(999, 1000)) << legs << " legs: it does get that fast";
    }
}

TEST(Schedule, RefusesWhatIsNoClip) {
    const Motion motion = capstan_motion(0);
    EXPECT_THROW((void)instant_at({30, 10, {}}, 0), std::invalid_argument);
    EXPECT_THROW((void)instant_at({30, 0, {{motion, 1}}}, 0), std::invalid_argument);
    EXPECT_THROW((void)instant_at({30, 10, {{motion, 1}}}, -1), std::invalid_argument);
    EXPECT_THROW((void)instant_at({30, 10, {{motion, 1}}}, Ratio(101, 10)), std::invalid_argument);
    EXPECT_NO_THROW((void)instant_at({30, 10, {{motion, 1}}}, 10));
}

}  // namespace
}  // namespace couplet
