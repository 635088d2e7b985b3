#include "place/mesh_proof.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "place/outline.hpp"
#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

// Rack-cut planets leave fillets that the tips of a full-depth ring reach; stub teeth stay clear of them.
Train stub(Train train) {
    train.teeth.addendum = Ratio(4, 5);
    train.teeth.backlash = Ratio(1, 10);
    return train;
}

void turn_gear(PlacedTrain& set, const std::string& member, int copy, const Ratio& by_deg) {
    for (GearStart& start : set.rotations.gears)
        if (start.place == set.place_of(member, copy)) start.tooth = start.tooth + exact_angle(by_deg / Ratio(360));
}

TEST(MeshProof, ShowsHalfTheNormalBacklashOnBothSidesOfATrueMesh) {
    const PlacedTrain set = placed(stub(simple_set(21, 24, 69, 3)));
    const MeshProof proof = set.proof();
    EXPECT_TRUE(proof.all_mesh);
    ASSERT_EQ(proof.meshes.size(), 6U);
    // Two meshes of three copies each.
    ASSERT_EQ(proof.findings.size(), 2U);
    for (const Finding& finding : proof.findings) {
        EXPECT_EQ(finding.verdict, Verdict::holds);
        EXPECT_NEAR(finding.figure, finding.limit, kProofTolerance * finding.limit);
    }
    EXPECT_EQ(proof.findings[1].where, "planet, ring");
    // backlash x cos(20 deg) / 2, by the format's own words; within its 2 %.
    const double half_mm = 0.1 * std::cos(20 * 3.14159265358979 / 180) / 2;
    for (const MeshGap& gap : proof.meshes) {
        EXPECT_NEAR(gap.gap_mm, half_mm, 0.02 * half_mm);
        EXPECT_NEAR(gap.ahead_mm, half_mm, 0.02 * half_mm);
        EXPECT_NEAR(gap.behind_mm, half_mm, 0.02 * half_mm);
        EXPECT_NEAR(gap.elsewhere_mm, half_mm, 0.02 * half_mm);
        EXPECT_GE(gap.steps, 16);
    }
}

TEST(MeshProof, CatchesAnErrorOfAFewHundredthsOfADegree) {
    PlacedTrain set = placed(stub(simple_set(21, 24, 69, 3)));
    turn_gear(set, "planet", 2, Ratio(1, 20));
    const MeshProof proof = set.proof();
    EXPECT_FALSE(proof.all_mesh);
    for (const MeshGap& gap : proof.meshes) {
        const bool turned = set.placement.meshes[gap.mesh.position()].copy == 2;
        EXPECT_EQ(gap.verdict, turned ? MeshVerdict::off_centre : MeshVerdict::meshes);
        // 0.05 degrees at the base circle of 24 teeth of module 1.
        const double moved_mm =
            turned ? 0.05 * 3.14159265358979 / 180 * 12 * std::cos(20 * 3.14159265358979 / 180) : 0.0;
        EXPECT_NEAR(std::abs(gap.ahead_mm - gap.behind_mm), 2 * moved_mm, 1e-9);
    }
}

TEST(MeshProof, CatchesAWrongStartingRotation) {
    PlacedTrain set = placed(stub(simple_set(21, 24, 69, 3)));
    turn_gear(set, "planet", 1, Ratio(15, 2));
    const MeshProof proof = set.proof();
    EXPECT_EQ(proof.meshes[0].verdict, MeshVerdict::overlaps);
    EXPECT_LT(proof.meshes[0].gap_mm, 0.0);
    EXPECT_EQ(proof.meshes[1].verdict, MeshVerdict::meshes);
}

TEST(MeshProof, CatchesAWrongCount) {
    // One tooth less on the ring: the planets can no longer stand right in it, by phase and by distance.
    const PlacedTrain set = placed(stub(simple_set(21, 24, 68, 3)));
    const MeshProof proof = set.proof();
    EXPECT_FALSE(proof.all_mesh);
    EXPECT_TRUE(std::ranges::any_of(proof.meshes, [](const MeshGap& gap) { return gap.gap_mm < 0.0; }));
}

TEST(MeshProof, SeesATipThatDigsIntoAFillet) {
    // A full-depth ring reaches below the flank of a rack-cut planet (mesh rules say so too); without backlash it digs
    // in.
    Train train = simple_set(21, 24, 69, 3);
    train.teeth.backlash = Ratio(0);
    const MeshProof proof = placed(train).proof();
    EXPECT_EQ(proof.meshes[0].verdict, MeshVerdict::meshes);
    EXPECT_EQ(proof.meshes[3].verdict, MeshVerdict::overlaps);
    EXPECT_EQ(proof.meshes[3].where, GapPlace::elsewhere);
    // At the ring's tip circle, 2 x 33.5 mm across.
    EXPECT_NEAR(std::hypot(proof.meshes[3].at_mm.x_mm, proof.meshes[3].at_mm.y_mm), 33.5, 0.05);
}

// A gear's outline where it stands at the gap's instant, the arm in its start pose.
struct GearAtGap {
    ToothOutline outline;
    PlanePoint centre_mm;
    double tooth_rad;

    [[nodiscard]] bool is_metal(const PlanePoint& p) const {
        return outline.is_metal({p.x_mm - centre_mm.x_mm, p.y_mm - centre_mm.y_mm}, tooth_rad);
    }
    [[nodiscard]] double distance_mm(const PlanePoint& p) const {
        const double towards = std::atan2(p.y_mm - centre_mm.y_mm, p.x_mm - centre_mm.x_mm);
        std::vector<Edge> edges;
        outline.add_edges(edges, centre_mm, tooth_rad, towards, 0.5, [](const PlanePoint&) { return true; });
        double nearest = 1e9;
        for (const Edge& edge : edges) nearest = std::min(nearest, distance_to_edge(p, edge));
        return nearest;
    }
};

// `turned` counter-clockwise against the arm, in turns.
GearAtGap gear_at(const PlacedTrain& set, GearIndex gear, PlaceIndex place, double turned) {
    constexpr double kTolerance_mm = 1e-4;
    const double tooth_turns = set.rotations.of(gear, place).tooth.value(set.placement.direction_turns) + turned;
    return {ToothOutline(set.teeth.profiles[gear.position()].profile.value(), kTolerance_mm),
            set.placement[place].centre_mm, 2 * 3.14159265358979 * tooth_turns};
}

void expect_gap_in_space(const PlacedTrain& set) {
    for (const MeshGap& gap : set.proof().meshes) {
        const PlacedMesh& placed = set.placement.meshes[gap.mesh.position()];
        const Mesh& mesh = set.train[placed.mesh];
        const double first_turns = gap.at_first_gear_turns.to_double();
        // Against their arm the counts of two gears in mesh are inverse, negative where neither is internal.
        const bool internal = set.train[mesh.first].internal || set.train[mesh.second].internal;
        const double second_turns =
            first_turns * set.train[mesh.first].teeth / set.train[mesh.second].teeth * (internal ? 1 : -1);
        const double helix = set.teeth.gears[mesh.first.position()].base_helix_rad;
        for (const GearAtGap& gear : {gear_at(set, mesh.first, placed.first, first_turns),
                                      gear_at(set, mesh.second, placed.second, second_turns)}) {
            EXPECT_FALSE(gear.is_metal(gap.at_mm));
            EXPECT_NEAR(gear.distance_mm(gap.at_mm), gap.gap_mm / 2 / std::cos(helix), 3e-4);
        }
    }
}

TEST(MeshProof, PointsIntoTheSpaceBetweenTheTwoFlanks) {
    Train train = stub(simple_set(21, 24, 69, 3));
    train.teeth.backlash = Ratio(1, 5);
    expect_gap_in_space(placed(train));
    train.teeth.helix_angle_deg = Ratio(15);
    expect_gap_in_space(placed(train));
    // Teeth off the middle of their gaps: on the narrow side, whichever it is.
    for (const int sixtieths_deg : {12, -12}) {
        PlacedTrain turned = placed(train);
        turn_gear(turned, "planet", 2, Ratio(sixtieths_deg, 60));
        expect_gap_in_space(turned);
    }
}

TEST(MeshProof, PointsBetweenFlanksThatSeldomMeet) {
    // Drawn so far apart that the contact ratio is below 1: at the start no flanks need stand opposite each other.
    Train train = sized_train("a 20 x b 20");
    train.teeth.backlash = Ratio(1, 5);
    train.meshes[0].centre_distance = Ratio(213, 10);
    const PlacedTrain set = placed(train);
    ASSERT_LT(set.teeth.meshes[0].active->contact_ratio, 1.0);
    ASSERT_GT(set.teeth.meshes[0].active->contact_ratio, 0.1);
    expect_gap_in_space(set);
}

TEST(MeshProof, NamesTheInstantInDriverTurns) {
    Train train = simple_set(21, 24, 69, 3);
    train.teeth.backlash = Ratio(0);
    const PlacedTrain set = placed(train);
    const Motion motion = solve(train, setting_from(train, "hold ring; drive sun 1"));
    const MeshProof proof = set.proof(&motion);
    EXPECT_EQ(proof.meshes[0].at_driver_turns, Ratio(0));
    const MeshGap& gap = proof.meshes[3];
    ASSERT_TRUE(gap.at_driver_turns);
    EXPECT_GE(gap.cycle_part, Ratio(0));
    EXPECT_LT(gap.cycle_part, Ratio(1));
    // planet on carrier: -161/240 a turn of the sun (21/90 x 69/24), so a pitch of 1/24 comes and goes in 10/161 turns.
    EXPECT_GE(*gap.at_driver_turns, Ratio(0));
    EXPECT_LT(*gap.at_driver_turns, Ratio(10, 161));
    const Motion locked = solve(train, setting_from(train, "hold ring, carrier; drive sun 1"));
    EXPECT_FALSE(set.proof(&locked).meshes[0].at_driver_turns);
}

TEST(MeshProof, FollowsPairedAndSteppedPlanets) {
    Train paired =
        stub(sized_train("sun 24 x inner 22; inner 22 x outer 24; outer 24 in ring 84 (inner on arm, outer on arm)"));
    set_copies(paired, "inner", 3);
    set_copies(paired, "outer", 3);
    EXPECT_TRUE(placed(paired).proof().all_mesh);
    // 24 + 30 = 84 - 30 modules; (24 x 30 + 84 x 30) / 30 = 108 with equal gears: make it 26 and 82 instead.
    Train stepped = stub(stepped_set(24, 30, 28, 82, 2));
    const PlacedTrain set = placed(stepped);
    EXPECT_TRUE(set.proof().all_mesh);
}

TEST(MeshProof, AnswersForTeethThatCannotBeMade) {
    const PlacedTrain set = placed(sized_train("planet 40 in ring 40 (planet on arm)"));
    const MeshProof proof = set.proof();
    ASSERT_EQ(proof.meshes.size(), 1U);
    EXPECT_EQ(proof.meshes[0].verdict, MeshVerdict::no_profile);
    EXPECT_EQ(proof.meshes[0].gap_mm, 0.0);
    EXPECT_EQ(proof.findings.size(), 1U);
}

TEST(MeshProof, SaysWhenFlanksNeverTouch) {
    Train train = sized_train("a 20 x b 20");
    train.meshes[0].centre_distance = Ratio(23);
    const MeshProof proof = placed(train).proof();
    EXPECT_NE(proof.meshes[0].verdict, MeshVerdict::meshes);
    EXPECT_TRUE(std::isfinite(proof.meshes[0].gap_mm));
}

TEST(MeshProof, ProvesHelicalTeethInTheNormalSection) {
    Train train = stub(simple_set(21, 24, 69, 3));
    train.teeth.helix_angle_deg = Ratio(15);
    const PlacedTrain set = placed(train);
    const MeshProof proof = set.proof();
    EXPECT_TRUE(proof.all_mesh);
    for (const MeshGap& gap : proof.meshes)
        EXPECT_NEAR(gap.gap_mm, set.teeth.meshes[0].pair->normal_backlash_mm / 2, 0.02 * gap.gap_mm);
}

}  // namespace
}  // namespace couplet
