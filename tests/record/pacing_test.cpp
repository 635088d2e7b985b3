#include "record/pacing.hpp"

#include "support/ratio_printer.hpp"
#include "support/shipped_scenes.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// The capstan: sun 21, three planets of 24, ring 69 held, the crank on the sun. Per turn of the crank the drum makes
// 21 / (21 + 69) = 7/30, a planet on it -21/24 (1 - 7/30) = -161/240, so a planet -7/16 against the frame. All are
// back after 240 turns; after 10/7 the crank stands 30 teeth further and each planet where the next one stood.
const Loops kCapstanLoops{240, Ratio(10, 7)};
const Teeth kCapstanTeeth{21};

PaceWish usual_wish() {
    PaceWish wish;
    wish.frames = 300;
    return wish;
}

SolvedTrain capstan() {
    return solved("crank 21 x planet 24; planet 24 in ring 69 (planet on drum)", "hold ring; drive crank 30");
}

TEST(FastestTeeth, AreThoseOfTheGearThatPassesMostOfThem) {
    const SolvedTrain set = capstan();
    // Crank 1 x 21; planet 7/16 x 24 = 21/2; the ring stands.
    EXPECT_EQ(fastest_teeth(set.train, set.motion, kFrame).pitches_per_turn, Ratio(21));
    // From the drum all mesh at one speed: 23/30 x 21 = 161/240 x 24 = 7/30 x 69.
    EXPECT_EQ(fastest_teeth(set.train, set.motion, member_named(set.train, "drum")).pitches_per_turn, Ratio(161, 10));
    // From the crank the ring runs back by a whole turn.
    EXPECT_EQ(fastest_teeth(set.train, set.motion, member_named(set.train, "crank")).pitches_per_turn, Ratio(69));
}

TEST(FastestTeeth, CountWhicheverWayTheyRun) {
    const SolvedTrain pair = solved("a 30 x b 10; b 10 x c 50", "drive a -60");
    EXPECT_EQ(fastest_teeth(pair.train, pair.motion, kFrame).pitches_per_turn, Ratio(30));
    const SolvedTrain compound = solved("a 30 x b 10; b 40 x c 20", "drive a 60");
    // b makes 3 turns back with 40 teeth.
    EXPECT_EQ(fastest_teeth(compound.train, compound.motion, kFrame).pitches_per_turn, Ratio(120));
}

TEST(Followable, IsHalfAPitchAFrameAtMost) {
    // 21 pitches a turn, 5 turns: 105 pitches in 210 frames.
    EXPECT_TRUE(is_followable(kCapstanTeeth, 5, 210));
    EXPECT_FALSE(is_followable(kCapstanTeeth, 5, 209));
    EXPECT_EQ(fewest_frames(kCapstanTeeth, 5), 210);
    // 2 x 21 x 10/7.
    EXPECT_EQ(fewest_frames(kCapstanTeeth, Ratio(10, 7)), 60);
    // 2 x 21 x 1/5 = 42/5.
    EXPECT_EQ(fewest_frames(kCapstanTeeth, Ratio(1, 5)), 9);
}

TEST(Followable, IsWhateverHasNoTeeth) {
    EXPECT_TRUE(is_followable({0}, 1000, 1));
    EXPECT_EQ(fewest_frames({0}, 1000), 1);
}

TEST(Followable, SaysSoOfMoreFramesThanAreCounted) {
    EXPECT_EQ(fewest_frames({Ratio(INT32_MAX)}, 7), INT32_MAX);
}

// 30 rpm for 10 s are 5 turns: 3.5 loops of 10/7, and a half counts up. Strict would be 240 turns.
TEST(Pace, TakesAsManyLoopsAsComeNearestToTheDriversSpeed) {
    const Pace pace = pace_of(usual_wish(), kCapstanLoops, kCapstanTeeth);
    EXPECT_EQ(pace.loop, LoopKind::alike);
    EXPECT_EQ(pace.loops, 4);
    EXPECT_EQ(pace.turns, Ratio(40, 7));
    EXPECT_TRUE(pace.followable);
    PaceWish slower = usual_wish();
    slower.rpm = Ratio(299, 10);  // 4.98 turns: just below 3.5 loops
    EXPECT_EQ(pace_of(slower, kCapstanLoops, kCapstanTeeth).loops, 3);
}

TEST(Pace, TakesAtLeastOneLoop) {
    PaceWish wish = usual_wish();
    wish.rpm = 1;
    const Pace pace = pace_of(wish, kCapstanLoops, kCapstanTeeth);
    EXPECT_EQ(pace.loops, 1);
    EXPECT_EQ(pace.turns, Ratio(10, 7));
}

// 90 rpm for 10 s are 15 turns, 10.5 loops; 300 frames let 150 pitches pass, 5 loops of 30.
TEST(Pace, TakesFewerLoopsWhereTheEyeWouldLoseTheTeeth) {
    PaceWish wish = usual_wish();
    wish.rpm = 90;
    const Pace pace = pace_of(wish, kCapstanLoops, kCapstanTeeth);
    EXPECT_EQ(pace.loops, 5);
    EXPECT_TRUE(pace.followable);
}

TEST(Pace, PrefersEveryToothBackWhereThatIsCalm) {
    // 5 turns are the driver's own: 2.5 loops of 2 count as 3, followed at 2 x 21 x 6 = 252 of 300 frames.
    const Pace strict = pace_of(usual_wish(), {2, 1}, kCapstanTeeth);
    EXPECT_EQ(strict.loop, LoopKind::strict);
    EXPECT_EQ(strict.turns, Ratio(6));
    const Teeth few{3};
    EXPECT_EQ(pace_of(usual_wish(), {10, 1}, few).loop, LoopKind::strict) << "just twice the driver's speed";
    EXPECT_EQ(pace_of(usual_wish(), {11, 1}, few).loop, LoopKind::alike) << "more than that";
    EXPECT_EQ(pace_of(usual_wish(), {11, 11}, few).loop, LoopKind::strict) << "there is no other";
}

TEST(Pace, MakesNoLoopWhereNoneCanBeFollowed) {
    PaceWish wish = usual_wish();
    wish.frames = 59;  // a loop of 30 pitches needs 60
    const Pace pace = pace_of(wish, kCapstanLoops, kCapstanTeeth);
    EXPECT_EQ(pace.loop, LoopKind::none);
    EXPECT_EQ(pace.loops, 0);
    EXPECT_EQ(pace.turns, Ratio(59, 60)) << "30 rpm for 59/30 s";
    EXPECT_TRUE(pace.followable);
    wish.frames = 60;
    EXPECT_EQ(pace_of(wish, kCapstanLoops, kCapstanTeeth).loop, LoopKind::alike);
}

TEST(Pace, ObeysWhatIsAskedFor) {
    PaceWish wish = usual_wish();
    wish.loop = LoopKind::strict;
    const Pace strict = pace_of(wish, kCapstanLoops, kCapstanTeeth);
    EXPECT_EQ(strict.loop, LoopKind::strict);
    EXPECT_EQ(strict.turns, Ratio(240));
    EXPECT_FALSE(strict.followable) << "2 x 21 x 240 frames are needed";
    wish.loop = LoopKind::none;
    EXPECT_EQ(pace_of(wish, kCapstanLoops, kCapstanTeeth).turns, Ratio(5));
    wish.loop = LoopKind::alike;
    EXPECT_EQ(pace_of(wish, {2, 1}, kCapstanTeeth).loop, LoopKind::alike);
}

}  // namespace
}  // namespace couplet
