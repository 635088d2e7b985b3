// Assembly and starting rotations that were published elsewhere, or that follow from published conditions.
//
// Each row says where its answer comes from and how that is known: read, from memory, or derived.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

struct EqualSpacing {
    int sun;
    int ring;
    int copies;
    bool assembles;
};

// All texts: (S + R) / n whole (Mueller, Epicyclic Drive Trains; Dudley), from memory.
TEST(EqualSpacing, NeedsTheSumOfSunAndRingDivisible) {
    const std::vector<EqualSpacing> rows = {
        {30, 66, 3, true},  {30, 66, 4, true},  {30, 66, 5, false}, {30, 66, 6, true}, {20, 100, 3, true},
        {20, 100, 4, true}, {20, 100, 5, true}, {20, 100, 6, true}, {21, 69, 3, true}, {21, 69, 4, false}};
    for (const EqualSpacing& row : rows) {
        const Assembly assembly =
            placed(simple_set(row.sun, (row.ring - row.sun) / 2, row.ring, row.copies)).assembly();
        EXPECT_EQ(assembly.conditions.at(0).holds, row.assembles) << row.sun << "/" << row.ring << " x " << row.copies;
        EXPECT_EQ(assembly.misplaced.empty(), row.assembles) << row.sun << "/" << row.ring << " x " << row.copies;
    }
}

// Handbooks: least mesh angle 360 / (S + R), from memory.
TEST(LeastMeshAngle, IsWhereThePlanetsOfThirtyEighteenSixtySixMayStand) {
    const Assembly assembly = placed(simple_set(30, 18, 66, 3)).assembly();
    EXPECT_EQ(assembly.conditions.at(0).least_mesh_angle_deg, Ratio(15, 4));
    for (int half_steps = 60; half_steps < 130; ++half_steps) {
        const Train train = simple_set(30, 18, 66, 2, {Ratio(0), Ratio(15, 8) * Ratio(half_steps)});
        EXPECT_EQ(placed(train).assembly().misplaced.empty(), half_steps % 2 == 0) << half_steps;
    }
}

// (S + P) sin(180 / n) > P + 2: the standard condition; the counts are derived.
TEST(NeighbourClearance, LimitsTheNumberOfEqualPlanets) {
    struct Row {
        int sun;
        int planet;
        int most;
    };
    for (const Row& row : {Row{30, 18, 7}, Row{20, 40, 4}, Row{12, 36, 3}, Row{40, 20, 8}}) {
        EXPECT_EQ(most_equal_copies((row.sun + row.planet) / 2.0, row.planet + 2.0), row.most) << row.sun;
        for (const int copies : {row.most, row.most + 1}) {
            const Assembly assembly =
                placed(simple_set(row.sun, row.planet, row.sun + 2 * row.planet, copies)).assembly();
            EXPECT_EQ(assembly.clearances.at(0).clearance_mm > 0.0, copies == row.most) << row.sun << " x " << copies;
        }
    }
}

// Derived (tooth-space waves): S 30, P 18, R 66, a tooth of sun and ring on +X.
TEST(EvenPlanet, StartsHalfAPitchTurnedAtEveryQuarter) {
    const PlacedTrain set = placed(simple_set(30, 18, 66, 4));
    EXPECT_EQ(set.rotation_deg("sun"), Ratio(0));
    EXPECT_EQ(set.rotation_deg("ring"), Ratio(0));
    for (int copy = 1; copy <= 4; ++copy) EXPECT_EQ(set.rotation_deg("planet", copy), Ratio(10)) << copy;
}

// Derived (tooth-space waves): S 21, P 17, R 55, four planets, a tooth of the sun on +X.
TEST(OddPlanet, StartsDifferentlyFromItsNeighbours) {
    const PlacedTrain set = placed(simple_set(21, 17, 55, 4));
    EXPECT_EQ(set.rotation_deg("ring"), Ratio(36, 11));
    EXPECT_EQ(set.rotation_deg("planet", 1), Ratio(0));
    EXPECT_EQ(set.rotation_deg("planet", 2), Ratio(180, 17));
    EXPECT_EQ(set.rotation_deg("planet", 3), Ratio(0));
    EXPECT_EQ(set.rotation_deg("planet", 4), Ratio(180, 17));
}

// Identical stepped planets: (S P2 + R P1) / (n gcd(P1, P2)) whole; Mueller and papers on compound planetary assembly,
// the form from memory.
TEST(SteppedPlanets, NeedTheCompoundSumDivisible) {
    struct Row {
        int sun;
        int first;
        int second;
        int ring;
        std::vector<int> assembling;
    };
    const std::vector<Row> rows = {{18, 24, 16, 62, {2, 3, 6}}, {21, 24, 22, 67, {3, 5}}};
    for (const Row& row : rows) {
        for (int copies = 2; copies <= 6; ++copies) {
            const bool expected = std::ranges::find(row.assembling, copies) != row.assembling.end();
            const PlacedTrain set = placed(stepped_set(row.sun, row.first, row.second, row.ring, copies));
            const Assembly assembly = set.assembly();
            EXPECT_EQ(assembly.conditions.at(0).holds, expected) << row.sun << " x " << copies;
            EXPECT_EQ(assembly.misplaced.empty(), expected) << row.sun << " x " << copies;
            EXPECT_EQ(std::ranges::all_of(set.rotations.bodies, &BodyStart::fits), expected)
                << row.sun << " x " << copies;
        }
    }
}

// Foiles, "Gear frequencies using the Euclidean algorithm" (phases = gcd), and a gear maker's text, p. 96 (11/30
// repeats after 30 pinion turns, 21/22 hunts); both read.
TEST(HuntingTooth, MeetsEveryToothOfTheWheel) {
    struct Row {
        int pinion;
        int wheel;
        int phases;
        int pinion_turns;
        double hertz;  // at 1800 rpm
    };
    for (const Row& row : {Row{11, 30, 1, 30, 1.0}, Row{21, 22, 1, 22, 30.0 / 22}, Row{23, 67, 1, 67, 0.4478},
                           Row{20, 60, 20, 3, 10.0}}) {
        const Train train =
            sized_train("pinion " + std::to_string(row.pinion) + " x wheel " + std::to_string(row.wheel));
        const Hunting hunting = hunting_of(train, {0});
        EXPECT_EQ(hunting.phases, row.phases) << row.pinion;
        EXPECT_EQ(hunting.first_turns, row.pinion_turns) << row.pinion;
        // The frequency at 1800 rpm: 30 pinion turns a second over the turns to repeat (23/67: 0.4478 Hz; 20/60: 10
        // Hz).
        EXPECT_NEAR(30.0 / hunting.first_turns, row.hertz, 5e-5) << row.pinion;
    }
}

}  // namespace
}  // namespace couplet
