#include "tooth/mesh_checks.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/dice.hpp"
#include "support/train_notation.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

constexpr double kPi = std::numbers::pi;

Train train_of(const char* meshes) {
    Train train = train_from(meshes);
    train.teeth.module_mm = Ratio(3);
    train.teeth.backlash = Ratio(1, 10);
    return train;
}

std::vector<Finding> findings_of(const Train& train) {
    return mesh_findings(train, teeth_of(train));
}

Finding found(const Train& train, const std::string& rule, const std::string& where) {
    for (const Finding& finding : findings_of(train))
        if (finding.rule == rule && finding.where == where) return finding;
    ADD_FAILURE() << "no finding of '" << rule << "' at '" << where << "'";
    return {};
}

Verdict verdict_of(const Train& train, const std::string& rule, const std::string& where) {
    return found(train, rule, where).verdict;
}

const char* const kCapstan = "crank 21 x planet 24; planet 24 in ring 69 (planet on drum)";

TEST(MeshFindings, FailNothingInASoundTrain) {
    for (const Finding& finding : findings_of(train_of(kCapstan)))
        EXPECT_NE(finding.verdict, Verdict::fails) << finding.rule << " at " << finding.where;
}

TEST(MeshFindings, SayWhatToMendExactlyWhereSomethingIsToMend) {
    for (const char* meshes : {kCapstan, "a 8 x b 40", "a 20 in b 20", "a 30 in b 36"})
        for (const Finding& finding : findings_of(train_of(meshes))) {
            EXPECT_EQ(finding.mend.empty(), finding.verdict == Verdict::holds) << finding.rule;
            EXPECT_FALSE(finding.source.empty()) << finding.rule;
        }
}

TEST(ModuleRule, CautionsWhereNoStandardListsIt) {
    Train train = train_of("a 20 x b 30");
    EXPECT_EQ(verdict_of(train, "module of ISO 54", "a"), Verdict::holds);
    train.teeth.module_mm = Ratio(31, 10);
    const Finding odd = found(train, "module of ISO 54", "a");
    EXPECT_EQ(odd.verdict, Verdict::caution);
    EXPECT_EQ(odd.limit, 3.0);
    train.teeth.module_mm.reset();
    train.teeth.diametral_pitch = Ratio(8);
    for (const Finding& finding : findings_of(train)) EXPECT_NE(finding.rule, "module of ISO 54");
}

TEST(UndercutRule, CautionsBelowTheLimitAndFailsFarBelow) {
    const auto with_teeth = [](int teeth) {
        Train train = train_of("a 20 x b 60");
        train.gears[0].teeth = teeth;
        return found(train, "undercut", "a");
    };
    // 17.097 by the texts; 5/6 of it is 14.2.
    EXPECT_EQ(with_teeth(18).verdict, Verdict::holds);
    EXPECT_NEAR(with_teeth(18).limit, 17.097, 0.002);
    EXPECT_EQ(with_teeth(17).verdict, Verdict::caution);
    EXPECT_EQ(with_teeth(15).verdict, Verdict::caution);
    EXPECT_EQ(with_teeth(14).verdict, Verdict::fails);
    EXPECT_EQ(with_teeth(12).mend, "a shift of at least 0.299, or more teeth");
}

TEST(TipRule, CautionsThinTipsAndFailsPointedOnes) {
    Train train = train_of("a 12 x b 60");
    EXPECT_EQ(verdict_of(train, "tip thickness", "a"), Verdict::holds);
    train.gears[0].shift = Ratio(6, 10);
    train.gears[1].shift = Ratio(-6, 10);
    EXPECT_EQ(verdict_of(train, "tip thickness", "a"), Verdict::caution);
    train.gears[0].shift = Ratio(1);
    train.gears[1].shift = Ratio(-1);
    const Finding pointed = found(train, "tip thickness", "a");
    EXPECT_EQ(pointed.verdict, Verdict::fails);
    EXPECT_LT(pointed.figure, 0.0);
    EXPECT_EQ(verdict_of(train, "tooth profile", "a"), Verdict::fails);
}

TEST(RingTipRule, FailsInsideTheBaseCircle) {
    Train train = train_of("a 10 in b 34");
    EXPECT_EQ(verdict_of(train, "ring tip outside the base circle", "b"), Verdict::holds);
    train.gears[1].teeth = 33;
    EXPECT_EQ(verdict_of(train, "ring tip outside the base circle", "b"), Verdict::fails);
    // The formulas that need an involute there say so.
    const Finding without = found(train, "trochoid interference", "a, b");
    EXPECT_EQ(without.verdict, Verdict::fails);
    EXPECT_NE(without.mend.find("'b' must lie outside its base circle"), std::string::npos);
}

TEST(OperatingAngleRule, SaysWhyThereIsNone) {
    const Finding equal = found(train_of("a 20 in b 20"), "operating angle", "a, b");
    EXPECT_EQ(equal.verdict, Verdict::fails);
    EXPECT_EQ(equal.figure, 0.0);
    EXPECT_EQ(equal.unit, "teeth");
    EXPECT_EQ(found(train_of("a 20 in b 15"), "operating angle", "a, b").figure, -5.0);
    Train train = train_of("a 20 x b 20");
    train.gears[0].shift = train.gears[1].shift = Ratio(-1);
    const Finding shifted = found(train, "operating angle", "a, b");
    EXPECT_EQ(shifted.verdict, Verdict::fails);
    EXPECT_LT(shifted.figure, shifted.limit);
    train = train_of("a 20 x b 20");
    train.meshes[0].centre_distance = Ratio(50);
    const Finding close = found(train, "operating angle", "a, b");
    EXPECT_EQ(close.verdict, Verdict::fails);
    EXPECT_EQ(close.figure, 50.0);
    EXPECT_NEAR(close.limit, 60.0 * std::cos(20 * kDegree), 1e-12);
}

TEST(BacklashRule, FailsWhereTeethOverlap) {
    Train train = train_of("a 20 x b 20");
    EXPECT_NEAR(found(train, "backlash", "a, b").figure, 0.1, 1e-12);
    train.meshes[0].centre_distance = Ratio(599, 10);
    EXPECT_EQ(verdict_of(train, "backlash", "a, b"), Verdict::holds);
    train.meshes[0].centre_distance = Ratio(598, 10);
    EXPECT_EQ(verdict_of(train, "backlash", "a, b"), Verdict::fails);
    // No backlash at all is no overlap, though its last bit may be.
    train = train_of("a 17 x b 23");
    train.teeth.backlash.reset();
    train.gears[0].shift = Ratio(1, 3);
    EXPECT_EQ(verdict_of(train, "backlash", "a, b"), Verdict::holds);
}

TEST(ContactRatioRule, FailsBelowOneAndCautionsJustAbove) {
    Train train = train_of("a 20 x b 30");
    EXPECT_EQ(verdict_of(train, "transverse contact ratio", "a, b"), Verdict::holds);
    train.teeth.addendum = Ratio(7, 10);
    EXPECT_EQ(verdict_of(train, "transverse contact ratio", "a, b"), Verdict::caution);
    train.teeth.addendum = Ratio(5, 10);
    EXPECT_EQ(verdict_of(train, "transverse contact ratio", "a, b"), Verdict::fails);
}

TEST(ClearanceRule, LooksAtBothRoots) {
    Train train = train_of("a 20 x b 30");
    EXPECT_NEAR(found(train, "tip clearance", "b tip in a").figure, 0.75, 1e-12);
    train.gears[0].spec.dedendum = Ratio(105, 100);
    EXPECT_EQ(verdict_of(train, "tip clearance", "b tip in a"), Verdict::caution);
    EXPECT_EQ(verdict_of(train, "tip clearance", "a tip in b"), Verdict::holds);
    train.gears[1].spec.dedendum = Ratio(95, 100);
    EXPECT_EQ(verdict_of(train, "tip clearance", "a tip in b"), Verdict::fails);
}

TEST(FilletRule, FailsWhereAHighTipMeetsAFillet) {
    Train train = train_of("a 40 x b 40");
    EXPECT_EQ(verdict_of(train, "contact above the fillet", "a with b"), Verdict::holds);
    train.gears[1].spec.addendum = Ratio(12, 10);
    const Finding high = found(train, "contact above the fillet", "a with b");
    EXPECT_EQ(high.verdict, Verdict::fails);
    EXPECT_LT(high.figure, high.limit);
    EXPECT_EQ(verdict_of(train, "contact above the fillet", "b with a"), Verdict::holds);
}

TEST(FilletRule, OnlyCautionsWhereUndercutHasClearedTheWay) {
    EXPECT_EQ(verdict_of(train_of("a 10 x b 40"), "contact above the fillet", "a with b"), Verdict::caution);
}

TEST(FilletRule, CautionsOfTheFullHeightRing) {
    Train train = train_of(kCapstan);
    EXPECT_EQ(verdict_of(train, "contact above the fillet", "planet with ring"), Verdict::caution);
    EXPECT_EQ(verdict_of(train, "contact above the fillet", "ring with planet"), Verdict::holds);
    for (Gear& gear : train.gears)
        if (gear.internal) gear.spec.addendum = Ratio(7, 10);
    EXPECT_EQ(verdict_of(train, "contact above the fillet", "planet with ring"), Verdict::holds);
}

TEST(CentresRule, ComparesTheMeshesOfACarriedMember) {
    const Finding agree = found(train_of(kCapstan), "centre distances agree", "planet on drum");
    EXPECT_EQ(agree.verdict, Verdict::holds);
    EXPECT_NEAR(agree.figure, 0.0, 1e-12);
    const Train apart = train_of("crank 21 x planet 24; planet 24 in ring 70 (planet on drum)");
    const Finding differ = found(apart, "centre distances agree", "planet on drum");
    EXPECT_EQ(differ.verdict, Verdict::fails);
    // Derived: half a tooth of module 3.
    EXPECT_NEAR(differ.figure, 1.5, 1e-12);
    EXPECT_NE(differ.mend.find("--match-shifts"), std::string::npos);
    EXPECT_EQ(verdict_of(match_shifts(apart).train, "centre distances agree", "planet on drum"), Verdict::holds);
}

TEST(CentresRule, ComparesTwoShaftsThatMeshTwice) {
    EXPECT_EQ(verdict_of(train_of("a 20 x b 40; a 25 x b 35"), "centre distances agree", "a on b"), Verdict::holds);
    EXPECT_EQ(verdict_of(train_of("a 20 x b 40; a 25 x b 36"), "centre distances agree", "a on b"), Verdict::fails);
}

// Planet and ring without backlash, module 1: the planet's outline where its centre stands off the ring's, turned.
struct Inside {
    Outline planet;
    Outline space;
    double centre_mm;
    int planet_teeth;
    int ring_teeth;
};

Inside inside_of(int planet_teeth, int ring_teeth) {
    GearSpec planet = gear_a(1.0, planet_teeth, 0.0);
    GearSpec ring = ring_a(1.0, ring_teeth, 0.0);
    // Thin enough that fillets and flanks stay out of it: the tips' way is what counts.
    planet.thinning_mm = 0.05;
    ring.thinning_mm = 0.05;
    return {gear_polygon(profile_for(planet), 1e-3), gear_polygon(profile_for(ring), 1e-3),
            (ring_teeth - planet_teeth) / 2.0, planet_teeth, ring_teeth};
}

// How far the planet's outline leaves the ring's space, where it does.
double overlap(const Inside& set, double centre_mm, double turned_rad) {
    const Outline ring = turned(set.space, kPi / set.ring_teeth + turned_rad * set.planet_teeth / set.ring_teeth);
    double deepest = 0.0;
    Outline chain = ring;
    chain.push_back(ring.front());
    for (const PlanePoint& p : moved(turned(set.planet, turned_rad), centre_mm, 0.0))
        if (!is_inside(p, ring)) deepest = std::max(deepest, distance_to(p, chain));
    return deepest;
}

double rolling_overlap(const Inside& set) {
    double deepest = 0.0;
    constexpr int kSteps = 12;
    for (int s = 0; s < kSteps; ++s)
        deepest = std::max(deepest, overlap(set, set.centre_mm, 2.0 * kPi / set.planet_teeth * s / kSteps));
    return deepest;
}

Train internal_train(int planet_teeth, int ring_teeth) {
    Train train = train_of("planet 30 in ring 60");
    for (Gear& gear : train.gears) gear.teeth = gear.internal ? ring_teeth : planet_teeth;
    return train;
}

TEST(TrochoidRule, FailsWhereTipsCollideWhileTheyRoll) {
    // With 9 teeth of difference the tips just pass, as the printed limit says; with 6 they do not.
    EXPECT_EQ(verdict_of(internal_train(40, 49), "trochoid interference", "planet, ring"), Verdict::holds);
    EXPECT_LT(rolling_overlap(inside_of(40, 49)), 0.005);
    EXPECT_EQ(verdict_of(internal_train(40, 46), "trochoid interference", "planet, ring"), Verdict::fails);
    EXPECT_GT(rolling_overlap(inside_of(40, 46)), 0.02);
}

// Whether the planet, drawn towards the ring's centre, hits the ring.
double radial_overlap(const Inside& set) {
    double deepest = 0.0;
    for (double out = 0.0; out <= 3.0; out += 0.25) deepest = std::max(deepest, overlap(set, set.centre_mm - out, 0.0));
    return deepest;
}

TEST(TrimmingRule, CautionsWhereTheGearCannotBeDrawnOutTowardsTheCentre) {
    EXPECT_EQ(verdict_of(internal_train(30, 60), "trimming interference", "planet, ring"), Verdict::holds);
    EXPECT_LT(radial_overlap(inside_of(30, 60)), 0.005);
    const Train tight = internal_train(30, 40);
    EXPECT_EQ(verdict_of(tight, "trimming interference", "planet, ring"), Verdict::caution);
    EXPECT_GT(radial_overlap(inside_of(30, 40)), 0.02);
}

TEST(InvoluteRule, FailsWhereTheRingReachesPastTheBaseTangent) {
    // The formula and the path say the same thing of the same gears.
    for (const int planet : {14, 17, 20, 24, 30, 40})
        for (const int ring : {50, 60, 80, 120}) {
            const Train train = internal_train(planet, ring);
            const TrainTeeth teeth = teeth_of(train);
            const GearSizes& gear = teeth.gears[external_gear_of(train, train.meshes[0]).position()];
            const PairSizes& pair = *teeth.meshes[0].pair;
            const bool reaches_past =
                tangent_length_mm(gear, pair.first_operating_diameter_mm) + pair.path_start_mm < 0.0;
            EXPECT_EQ(verdict_of(train, "involute interference", "planet, ring") == Verdict::fails, reaches_past)
                << planet << " " << ring;
        }
}

void expect_numbers(const Train& train) {
    for (const Finding& finding : findings_of(train)) {
        EXPECT_TRUE(std::isfinite(finding.figure)) << finding.rule << " at " << finding.where;
        EXPECT_TRUE(std::isfinite(finding.limit)) << finding.rule << " at " << finding.where;
    }
    const TrainTeeth teeth = teeth_of(train);
    for (const GearSizes& gear : teeth.gears) EXPECT_TRUE(std::isfinite(gear.tip_thickness_mm));
    for (const MeshSizes& mesh : teeth.meshes) {
        if (!mesh.pair) continue;
        for (const double value : {mesh.pair->centre_distance_mm, mesh.pair->transverse_contact_ratio,
                                   mesh.pair->circular_backlash_mm, mesh.pair->path_start_mm, mesh.pair->path_end_mm})
            EXPECT_TRUE(std::isfinite(value));
        if (!mesh.active) continue;
        EXPECT_TRUE(std::isfinite(mesh.active->first_sliding.value_or(0.0)));
        EXPECT_TRUE(std::isfinite(mesh.active->second_sliding.value_or(0.0)));
    }
}

bool has_failure(const Train& train) {
    return std::ranges::any_of(findings_of(train), [](const Finding& f) { return f.verdict == Verdict::fails; });
}

TEST(BadInput, FailsByNameAndInNumbers) {
    std::vector<Train> bad;
    for (const char* meshes : {"a 3 x b 3", "a 3 x b 40", "a 20 in b 20", "a 30 in b 20", "a 3 in b 4"})
        bad.push_back(train_of(meshes));
    for (const int shift : {5, -5, 10, -10}) {
        Train train = train_of("a 20 x b 30");
        train.gears[0].shift = Ratio(shift);
        bad.push_back(train);
        train = train_of("a 20 in b 60");
        train.gears[1].shift = Ratio(shift);
        bad.push_back(train);
    }
    Train loose = train_of("a 20 x b 30");
    loose.teeth.backlash = Ratio(100);
    bad.push_back(loose);
    for (const Train& train : bad) {
        EXPECT_TRUE(has_failure(train));
        expect_numbers(train);
    }
}

TEST(BadInput, IsNeverAnsweredWithoutANumber) {
    Dice dice(20);
    for (int i = 0; i < 3000; ++i) {
        Train train = train_of(dice.chance(50) ? kCapstan : "a 20 x b 30");
        for (Gear& gear : train.gears) {
            gear.teeth = dice.chance(30) ? dice.between(3, 12) : dice.between(3, 120);
            if (dice.chance(60)) gear.shift = Ratio(dice.between(-60, 60), 10);
            if (dice.chance(20)) gear.spec.addendum = Ratio(dice.between(1, 40), 10);
            if (dice.chance(20)) gear.spec.dedendum = Ratio(dice.between(1, 40), 10);
            if (dice.chance(20)) gear.spec.root_radius = Ratio(dice.between(0, 20), 10);
        }
        train.teeth.backlash = Ratio(dice.between(0, 100), dice.between(1, 100));
        train.teeth.pressure_angle_deg = Ratio(dice.between(1, 44));
        if (dice.chance(30)) train.teeth.helix_angle_deg = Ratio(dice.between(-59, 59));
        if (dice.chance(20)) train.meshes[0].centre_distance = Ratio(dice.between(1, 300));
        expect_numbers(train);
    }
}

}  // namespace
}  // namespace couplet
