// Random planetary sets: the texts' condition, the loops and the moving outlines say the same.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "place/placed_train.hpp"
#include "support/dice.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

struct RandomSet {
    Train train;
    int sun;
    int first;   // planet's teeth in mesh with the sun
    int second;  // and in the ring
    int ring;
    int copies;
};

// Counts whose centre distances agree; stub teeth, so that a ring's tips keep clear of rack-cut fillets.
RandomSet random_set(Dice& dice, bool stepped) {
    RandomSet set{};
    set.sun = dice.between(18, 45);
    set.first = dice.between(20, 36);
    do set.second = stepped ? dice.between(20, 36) : set.first;
    while (stepped && set.second == set.first);
    set.ring = set.sun + set.first + set.second;
    // As many as have room, so that nothing but the teeth decides.
    const int most = most_equal_copies((set.sun + set.first) / 2.0, std::max(set.first, set.second) + 2.0);
    set.copies = dice.between(2, std::min(most, 8));
    set.train = stepped ? stepped_set(set.sun, set.first, set.second, set.ring, set.copies)
                        : simple_set(set.sun, set.first, set.ring, set.copies);
    set.train.teeth.addendum = Ratio(4, 5);
    set.train.teeth.backlash = Ratio(1, 50);
    return set;
}

bool condition_holds(const RandomSet& set) {
    const int sum = (set.sun * set.second + set.ring * set.first) / std::gcd(set.first, set.second);
    return sum % set.copies == 0;
}

TEST(RandomSets, AssembleWhereTheConditionHoldsAndTheProofFindsNoOverlap) {
    Dice dice(2000);
    int assembling = 0;
    for (int trial = 0; trial < 2000; ++trial) {
        const RandomSet random = random_set(dice, trial % 2 == 1);
        const PlacedTrain set = placed(random.train);
        const bool holds = condition_holds(random);
        const Assembly assembly = set.assembly();
        const MeshProof proof = set.proof();
        const auto overlaps = [](const MeshGap& gap) { return gap.verdict == MeshVerdict::overlaps; };
        const std::string what = std::to_string(random.sun) + " " + std::to_string(random.first) + " " +
                                 std::to_string(random.second) + " " + std::to_string(random.ring) + " x " +
                                 std::to_string(random.copies);
        EXPECT_EQ(holds, std::ranges::none_of(proof.meshes, overlaps)) << what;
        EXPECT_EQ(holds, proof.all_mesh) << what;
        EXPECT_EQ(holds, assembly.outcome == AssemblyOutcome::assembles) << what;
        EXPECT_EQ(holds, assembly.conditions.at(0).holds) << what;
        EXPECT_EQ(holds, assembly.misplaced.empty()) << what;
        assembling += holds ? 1 : 0;
    }
    EXPECT_GT(assembling, 400);
    EXPECT_LT(assembling, 1600);
}

// The phases by the derivation's closed formulas, apart from any walk: the planet from the sun, the ring from the
// planet.
TEST(RandomSets, AgreeByBothRoutesRoundTheLoop) {
    Dice dice(77);
    for (int trial = 0; trial < 500; ++trial) {
        const RandomSet random = random_set(dice, false);
        const PlacedTrain set = placed(random.train);
        ASSERT_TRUE(set.placement.findings.empty());
        EXPECT_NEAR(set.teeth.meshes[0].pair->centre_distance_mm, set.teeth.meshes[1].pair->centre_distance_mm, 1e-9);
        if (!condition_holds(random)) continue;
        const Ratio sun(random.sun);
        const Ratio planet(random.first);
        const Ratio ring(random.ring);
        for (int copy = 1; copy <= random.copies; ++copy) {
            const Ratio t(360 * (copy - 1), random.copies);
            const Ratio planet_deg = t + Ratio(180) + (t * sun - Ratio(180)) / planet;
            const Ratio ring_deg = t - ((t - planet_deg) * planet - Ratio(180)) / ring;
            EXPECT_TRUE(((set.rotation_deg("planet", copy) - planet_deg) * planet / Ratio(360)).is_whole());
            EXPECT_TRUE(((set.rotation_deg("ring") - ring_deg) * ring / Ratio(360)).is_whole());
        }
    }
}

// Where S and P1 sit on stepped planets, every angle of the body is tried by force.
TEST(RandomSets, FitAsBodiesWhereSomeToothOfTheFirstGearSuits) {
    Dice dice(78);
    for (int trial = 0; trial < 300; ++trial) {
        const RandomSet random = random_set(dice, true);
        const PlacedTrain set = placed(random.train);
        const bool all_fit = std::ranges::all_of(set.rotations.bodies, &BodyStart::fits);
        EXPECT_EQ(all_fit, condition_holds(random));
    }
}

// Trains of every shape, most of them with geometry that cannot be: findings, never an exception and never NaN.
TEST(RandomTrains, GiveFiniteNumbersWhateverTheirGeometry) {
    Dice dice(79);
    for (std::uint64_t seed = 0; seed < 150; ++seed) {
        Train train = random_train(seed, {25, false, false}).train;
        train.teeth.module_mm = Ratio(1);
        for (Member& member : train.members)
            if (dice.chance(20)) member.copies = dice.between(2, 3);
        const PlacedTrain set = placed(train);
        for (const Place& place : set.placement.places) {
            ASSERT_TRUE(std::isfinite(place.centre_mm.x_mm)) << seed;
            ASSERT_TRUE(std::isfinite(place.centre_on_carrier_mm.y_mm)) << seed;
        }
        for (const GearStart& start : set.rotations.gears) {
            const double pitch_deg = 360.0 / train[start.gear].teeth;
            ASSERT_GE(start.starting_rotation.value_deg, -1e-9) << seed;
            ASSERT_LT(start.starting_rotation.value_deg, pitch_deg * (1 + 1e-9)) << seed;
            ASSERT_LE(std::abs(start.extra_turn.value_deg), pitch_deg / 2 * (1 + 1e-9)) << seed;
        }
        for (const Finding& finding : set.assembly().findings)
            ASSERT_TRUE(std::isfinite(finding.figure)) << finding.rule;
        for (const MeshGap& gap : set.proof().meshes) {
            ASSERT_TRUE(std::isfinite(gap.gap_mm)) << seed;
            ASSERT_TRUE(std::isfinite(gap.elsewhere_mm)) << seed;
            ASSERT_TRUE(std::isfinite(gap.at_mm.x_mm)) << seed;
        }
    }
}

}  // namespace
}  // namespace couplet
