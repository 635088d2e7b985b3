#include "place/starting_rotation.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

TEST(StartingRotation, FollowsTheFirstGear) {
    StartOptions options;
    options.first_gear_deg = Ratio(5);
    const PlacedTrain set = placed(simple_set(30, 18, 66, 3), options);
    EXPECT_EQ(set.rotation_deg("sun"), Ratio(5));
    // phi_p = t + 180 + ((t - phi_s) S - 180) / P with t = 0 (derived beside the published checks): 180 - 330/18
    // mod 20.
    EXPECT_EQ(set.rotation_deg("planet"), Ratio(5, 3));
}

TEST(StartingRotation, CountsFromAGapWhereGearsAreDrawnWithOne) {
    StartOptions options;
    options.drawn = Drawn::gap;
    const PlacedTrain gap = placed(simple_set(30, 18, 66, 3), options);
    EXPECT_EQ(gap.rotation_deg("sun"), Ratio(0));
    // The sun's gap on the line of centres asks for a tooth of the planet on its -X; 18 teeth: another one on +X.
    EXPECT_EQ(gap.start("planet").tooth, exact_angle(Ratio(0)));
    EXPECT_EQ(gap.rotation_deg("planet"), Ratio(10));
    EXPECT_TRUE(gap.proof().all_mesh);
}

TEST(StartingRotation, TellsWhatACopyStillLacks) {
    // Planets of 17 teeth at quarter turns: copy 2 needs 180/17 and stands at 90 after the copy-and-rotate; 180/17 - 90
    // and 90/17 differ by 90 * 18/17 - 180/17 = 1440/17, four pitches.
    const PlacedTrain set = placed(simple_set(21, 17, 55, 4));
    EXPECT_EQ(set.extra_deg("planet", 1), Ratio(0));
    EXPECT_EQ(set.extra_deg("planet", 2), Ratio(90, 17));
    EXPECT_EQ(set.extra_deg("planet", 3), Ratio(180, 17));
}

TEST(StartingRotation, KeepsEqualCopiesWithoutExtraTurnsWhereTheyAreAlike) {
    const PlacedTrain set = placed(simple_set(21, 24, 69, 3));
    for (int copy = 1; copy <= 3; ++copy) {
        EXPECT_EQ(set.rotation_deg("planet", copy), set.rotation_deg("planet", 1));
        EXPECT_EQ(set.extra_deg("planet", copy), Ratio(0));
    }
}

TEST(StartingRotation, ClosesEveryMeshOfPairedPlanetsExactly) {
    Train train =
        sized_train("sun 24 x inner 18; inner 18 x outer 20; outer 20 in ring 72 (inner on arm, outer on arm)");
    set_copies(train, "inner", 3);
    set_copies(train, "outer", 3);
    const PlacedTrain set = placed(train);
    ASSERT_EQ(set.rotations.loops.size(), 2U);
    for (const RotationLoop& loop : set.rotations.loops) EXPECT_EQ(loop.miss_periods, Angle{});
    EXPECT_FALSE(set.start("outer").starting_rotation.exact_deg);
    // Copies differ from the first one by exact angles all the same.
    EXPECT_TRUE(set.start("outer", 2).extra_turn.exact_deg);
}

TEST(StartingRotation, TurnsABodyWithTwoGearsAsOne) {
    // 18 x 24 | 16 in 62 with three copies assembles (D10 of the published checks): each copy as a whole stands on some
    // tooth of its first gear in which the second one is right too.
    const PlacedTrain set = placed(stepped_set(18, 24, 16, 62, 3));
    EXPECT_TRUE(set.rotations.timing_marks.empty());
    for (const BodyStart& body : set.rotations.bodies) {
        EXPECT_TRUE(body.fits);
        const Place& place = set.placement[body.place];
        if (place.member != member_named(set.train, "planet")) continue;
        const Ratio turns = body.rotation.exact_deg.value() / Ratio(360);
        for (std::size_t gear = 0; gear < 2; ++gear) {
            const Ratio teeth(gear == 0 ? 24 : 16);
            const Ratio off = turns - set.rotation_deg("planet", place.copy, gear) / Ratio(360);
            EXPECT_TRUE((off * teeth).is_whole()) << place.copy << " " << gear;
        }
    }
}

TEST(StartingRotation, GivesTheTimingMarkOfACopyThatNeedsOne) {
    // Four copies of the same set do not assemble: the copies need different angles between their gears.
    StartOptions options;
    options.copies = Copies::timed_each;
    const PlacedTrain set = placed(stepped_set(18, 24, 16, 62, 4), options);
    ASSERT_FALSE(set.rotations.timing_marks.empty());
    const TimingMark& mark = set.rotations.timing_marks.front();
    EXPECT_NE(set.placement[mark.place].copy, 1);
    const auto at = set.placement[mark.place].copy;
    const Ratio relative = set.rotation_deg("planet", at, 1) - set.rotation_deg("planet", at, 0);
    // Equal modulo the teeth of either gear.
    EXPECT_TRUE(((relative - mark.relative.exact_deg.value()) / Ratio(360) * Ratio(48)).is_whole());
}

TEST(StartingRotation, LetsTheMeshesOfAlikeCopiesMissWhereTheyDoNotFit) {
    const Train train = stepped_set(18, 24, 16, 62, 4);
    const auto missing = [&](Copies copies) {
        StartOptions options;
        options.copies = copies;
        const PlacedTrain set = placed(train, options);
        return std::ranges::count_if(set.placement.meshes, [&](const PlacedMesh& mesh) {
            return mesh_miss_pitches(set.train, set.placement, set.rotations, mesh) != Angle{};
        });
    };
    // 4 x 222 / 4: copies 2 and 4 are half a period out.
    EXPECT_EQ(missing(Copies::alike), 2);
    EXPECT_EQ(missing(Copies::timed_each), 0);
}

TEST(StartingRotation, LeavesTheAngleFreeWhereABodyHasNoCopies) {
    // in - layshaft - out, all meshes on one line: whatever the counts, the layshaft's gears can be set.
    const PlacedTrain set = placed(sized_train("in 17 x lay 31; lay 19 x out 29"));
    EXPECT_TRUE(set.rotations.loops.empty());
    EXPECT_EQ(set.rotation_deg("lay", 1, 0), (set.rotation_deg("lay", 1, 1) * Ratio(1)));
    EXPECT_TRUE(set.proof().all_mesh);
}

TEST(StartingRotation, ReportsALoopThatMissesWithItsAngle) {
    // S + R = 90 and four copies: copy 2 misses by half a pitch.
    const PlacedTrain set = placed(simple_set(21, 24, 69, 4));
    ASSERT_EQ(set.rotations.loops.size(), 3U);
    EXPECT_EQ(set.rotations.loops[0].miss_periods, exact_angle(Ratio(1, 2)));
    EXPECT_EQ(set.rotations.loops[0].miss_of_gear.exact_deg, Ratio(15, 2));
    EXPECT_EQ(set.rotations.loops[0].periods_per_turn.magnitude(), Ratio(90));
    EXPECT_EQ(set.rotations.loops[1].miss_periods, Angle{});
}

TEST(StartingRotation, MissesAreThoseOfTheMeshesItself) {
    const PlacedTrain set = placed(simple_set(21, 24, 69, 4));
    int off = 0;
    for (const PlacedMesh& mesh : set.placement.meshes)
        if (mesh_miss_pitches(set.train, set.placement, set.rotations, mesh) != Angle{}) ++off;
    EXPECT_EQ(off, 2);
}

}  // namespace
}  // namespace couplet
