#include "sheet/words.hpp"

#include <gtest/gtest.h>

#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

TEST(ListText, ReadsLikeASentence) {
    EXPECT_EQ(list_text({}), "");
    EXPECT_EQ(list_text({"a"}), "a");
    EXPECT_EQ(list_text({"a", "b"}), "a and b");
    EXPECT_EQ(list_text({"a", "b", "c"}, "or"), "a, b or c");
}

TEST(ListText, CountsTheRestOfALongList) {
    const std::vector<std::string> names(100, "m");
    EXPECT_EQ(list_text(names), "m, m, m, m, m, m, m, m, m, m, m and 89 others");
}

TEST(MemberLabel, TellsCopies) {
    const HandSheet hand = capstan_sheet();
    EXPECT_EQ(member_label(hand.train, hand.member("planet")), "planet (3 copies)");
    EXPECT_EQ(member_label(hand.train, hand.member("drum")), "drum");
    EXPECT_EQ(member_label(hand.train, kFrame), "frame");
}

TEST(JointLabel, NamesBothMembersWhateverTheJointIsCalled) {
    const HandSheet hand = capstan_sheet();
    Joint joint = hand.joint("planet", "drum");
    EXPECT_EQ(joint_label(hand.train, joint), "planet on drum");
    joint.flipped = true;
    EXPECT_EQ(joint_label(hand.train, joint), "planet on drum (flipped)");
    joint.name = "pin";
    EXPECT_EQ(joint_label(hand.train, joint), "pin (planet on drum, flipped)");
    joint.flipped = false;
    EXPECT_EQ(joint_label(hand.train, joint), "pin (planet on drum)");
    joint.name.clear();
    EXPECT_EQ(joint_name(hand.train, joint), "planet on drum");
}

TEST(CombinationText, WritesSignsAndLeavesOutOnes) {
    EXPECT_EQ(combination_text({Ratio(3, 10), Ratio(-7, 10)}, {"sun", "ring"}), "3/10 sun - 7/10 ring");
    EXPECT_EQ(combination_text({-1, 1}, {"sun", "ring"}), "-sun + ring");
    EXPECT_EQ(combination_text({0, 2}, {"sun", "ring"}), "2 ring");
    EXPECT_EQ(combination_text({0, 0}, {"sun", "ring"}), "0");
}

TEST(ParameterNames, AreDriversThenJointsThatCouldTakeOne) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.free_joints = {hand.member("planet"), hand.member("ring")};
    EXPECT_EQ(parameter_names(hand.train, hand.sheet.motion),
              (std::vector<std::string>{"crank", "planet on drum", "ring on frame"}));
}

TEST(Words, NameSensesDrivesTiesAndOutcomes) {
    const HandSheet hand = capstan_sheet();
    EXPECT_EQ(sense_text(Ratio(-1, 2)), "opposite");
    EXPECT_EQ(sense_text(2), "same");
    EXPECT_EQ(sense_text(0), "stands still");
    EXPECT_EQ(drive_text(hand.train, {hand.member("crank"), Ratio(-9, 2)}), "crank at -4.5 rpm");
    EXPECT_EQ(tie_text(hand.train, {hand.member("crank"), hand.member("drum")}), "crank = drum");
    EXPECT_EQ(counted(1, "driver"), "1 driver");
    EXPECT_EQ(counted(2, "driver"), "2 drivers");
    EXPECT_EQ(outcome_name(Outcome::conflicting), "conflicting");
}

}  // namespace
}  // namespace couplet
