// The usual arrangements, as they come: they close, assemble, mesh and turn by the textbook's ratio.
#include "train/arrangement.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"
#include "tooth/mesh_checks.hpp"

namespace couplet {
namespace {

Train usual_train(Arrangement arrangement) {
    return train_of(arrangement, form_of(arrangement).usual);
}

std::string failing(const std::vector<Finding>& findings) {
    std::string text;
    for (const Finding& finding : findings)
        if (finding.verdict == Verdict::fails)
            text += finding.rule + " at " + finding.where + ": " + std::to_string(finding.figure) + " of " +
                    std::to_string(finding.limit) + "\n";
    return text;
}

SolvedTrain usual_motion(Arrangement arrangement) {
    Train train = usual_train(arrangement);
    Setting setting = train.settings.at(0);
    return solved(std::move(train), std::move(setting));
}

// Turns of the first member per turn of the second.
Ratio ratio_of(Arrangement arrangement, const std::string& driver, const std::string& output) {
    const SolvedTrain usual = usual_motion(arrangement);
    return usual.turns(driver) / usual.turns(output);
}

std::vector<Ratio> counts_of(Arrangement arrangement) {
    const std::vector<int>& usual = form_of(arrangement).usual;
    return {usual.begin(), usual.end()};
}

TEST(UsualArrangements, PassTheRulesOfTeeth) {
    for (const ArrangementForm& form : arrangement_forms()) {
        const PlacedTrain set = placed(usual_train(form.arrangement));
        const std::vector<Finding> findings = mesh_findings(set.train, set.teeth);
        EXPECT_FALSE(findings.empty()) << form.name;
        EXPECT_EQ(failing(findings), "") << form.name;
        for (const Gear& gear : set.train.gears) EXPECT_FALSE(gear.shift) << form.name;
    }
}

TEST(UsualArrangements, CloseAndAssemble) {
    for (const ArrangementForm& form : arrangement_forms()) {
        const Assembly assembly = placed(usual_train(form.arrangement)).assembly();
        EXPECT_EQ(assembly.outcome, AssemblyOutcome::assembles) << form.name;
        EXPECT_EQ(failing(assembly.findings), "") << form.name;
        EXPECT_EQ(assembly.conditions.empty(), !form.has_copies) << form.name;
        for (const AssemblyCondition& condition : assembly.conditions) EXPECT_TRUE(condition.holds) << form.name;
    }
}

TEST(UsualArrangements, MeshWithoutOverlap) {
    for (const ArrangementForm& form : arrangement_forms()) {
        const PlacedTrain set = placed(usual_train(form.arrangement));
        const Motion motion = solve(set.train, set.train.settings.at(0));
        const MeshProof proof = set.proof(&motion);
        EXPECT_TRUE(proof.all_mesh) << form.name;
        EXPECT_EQ(failing(proof.findings), "") << form.name;
        // Every planet has a gap of its own with every central gear.
        EXPECT_GE(proof.meshes.size(), set.train.meshes.size() * (form.has_copies ? 3 : 1)) << form.name;
    }
}

TEST(UsualArrangements, PutTheOutputOfARevertedTrainOntoTheAxisOfItsInput) {
    const PlacedTrain set = placed(usual_train(Arrangement::reverted));
    const PlanePoint input = set.place("input shaft").centre_mm;
    const PlanePoint output = set.place("output shaft").centre_mm;
    EXPECT_NEAR(std::hypot(output.x_mm - input.x_mm, output.y_mm - input.y_mm), 0.0, 1e-9);
    // Half the sum of the counts of a pair times the module of 2 mm.
    const PlanePoint counter = set.place("countershaft").centre_mm;
    EXPECT_NEAR(std::hypot(counter.x_mm - input.x_mm, counter.y_mm - input.y_mm),
                (counts_of(Arrangement::reverted)[0] + counts_of(Arrangement::reverted)[1]).to_double(), 1e-9);
}

// The ratios are those of any text on planetary gears (from memory), by Willis: with the carrier as observer the gears
// turn as on fixed axes, the held ring turns backwards by the carrier's turns. S, P, Q, R: sun, planet's gears, ring.
TEST(UsualArrangements, TurnByTheTextbookRatio) {
    const Ratio one(1);
    for (const ArrangementForm& form : arrangement_forms())
        EXPECT_EQ(usual_motion(form.arrangement).motion.outcome, Outcome::moves) << form.name;

    const auto simple = counts_of(Arrangement::simple);
    EXPECT_EQ(ratio_of(Arrangement::simple, "sun", "carrier"), one + simple[2] / simple[0]);
    // 1 + P R / (S Q), P in mesh with the sun and Q with the ring.
    const auto stepped = counts_of(Arrangement::stepped);
    EXPECT_EQ(ratio_of(Arrangement::stepped, "sun", "carrier"),
              one + stepped[1] * stepped[3] / (stepped[0] * stepped[2]));
    // The second planet turns the sense round.
    const auto paired = counts_of(Arrangement::paired);
    EXPECT_EQ(ratio_of(Arrangement::paired, "sun", "carrier"), one - paired[3] / paired[0]);
    // (1 + R1 / S) / (1 - R1 Q / (P R2)), rings R1 on P, held, and R2 on Q.
    const auto rings = counts_of(Arrangement::two_rings);
    EXPECT_EQ(ratio_of(Arrangement::two_rings, "sun", "output ring"),
              (one + rings[2] / rings[0]) / (one - rings[2] * rings[3] / (rings[1] * rings[4])));
}

TEST(UsualArrangements, MultiplyTheRatiosOfWhatStandsInSeries) {
    const Ratio one(1);
    const auto series = counts_of(Arrangement::in_series);
    EXPECT_EQ(ratio_of(Arrangement::in_series, "sun 1", "carrier 2"),
              (one + series[2] / series[0]) * (one + series[5] / series[3]));
    // A pair of external gears: driven over driving, the other way round; two of them turn the same way again.
    const auto pairs = counts_of(Arrangement::pairs);
    EXPECT_EQ(ratio_of(Arrangement::pairs, "shaft 1", "shaft 2"), -pairs[1] / pairs[0]);
    EXPECT_EQ(ratio_of(Arrangement::pairs, "shaft 1", "shaft 3"), pairs[1] * pairs[3] / (pairs[0] * pairs[2]));
    const auto reverted = counts_of(Arrangement::reverted);
    EXPECT_EQ(ratio_of(Arrangement::reverted, "input shaft", "output shaft"),
              reverted[1] * reverted[3] / (reverted[0] * reverted[2]));
}

TEST(UsualArrangements, TurnTheCarrierOfADifferentialByTheMeanWeightedByTeeth) {
    const SolvedTrain usual = usual_motion(Arrangement::differential);
    const auto counts = counts_of(Arrangement::differential);
    const Ratio sun = usual.turns("sun");
    const Ratio ring = usual.turns("ring");
    EXPECT_NE(sun, ring);
    // (S s + R r) / (S + R): Willis, (s - c) / (r - c) = -R / S.
    EXPECT_EQ(usual.turns("carrier"), (counts[0] * sun + counts[2] * ring) / (counts[0] + counts[2]));
}

}  // namespace
}  // namespace couplet
