#include "couple/audit.hpp"

#include <gtest/gtest.h>

#include "couple/coupling.hpp"
#include "exact/decimal.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// The capstan: crank 21, planet 24 on the drum, ring 69 held: planet on drum -161/240 per turn of the crank, against
// the frame -7/16, drum 7/30; tooth counts alone say -7/8.
class CapstanAudit : public testing::Test {
  protected:
    Audit audit_of(const Ratio& first_deg, const Ratio& second_deg, bool flipped = false,
                   const std::string& second = "planet") {
        train_ = train_from("crank 21 x planet 24; planet 24 in ring 69 (planet on drum)");
        train_.joints = {
            {"pin", member_named(train_, second), rides_on(train_, member_named(train_, second)), flipped}};
        train_.couplings = {{{"crank on frame", "pin"}, {{first_deg, second_deg}}}};
        const CouplingSheet sheet = couple(train_, setting_from(train_, "hold ring; drive crank 30"), {});
        return sheet.couplings.front().audit.value();
    }
    Train train_;
};

TEST_F(CapstanAudit, TheExactPairIsRight) {
    const Audit verdict = audit_of(360, Ratio(-483, 2));
    EXPECT_TRUE(verdict.is_right());
    EXPECT_TRUE(verdict.off_deg_per_turn.is_zero());
    EXPECT_FALSE(verdict.turns_to_quarter_tooth);
    EXPECT_TRUE(audit_of(240, -161).is_right());
    EXPECT_TRUE(audit_of(-480, 322).is_right());
}

TEST_F(CapstanAudit, TheBareToothRatioMissesTheCarrierCorrection) {
    const Audit verdict = audit_of(360, -315);
    EXPECT_EQ(verdict.mistake, Mistake::bare_tooth_ratio);
    EXPECT_EQ(verdict.off_deg_per_turn, Ratio(-147, 2));
    EXPECT_EQ(verdict.corrected, (DegreePair{360, Ratio(-483, 2)}));
    // A quarter tooth of 24 teeth is 3.75 degrees.
    EXPECT_EQ(verdict.turns_to_quarter_tooth, Ratio(15, 4) / Ratio(147, 2));
    EXPECT_EQ(audit_of(24, 21).mistake, Mistake::bare_tooth_ratio_sense);
}

TEST_F(CapstanAudit, AReversedSenseNamesTheJointProbablyFlipped) {
    const Audit verdict = audit_of(240, 161);
    EXPECT_EQ(verdict.mistake, Mistake::sense_reversed);
    ASSERT_TRUE(verdict.probably_flipped);
    EXPECT_EQ(verdict.probably_flipped->name, "pin");
}

TEST_F(CapstanAudit, AFlippedJointCountsTheOtherWay) {
    EXPECT_TRUE(audit_of(240, 161, true).is_right());
    EXPECT_EQ(audit_of(240, -161, true).mistake, Mistake::sense_reversed);
    EXPECT_EQ(audit_of(360, 315, true).mistake, Mistake::bare_tooth_ratio);
}

TEST_F(CapstanAudit, SwappedAnglesAreSeen) {
    EXPECT_EQ(audit_of(-161, 240).mistake, Mistake::swapped);
    EXPECT_EQ(audit_of(161, 240).mistake, Mistake::swapped_and_reversed);
}

TEST_F(CapstanAudit, TheRatioOfAnotherPairOfJointsIsNamed) {
    const Audit verdict = audit_of(16, -7);
    EXPECT_EQ(verdict.mistake, Mistake::other_joints);
    ASSERT_TRUE(verdict.fits_joints);
    EXPECT_EQ((*verdict.fits_joints)[1].name, "planet on frame");
    const Audit drum = audit_of(360, 84);
    EXPECT_EQ(drum.mistake, Mistake::other_joints);
    EXPECT_EQ((*drum.fits_joints)[1].name, "drum on frame");
}

TEST_F(CapstanAudit, TheRatioWithAnotherMemberHeldIsNamed) {
    // With the planet held against the frame, the drum turns as on a shaft of its own: 21/(21+24) of the crank.
    const Audit verdict = audit_of(45, 21, false, "drum");
    EXPECT_EQ(verdict.mistake, Mistake::other_held);
    EXPECT_EQ(verdict.fits_held, std::vector<MemberIndex>{member_named(train_, "planet")});
}

TEST_F(CapstanAudit, RoundingIsToldFromOtherMistakes) {
    const Audit verdict = audit_of(360, -241);
    EXPECT_EQ(verdict.mistake, Mistake::rounded);
    EXPECT_EQ(verdict.drift_deg_per_1000_turns, Ratio(500));
    EXPECT_EQ(verdict.turns_to_quarter_tooth, Ratio(15, 2));
    EXPECT_EQ(audit_of(360, *parse_ratio("-241.49")).mistake, Mistake::unexplained);
    EXPECT_EQ(audit_of(100, *parse_ratio("-67.08")).mistake, Mistake::rounded);
}

TEST_F(CapstanAudit, ARoundedMistakeIsStillThatMistake) {
    const Audit verdict = audit_of(100, *parse_ratio("67.08"));
    EXPECT_EQ(verdict.mistake, Mistake::sense_reversed);
    EXPECT_TRUE(verdict.also_rounded);
}

TEST_F(CapstanAudit, AZeroAngleForATurningJointCannotBe) {
    EXPECT_EQ(audit_of(0, 360).mistake, Mistake::stands_still);
    EXPECT_EQ(audit_of(360, 0).mistake, Mistake::stands_still);
    EXPECT_EQ(audit_of(360, 10, false, "ring").mistake, Mistake::stands_still);
    EXPECT_TRUE(audit_of(360, 0, false, "ring").is_right());
}

TEST_F(CapstanAudit, WhatNothingExplainsIsWrongByAFigure) {
    const Audit verdict = audit_of(360, -200);
    EXPECT_EQ(verdict.mistake, Mistake::unexplained);
    EXPECT_EQ(verdict.off_deg_per_turn, Ratio(83, 2));
}

TEST(QuarterTooth, GoesByTheTurningMembersTeethElseTheOthers) {
    const Train train = train_from("crank 21 x planet 24; planet 24 in ring 69 (planet on drum)");
    const auto joint = [&](const char* turns, const char* against) {
        return Joint{"", member_named(train, turns), *find_member(train, against), false};
    };
    EXPECT_EQ(quarter_tooth_deg(train, joint("planet", "drum")), Ratio(90, 24));
    EXPECT_EQ(quarter_tooth_deg(train, joint("drum", "planet")), Ratio(90, 24));
    EXPECT_FALSE(quarter_tooth_deg(train, joint("drum", "frame")));
}

}  // namespace
}  // namespace couplet
