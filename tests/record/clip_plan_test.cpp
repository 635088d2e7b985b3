#include "record/clip_plan.hpp"

#include <stdexcept>

#include "motion/pose.hpp"
#include "support/ratio_printer.hpp"
#include "support/shipped_scenes.hpp"
#include "support/simple_set.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

struct Planned {
    Train train;
    TrainTeeth teeth = teeth_of(train);
    Placement placement = place_members(train, teeth);
    StartingRotations rotations = starting_rotations(train, placement);

    [[nodiscard]] ClipPlan operator()(const ClipWish& wish) const {
        return plan_clip(train, placement, rotations, wish);
    }
};

Planned capstan() {
    return {shipped_train("harbour_capstan")};
}

ClipWish wish_for(const Train& train, std::initializer_list<std::size_t> settings = {0}) {
    ClipWish wish;
    for (const std::size_t setting : settings) wish.settings.push_back(train.settings.at(setting));
    return wish;
}

Planned made_of(Train train) {
    train.teeth.module_mm = Ratio(2);
    return {std::move(train)};
}

// The largest part of a pitch that a tooth of the reference driver's gear moves by from frame to frame.
Ratio largest_step_pitches(const Schedule& schedule, std::size_t leg, int teeth) {
    Ratio largest;
    for (int k = 0; k < schedule.frames; ++k) {
        const Instant now = instant_at(schedule, k);
        const Instant next = instant_at(schedule, k + 1);
        if (now.leg != leg || next.leg != leg) continue;
        largest = std::max(largest, (next.leg_turns - now.leg_turns).magnitude() * Ratio(teeth));
    }
    return largest;
}

// Worked out in pacing_test.cpp: 240 turns until every tooth is back, 10/7 until it looks alike; 30 rpm for 10 s are 5
// turns, 3.5 loops of 10/7, so 4.
TEST(ClipPlan, IsALoopNearTheDriversSpeedWhereNothingIsAskedFor) {
    const Planned planned = capstan();
    const ClipPlan plan = planned(wish_for(planned.train));
    EXPECT_EQ(plan.schedule.frames, 300);
    EXPECT_EQ(plan.schedule.fps, Ratio(30));
    ASSERT_EQ(plan.legs.size(), 1U);
    EXPECT_EQ(plan.legs[0].loops->strict, Ratio(240));
    EXPECT_EQ(plan.legs[0].loops->alike, Ratio(10, 7));
    EXPECT_EQ(plan.legs[0].pace.loop, LoopKind::alike);
    EXPECT_EQ(plan.legs[0].pace.loops, 4);
    EXPECT_EQ(plan.schedule.legs.at(0).turns, Ratio(40, 7));
    EXPECT_TRUE(plan.plain) << "a mark would jump at the seam";
}

TEST(ClipPlan, ShowsMarksWhereEveryToothIsBack) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    wish.loop = LoopKind::strict;
    wish.seconds = 336;
    const ClipPlan plan = planned(wish);
    EXPECT_EQ(plan.schedule.legs.at(0).turns, Ratio(240));
    EXPECT_FALSE(plan.plain);
    EXPECT_TRUE(plan.legs[0].pace.followable) << "2 x 21 x 240 = 10080 frames";
}

TEST(ClipPlan, CountsItsFramesToTheNearest) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    wish.fps = Ratio(30000, 1001);
    wish.seconds = 2;
    EXPECT_EQ(planned(wish).schedule.frames, 60) << "59.94";
    wish.seconds = Ratio(1, 40);
    EXPECT_EQ(planned(wish).schedule.frames, 1) << "0.749";
}

// Wheels of 10 and 37 teeth: back after 37 turns of 10 pitches, 740 frames, 24.7 s. With 47 teeth it would be 31.3 s.
TEST(ClipPlan, GrowsToThirtySecondsWhereItsLoopNeedsThat) {
    const auto frames = [](const char* train_text, std::optional<LoopKind> loop) {
        const Planned planned = made_of(train_from(train_text));
        ClipWish wish;
        wish.settings = {setting_from(planned.train, "drive a 30")};
        wish.loop = loop;
        return planned(wish).schedule.frames;
    };
    EXPECT_EQ(frames("a 10 x b 37", LoopKind::strict), 740);
    EXPECT_EQ(frames("a 10 x b 47", LoopKind::strict), 300);
    EXPECT_EQ(frames("a 10 x b 37", std::nullopt), 300) << "that it looks alike takes a tenth of a turn";
    EXPECT_EQ(frames("a 10 x b 37", LoopKind::none), 300);
}

// With one planet the carrier must come round: 30/7 turns of 21 pitches, 180 frames; 10 s at 10 fps are 100.
TEST(ClipPlan, GrowsForTheLoopThatLooksAlikeToo) {
    SimpleSetCounts counts;
    counts.copies = 1;
    const Planned planned =
        made_of(read_scene(simple_set_text(counts) + "[[setting]]\nname = \"s\"\nhold = [\"ring\"]\n"
                                                     "drive = { sun = 30 }\n",
                           "set.toml"));
    ClipWish wish = wish_for(planned.train);
    wish.fps = 10;
    const ClipPlan plan = planned(wish);
    EXPECT_EQ(plan.legs[0].loops->alike, Ratio(30, 7));
    EXPECT_EQ(plan.schedule.frames, 180);
    EXPECT_TRUE(plan.legs[0].pace.followable);
}

TEST(ClipPlan, TakesTheTurnsThatAreAskedForAndNoLoop) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    wish.turns = Ratio(-7, 3);
    const ClipPlan plan = planned(wish);
    EXPECT_EQ(plan.schedule.legs.at(0).turns, Ratio(-7, 3));
    EXPECT_EQ(plan.legs[0].pace.loop, LoopKind::none);
    EXPECT_EQ(plan.legs[0].pace.turns, Ratio(7, 3));
    EXPECT_TRUE(plan.legs[0].pace.followable);
    EXPECT_FALSE(plan.plain);
    wish.turns = 8;  // 2 x 21 x 8 = 336 frames of 300
    EXPECT_FALSE(planned(wish).legs[0].pace.followable);
}

// "lowering" drives the drum at -3.5 rpm.
TEST(ClipPlan, TurnsTheWayThatTheSettingDrives) {
    const Planned planned = capstan();
    const ClipPlan plan = planned(wish_for(planned.train, {1}));
    EXPECT_LT(plan.schedule.legs.at(0).turns, Ratio(0));
    EXPECT_EQ(plan.schedule.legs.at(0).turns, -plan.legs[0].pace.turns);
    EXPECT_GT(plan.legs[0].pace.turns, Ratio(0));
}

TEST(ClipPlan, StandsWhereTheSettingIsLocked) {
    const Planned planned{shipped_train("stuck_sluice")};
    std::size_t locked = 0;
    for (std::size_t i = 0; i < planned.train.settings.size(); ++i) {
        if (solve(planned.train, planned.train.settings[i]).outcome != Outcome::locked) continue;
        ++locked;
        const ClipPlan plan = planned(wish_for(planned.train, {i}));
        EXPECT_FALSE(plan.legs.at(0).loops);
        EXPECT_EQ(plan.schedule.legs.at(0).turns, Ratio(0));
        EXPECT_EQ(plan.schedule.frames, 300);
        EXPECT_EQ(plan_words(planned.train, plan, PlanReader::command_line),
                  (std::vector<std::string>{"The train stands: its setting is locked."}));
    }
    EXPECT_GT(locked, 0U);
}

// From the drum the ring and the frame run round: after 10/7 turns the drum has made 1/3, so three such loops bring the
// bench back. From a planet, -7/16 per turn: 10/7 -> -5/8, eight loops; the drum then has made 8/3, three times that.
TEST(ClipPlan, BringsTheFrameBackTooWhereAMemberWatches) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    for (const auto& [name, alike] :
         {std::pair{"drum", Ratio(30, 7)}, {"planet", Ratio(240, 7)}, {"ring", Ratio(10, 7)}}) {
        wish.observer = find_member(planned.train, name).value();
        const ClipPlan plan = planned(wish);
        EXPECT_EQ(plan.legs[0].loops->alike, alike) << name;
        EXPECT_EQ(plan.legs[0].loops->strict, Ratio(240)) << name;
        const Motion& motion = plan.schedule.legs[0].motion;
        const std::vector<Ratio> phases = frame_phases_turns(planned.train, joint_phases_turns(motion, alike));
        EXPECT_EQ(phases[wish.observer.position()], Ratio(0)) << name;
    }
}

// Two legs of 150 frames: 2.5 turns of the crank's own, 1.75 loops of 10/7. In the middle a leg runs at 3/2 of its mean
// speed, so 2 loops of 30 pitches would pass 3/2 x 60 / 150 = 0.6 of a pitch a frame, and one loop 0.3.
TEST(ClipPlan, AllowsForTheSpeedInTheMiddleOfALeg) {
    const Planned planned = capstan();
    const ClipPlan plan = planned(wish_for(planned.train, {0, 2}));
    ASSERT_EQ(plan.schedule.legs.size(), 2U);
    EXPECT_EQ(plan.schedule.frames, 300);
    EXPECT_EQ(plan.schedule.legs[0].turns, Ratio(10, 7));
    for (std::size_t leg = 0; leg < 2; ++leg) {
        EXPECT_TRUE(plan.legs[leg].pace.followable);
        EXPECT_GT(plan.legs[leg].pace.loops, 0);
        EXPECT_LE(largest_step_pitches(plan.schedule, leg, 21), Ratio(1, 2)) << "leg " << leg;
    }
}

// At 10 fps, 10 s are 100 frames, 50 a leg. One loop of 30 pitches needs 2 x 3/2 x 30 = 90 of them.
TEST(ClipPlan, GrowsForEachOfItsLegs) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train, {0, 0});
    wish.fps = 10;
    const ClipPlan plan = planned(wish);
    EXPECT_EQ(plan.schedule.frames, 180);
    for (std::size_t leg = 0; leg < 2; ++leg) {
        EXPECT_EQ(plan.legs[leg].pace.loop, LoopKind::alike);
        EXPECT_LE(largest_step_pitches(plan.schedule, leg, 21), Ratio(1, 2));
    }
}

TEST(ClipPlan, IsALoopAsAWholeWhereEachLegIs) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train, {0, 3});
    wish.loop = LoopKind::strict;
    const ClipPlan plan = planned(wish);
    for (const Ratio& phase : instant_at(plan.schedule, plan.schedule.frames).joint_phases_turns)
        EXPECT_EQ(phase, Ratio(0));
}

TEST(ClipPlan, RefusesWhatHasNoFrames) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    wish.seconds = Ratio(1, 100);
    EXPECT_THROW((void)planned(wish), std::invalid_argument) << "0.3 frames";
    wish.seconds = Ratio(kMostFrames, 30);
    EXPECT_EQ(planned(wish).schedule.frames, kMostFrames);
    wish.seconds = Ratio(kMostFrames + 1, 30);
    EXPECT_THROW((void)planned(wish), std::invalid_argument);
    EXPECT_THROW((void)planned(ClipWish{}), std::invalid_argument) << "no setting";
}

TEST(ClipPlan, SaysTurnsInWords) {
    EXPECT_EQ(turns_text(1), "1 turn");
    EXPECT_EQ(turns_text(240), "240 turns");
    EXPECT_EQ(turns_text(Ratio(10, 7)), "10/7 turns (1.429)");
}

TEST(PlanWords, SayWhatItDoesWhichLoopsThereAreAndWhatItWouldTake) {
    const Planned planned = capstan();
    const std::vector<std::string> words =
        plan_words(planned.train, planned(wish_for(planned.train)), PlanReader::command_line);
    EXPECT_EQ(words,
              (std::vector<std::string>{
                  "crank makes 40/7 turns (5.714): 4 loops, teeth and copies being alike: marks and holes are "
                  "left off.",
                  "Loops: 240 turns of crank until every tooth is back, 10/7 turns (1.429) until it looks alike.",
                  // 2 x 21 x 240 / 30 s.
                  "The eye can follow the loop with every tooth back in 336 s or more: --loop strict --seconds "
                  "336.",
              }));
}

TEST(PlanWords, AdviseWhatIsTrue) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    wish.loop = LoopKind::strict;
    wish.seconds = 336;
    EXPECT_TRUE(planned(wish).legs[0].pace.followable);
    wish.seconds = Ratio(3359, 10);
    EXPECT_FALSE(planned(wish).legs[0].pace.followable);
    // Two legs: twice that, at 3/2 of the mean speed.
    wish = wish_for(planned.train, {0, 0});
    wish.loop = LoopKind::strict;
    wish.seconds = 10;
    const std::vector<std::string> words = plan_words(planned.train, planned(wish), PlanReader::command_line);
    EXPECT_NE(std::ranges::find(words,
                                "The eye can follow the loop with every tooth back in 1008 s or more: "
                                "--loop strict --seconds 1008."),
              words.end())
        << testing::PrintToString(words);
    wish.seconds = 1008;
    EXPECT_TRUE(planned(wish).legs[0].pace.followable);
}

TEST(PlanWords, SayWhatIsBetterWhereThereIsNoLoop) {
    const Planned planned = capstan();
    ClipWish wish = wish_for(planned.train);
    wish.turns = 50;
    wish.seconds = 1;
    const std::vector<std::string> words = plan_words(planned.train, planned(wish), PlanReader::command_line);
    EXPECT_EQ(words.at(0), "crank makes 50 turns: no loop: the last frame does not flow into the first.");
    // 2 x 21 x 10/7 = 60 frames are 2 s; 2 x 21 x 50 = 2100 are 70 s.
    EXPECT_NE(std::ranges::find(words,
                                "The eye can follow the loop that looks alike in 2 s or more: --loop alike "
                                "--seconds 2."),
              words.end());
    EXPECT_NE(std::ranges::find(words, "The eye can follow so many turns in 70 s or more: --seconds 70."), words.end());
}

TEST(TimeText, CountsMinutesOnlyOfLongTimes) {
    EXPECT_EQ(time_text(41.6), "42 s");
    EXPECT_EQ(time_text(99.4), "99 s");
    EXPECT_EQ(time_text(125), "2:05 min");
}

}  // namespace
}  // namespace couplet
