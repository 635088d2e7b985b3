#include "sheet/audit_words.hpp"

#include <gtest/gtest.h>

#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

std::string explanation_of(const HandSheet& hand) {
    return audit_explanation(hand.train, hand.coupling());
}

HandSheet mistaken(Mistake mistake) {
    return audited_sheet({360, -315}, mistake, Ratio(-147, 2));
}

TEST(AuditText, SaysRight) {
    const HandSheet hand = audited_sheet({240, -161}, Mistake::none, 0);
    EXPECT_EQ(verdict_name(*hand.coupling().audit), "right");
    EXPECT_EQ(mistake_name(hand.coupling().audit->mistake), "none");
    EXPECT_EQ(audit_text(hand.train, hand.coupling()), "crank on frame to planet on drum: typed 240 : -161 is right.");
}

TEST(AuditText, SaysHowFarOffWhyAndWhatToTypeInstead) {
    const HandSheet hand = mistaken(Mistake::bare_tooth_ratio);
    EXPECT_EQ(verdict_name(*hand.coupling().audit), "wrong");
    EXPECT_EQ(
        audit_text(hand.train, hand.coupling()),
        "crank on frame to planet on drum: typed 360 : -315 is WRONG by 73.5 deg per turn of crank on frame. This "
        "is the bare tooth ratio: the carrier correction is missing, for tooth counts do not see the carrier "
        "turn. Type 360 : -241.5 instead.");
}

TEST(AuditMend, SaysWhatToTypeInsteadAndWhy) {
    const HandSheet right = audited_sheet({240, -161}, Mistake::none, 0);
    EXPECT_EQ(audit_mend(right.train, right.coupling()), "");
    const HandSheet bare = mistaken(Mistake::bare_tooth_ratio);
    EXPECT_EQ(audit_mend(bare.train, bare.coupling()),
              "Type 360 : -241.5 instead. This is the bare tooth ratio: the carrier correction is missing, for tooth "
              "counts do not see the carrier turn.");
    const HandSheet rounded = audited_sheet({360, Ratio(-24149, 100)}, Mistake::rounded, Ratio(1, 100));
    EXPECT_EQ(audit_mend(rounded.train, rounded.coupling()),
              "Type 360 : -241.5 instead. Rounded, it drifts by 10 deg per 1000 turns of crank on frame.");
}

TEST(AuditText, TellsTheDriftOfRoundedAngles) {
    HandSheet hand = audited_sheet({360, Ratio(-24149, 100)}, Mistake::rounded, Ratio(1, 100));
    EXPECT_EQ(verdict_name(*hand.coupling().audit), "rounded");
    EXPECT_EQ(audit_text(hand.train, hand.coupling()),
              "crank on frame to planet on drum: typed 360 : -241.49 is rounded: it drifts by 10 deg per 1000 turns of "
              "crank on frame. Type 360 : -241.5 instead.");
    hand.coupling().audit->turns_to_quarter_tooth = 375;
    EXPECT_NE(audit_text(hand.train, hand.coupling()).find("is a quarter tooth out after 375 turns"),
              std::string::npos);
    hand.coupling().audit->corrected = *hand.coupling().typed;
    EXPECT_NE(audit_text(hand.train, hand.coupling()).find("No better pair fits"), std::string::npos);
}

TEST(AuditExplanation, NamesEveryMistake) {
    EXPECT_EQ(explanation_of(mistaken(Mistake::bare_tooth_ratio_sense)),
              "This is the bare tooth ratio with its sense reversed: the carrier correction is missing, for tooth "
              "counts do not see the carrier turn.");
    EXPECT_EQ(explanation_of(mistaken(Mistake::swapped)), "The two angles stand in each other's place.");
    EXPECT_EQ(explanation_of(mistaken(Mistake::swapped_and_reversed)),
              "The two angles stand in each other's place, and the sense is reversed.");
    EXPECT_EQ(explanation_of(mistaken(Mistake::rounded)), "The angles typed are the right ones, but rounded.");
    EXPECT_EQ(explanation_of(mistaken(Mistake::unexplained)), "No common mistake explains these angles.");
}

TEST(AuditExplanation, NamesTheJointThatIsProbablyFlipped) {
    HandSheet hand = mistaken(Mistake::sense_reversed);
    EXPECT_EQ(explanation_of(hand), "The sense is reversed: change the sign of one angle.");
    hand.coupling().audit->probably_flipped = hand.joint("planet", "drum");
    EXPECT_EQ(explanation_of(hand),
              "The sense is reversed: the axis of planet on drum probably points the other way; change one sign, or "
              "mark that joint flipped in the scene.");
}

TEST(AuditExplanation, NamesTheMembersOfTheJointThatItFits) {
    HandSheet hand = mistaken(Mistake::other_joints);
    hand.coupling().audit->fits_joints = {hand.coupling().first, hand.joint("planet", "frame")};
    EXPECT_EQ(explanation_of(hand), "This is planet against frame, not planet against drum.");
    hand.coupling().audit->fits_joints = {hand.joint("drum", "frame"), hand.coupling().second};
    EXPECT_EQ(explanation_of(hand),
              "This is right where the first joint is drum against frame, not crank against "
              "frame.");
    hand.coupling().audit->fits_joints = {hand.joint("drum", "frame"), hand.joint("planet", "frame")};
    EXPECT_EQ(explanation_of(hand), "This is drum against frame and planet against frame, not the two joints named.");
}

TEST(AuditExplanation, NamesTheMemberThatWouldHaveToBeHeld) {
    HandSheet hand = mistaken(Mistake::other_held);
    hand.coupling().audit->fits_held = {hand.member("drum")};
    EXPECT_EQ(explanation_of(hand), "This would be right if drum were held instead.");
}

TEST(AuditExplanation, TellsStandingJointsApart) {
    HandSheet hand = mistaken(Mistake::stands_still);
    EXPECT_EQ(explanation_of(hand), "An angle of 0 says that a joint stands still, but planet on drum turns.");
    hand.coupling().second_per_first = 0;
    EXPECT_EQ(explanation_of(hand), "planet on drum stands still: fix that joint instead of coupling it.");
}

// Nothing can be said per turn of a joint that was typed to stand still.
TEST(AuditText, GivesNoErrorPerTurnOfAnAngleOfZero) {
    const HandSheet hand = audited_sheet({0, 90}, Mistake::stands_still, 0);
    EXPECT_NE(audit_text(hand.train, hand.coupling()).find("typed 0 : 90 is WRONG. An angle of 0"), std::string::npos);
}

TEST(AuditExplanation, MentionsRoundingOnTopOfAMistake) {
    HandSheet hand = mistaken(Mistake::swapped);
    hand.coupling().audit->also_rounded = true;
    EXPECT_EQ(explanation_of(hand), "The two angles stand in each other's place (and rounded).");
}

TEST(MistakeName, IsDifferentForEveryMistake) {
    EXPECT_EQ(mistake_name(Mistake::bare_tooth_ratio), "bare_tooth_ratio");
    EXPECT_EQ(mistake_name(Mistake::bare_tooth_ratio_sense), "bare_tooth_ratio_sense");
    EXPECT_EQ(mistake_name(Mistake::sense_reversed), "sense_reversed");
    EXPECT_EQ(mistake_name(Mistake::swapped), "swapped");
    EXPECT_EQ(mistake_name(Mistake::swapped_and_reversed), "swapped_and_reversed");
    EXPECT_EQ(mistake_name(Mistake::other_joints), "other_joints");
    EXPECT_EQ(mistake_name(Mistake::other_held), "other_held");
    EXPECT_EQ(mistake_name(Mistake::rounded), "rounded");
    EXPECT_EQ(mistake_name(Mistake::stands_still), "stands_still");
    EXPECT_EQ(mistake_name(Mistake::unexplained), "unexplained");
}

}  // namespace
}  // namespace couplet
