#include "sheet/coupling_page.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"
#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

// The page as one run of words, so that wrapping and alignment do not matter.
std::string words_of(const HandSheet& hand) {
    std::string words;
    for (const char c : text_page(coupling_page(hand.train, hand.sheet))) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank)
            words += c;
        else if (!words.empty() && words.back() != ' ')
            words += ' ';
    }
    return words;
}

void expect_says(const HandSheet& hand, const std::string& expected) {
    EXPECT_NE(words_of(hand).find(expected), std::string::npos) << expected << "\nnot in:\n" << words_of(hand);
}

void expect_is_silent_about(const HandSheet& hand, const std::string& unexpected) {
    EXPECT_EQ(words_of(hand).find(unexpected), std::string::npos) << unexpected << "\nin:\n" << words_of(hand);
}

TEST(CouplingPage, TellsTheSetting) {
    HandSheet hand = capstan_sheet();
    expect_says(hand, "Setting hauling Held ring Driver crank at 30 rpm Outcome moves: freedom 1, 1 driver");
    hand.sheet.setting.name.clear();
    hand.sheet.setting.hold.clear();
    hand.sheet.setting.tie = {{hand.member("crank"), hand.member("drum")}};
    expect_says(hand, "Setting as given on the command line Held nothing Tied crank = drum");
}

TEST(CouplingPage, ListsMembersWithCopiesTurnsSpeedAndSense) {
    const HandSheet hand = capstan_sheet();
    expect_says(hand, "planet (3 copies) drum -7/16 -0.4375 -13.125 opposite");
    expect_says(hand, "ring frame 0 0 0 stands still");
    expect_says(hand, "drum frame 7/30 0.233333 7 same");
    expect_says(hand, "per turn of crank");
}

TEST(CouplingPage, ListsThePairsToType) {
    const HandSheet hand = capstan_sheet();
    expect_says(hand, "crank on frame planet on drum -161/240 -0.670833 360 -241.5 240 -161 opposite");
    expect_is_silent_about(hand, "Rounded");
}

// -7/8 turn is -315 deg; 315 - 241.5 = 73.5.
TEST(CouplingPage, TeachesTheCarrierCorrection) {
    const HandSheet hand = capstan_sheet();
    expect_says(hand, "planet on drum, while crank on frame turns 360 deg");
    expect_says(hand, "-360 * 21/24 * 69/(21+69)");
    expect_says(hand, "tooth counts say -7/8 per turn, that is 360 : -315");
    expect_says(hand, "the joint needs -161/240 per turn, that is 360 : -241.5");
    expect_says(hand, "carrier correction typed without it, the joint is off by -73.5 deg per turn of crank on frame");
    expect_says(hand,
                "Tooth counts hold for an eye that rides on 'drum', and 'drum' turns too. The joint 'planet on "
                "drum' sits there. 'crank on frame' is not measured from there, so the turning of 'drum' has to "
                "be counted in.");
}

// A carrier that is held is not what spoils the tooth counts: another one on the way is.
TEST(CouplingPage, BlamesNoCarrierThatStandsStill) {
    HandSheet hand = capstan_sheet();
    hand.sheet.members[3].combination = {0};
    expect_says(hand, "Tooth counts hold while every carrier on the way from one joint to the other stands still.");
    expect_is_silent_about(hand, "'drum' turns too");
}

TEST(CouplingPage, ListsAPairOfJointsOnce) {
    HandSheet hand = audited_sheet({360, -315}, Mistake::bare_tooth_ratio, Ratio(-147, 2));
    hand.sheet.couplings.push_back(hand.coupling());
    hand.sheet.couplings.back().typed = DegreePair{360, 315};
    const std::string words = words_of(hand);
    const auto count = [&](const std::string& text) {
        std::size_t times = 0;
        for (std::size_t at = words.find(text); at != std::string::npos; at = words.find(text, at + 1)) ++times;
        return times;
    };
    EXPECT_EQ(count("240 -161"), 1U);
    EXPECT_EQ(count("carrier correction typed without it"), 1U);
    EXPECT_EQ(count("is WRONG"), 2U);
}

TEST(CouplingPage, HasNoCorrectionWhereNoneIsNeeded) {
    HandSheet hand = capstan_sheet();
    hand.coupling().correction.reset();
    expect_is_silent_about(hand, "carrier correction");
}

TEST(CouplingPage, ListsStandingJointsApart) {
    HandSheet hand = capstan_sheet();
    hand.coupling().second_per_first = 0;
    hand.coupling().to_type.degrees = {360, 0};
    expect_says(hand, "Stands still: fix this joint instead of coupling it");
    expect_is_silent_about(hand, "Couplings: the two angles to type");
}

TEST(CouplingPage, TellsTheDriftOfRoundedPairs) {
    HandSheet hand = capstan_sheet();
    hand.coupling().to_type = {{360, Ratio(-24149, 100)}, false, 10};
    hand.coupling().turns_to_quarter_tooth = Ratio(751, 2);
    expect_says(hand, "360 -241.49 240 -161 opposite rounded");
    expect_says(hand,
                "planet on drum: 360 : -241.49 drifts by 10 deg per 1000 turns of crank on frame; a quarter tooth "
                "out after 375 turns.");
}

TEST(CouplingPage, TellsTheAudit) {
    const HandSheet hand = audited_sheet({360, -315}, Mistake::bare_tooth_ratio, Ratio(-147, 2));
    expect_says(hand, "Audit of what was typed");
    expect_says(hand, "typed 360 : -315 is WRONG by 73.5 deg per turn");
}

TEST(CouplingPage, TellsWhatCannotBeCoupled) {
    HandSheet hand = capstan_sheet();
    hand.coupling().second_per_first.reset();
    hand.coupling().obstacle = Obstacle::independent;
    expect_says(hand, "Cannot be coupled");
    expect_says(hand, "no two angles couple them");
}

TEST(CouplingPage, ShowsNoNumbersWhereNothingMoves) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.outcome = Outcome::locked;
    hand.sheet.explanation.emplace();
    expect_says(hand, "Locked: the drivers cannot turn.");
    expect_is_silent_about(hand, "TYPE");
    expect_is_silent_about(hand, "Members");
}

TEST(CouplingPage, MarksMembersThatNeedAMissingDriver) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.outcome = Outcome::free;
    hand.sheet.motion.free_joints = {hand.member("ring")};
    hand.sheet.members[3].turns_per_driver_turn.reset();
    hand.sheet.members[3].combination = {Ratio(7, 30), Ratio(23, 30)};
    expect_says(hand, "drum frame ? ? ? 7/30 crank + 23/30 ring on frame");
    hand.sheet.members[3].combination.clear();
    expect_says(hand, "drum frame ? ? ? undetermined");
}

TEST(CouplingPage, ShowsWhatStandsStillWithoutADriver) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.outcome = Outcome::free;
    hand.sheet.motion.drivers.clear();
    hand.sheet.motion.free_joints = {hand.member("drum")};
    hand.sheet.reference_driver.reset();
    for (MemberRate& rate : hand.sheet.members) {
        rate.turns_per_driver_turn.reset();
        rate.rpm.reset();
    }
    expect_says(hand, "ring frame 0 0 stands still 0");
    expect_says(hand, "planet (3 copies) drum ? ? ? -7/16 drum on frame");
}

TEST(CouplingPage, AbbreviatesLongNumbersAndSaysWhereTheyAre) {
    HandSheet hand = capstan_sheet();
    hand.coupling().second_per_first = Ratio(1, 3) * power_of_ten(-60);
    hand.coupling().expression = std::string(kLongestFormula + 1, '1');
    expect_says(hand, "3.33333e-61 (62 digits)");
    expect_says(hand, "--format json prints it");
    expect_says(hand, "401 characters long; --format json prints it");
}

TEST(CouplingPage, EndsWithTheCautions) {
    const std::string words = words_of(capstan_sheet());
    const std::string last = "Follow local codes, and have a licensed engineer check what can hurt someone. ";
    EXPECT_EQ(words.substr(words.size() - last.size()), last);
    EXPECT_NE(words.find("Kinematics only: no strength, wear or heat is calculated."), std::string::npos);
    EXPECT_NE(words.find("Turning gears trap fingers: guard them."), std::string::npos);
}

}  // namespace
}  // namespace couplet
