#include "motion/speeds.hpp"

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <vector>

#include "support/outcome_printer.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_families.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

const char* const kSimpleSet = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";
const char* const kSimpsonSet =
    "sun 24 x planet1 22; planet1 22 in ring1 69; sun 24 x planet2 22; planet2 22 in ring2 69 (planet1 on carrier1, "
    "planet2 on carrier2)";

// "held ring: sun / carrier" to driver turns per output turn.
std::map<std::string, Ratio> by_choice(const Train& train, const std::vector<SpeedRow>& rows) {
    std::map<std::string, Ratio> ratios;
    for (const SpeedRow& row : rows) {
        std::string choice = "held";
        for (const MemberIndex held : row.held) choice += " " + name_of(train, held);
        choice += ": " + name_of(train, row.driver) + " / " + name_of(train, row.output);
        EXPECT_FALSE(ratios.contains(choice)) << choice;
        ratios[choice] = row.driver_per_output;
    }
    return ratios;
}

// i = 1 + R/S, 1 + S/R, -R/S and their inverses: Willis, Principles of Mechanism (1841); from memory.
TEST(SpeedRows, AreTheSixOfASimpleSet) {
    const Train train = train_from(kSimpleSet);
    EXPECT_EQ(by_choice(train, speed_rows(train, {})), (std::map<std::string, Ratio>{
                                                           {"held ring: sun / carrier", Ratio(16, 5)},
                                                           {"held ring: carrier / sun", Ratio(5, 16)},
                                                           {"held sun: ring / carrier", Ratio(16, 11)},
                                                           {"held sun: carrier / ring", Ratio(11, 16)},
                                                           {"held carrier: sun / ring", Ratio(-11, 5)},
                                                           {"held carrier: ring / sun", Ratio(-5, 11)},
                                                       }));
}

TEST(SpeedRows, ComeInTheOrderOfTheMembers) {
    const Train train = train_from(kSimpleSet);
    const std::vector<SpeedRow> rows = speed_rows(train, {});
    ASSERT_EQ(rows.size(), 6U);
    EXPECT_EQ(name_of(train, rows[0].held.at(0)), "sun");
    EXPECT_EQ(name_of(train, rows[0].driver), "ring");
    EXPECT_EQ(name_of(train, rows[5].held.at(0)), "carrier");
    EXPECT_EQ(name_of(train, rows[5].output), "sun");
}

TEST(SpeedRows, HoldNothingInAFixedTrain) {
    const Train train = train_from("a 20 x b 40; b 40 x c 10");
    const std::map<std::string, Ratio> ratios = by_choice(train, speed_rows(train, {}));
    EXPECT_EQ(ratios.size(), 6U);
    EXPECT_EQ(ratios.at("held: a / c"), Ratio(1, 2));
    EXPECT_EQ(ratios.at("held: b / a"), Ratio(-1, 2));
}

TEST(SpeedRows, ChooseAmongTheMembersNamed) {
    const Train train = train_from(kSimpleSet);
    const SpeedChoices choices{{}, {member_named(train, "sun"), member_named(train, "planet")}};
    EXPECT_EQ(by_choice(train, speed_rows(train, choices)), (std::map<std::string, Ratio>{}));
    const SpeedChoices with_ring{
        {}, {member_named(train, "sun"), member_named(train, "planet"), member_named(train, "ring")}};
    // With the planet kept from turning against the frame, sun and ring follow the carrier by 8/5 and 8/11:
    // 30 w_sun = 48 w_carrier, 66 w_ring = 48 w_carrier.
    EXPECT_EQ(by_choice(train, speed_rows(train, with_ring)).at("held planet: sun / ring"), Ratio(11, 5));
}

TEST(SpeedRows, KeepTies) {
    const Train train = train_from(kSimpsonSet);
    const SpeedChoices choices{{{member_named(train, "carrier1"), member_named(train, "ring2")}}, {}};
    const std::map<std::string, Ratio> ratios = by_choice(train, speed_rows(train, choices));
    // 2 + S/R, 1 + S/R, -R/S with S/R = 24/69: transmission texts; from memory.
    EXPECT_EQ(ratios.at("held carrier2: ring1 / carrier1"), Ratio(54, 23));
    EXPECT_EQ(ratios.at("held sun: ring1 / carrier1"), Ratio(31, 23));
    EXPECT_EQ(ratios.at("held carrier2: sun / carrier1"), Ratio(-23, 8));
}

TEST(SpeedRows, AreNoneForALockedTrain) {
    const Train train = train_from("a 20 x b 20; b 20 x c 20; c 20 x a 20");
    EXPECT_TRUE(speed_rows(train, {}).empty());
}

TEST(SpeedRows, RefuseMoreChoicesThanAnyoneCouldRead) {
    std::string meshes;
    for (int k = 1; k <= 20; ++k)
        meshes += (k == 1 ? "a" : "; a") + std::to_string(k) + " 20 x b" + std::to_string(k) + " 30";
    EXPECT_THROW((void)speed_rows(train_from(meshes), {}), std::length_error);
}

Train simpson_train() {
    Train train = train_from(kSimpsonSet);
    for (const char* setting :
         {"hold carrier2; tie carrier1=ring2; drive ring1 1", "hold sun; tie carrier1=ring2; drive ring1 1",
          "tie carrier1=ring2, ring1=sun; drive ring1 1", "hold carrier2, sun; tie carrier1=ring2; drive ring1 1",
          "hold carrier2; tie carrier1=ring2; drive sun 1"})
        train.settings.push_back(setting_from(train, setting));
    return train;
}

// First 2 + S/R, second 1 + S/R, third 1, reverse -R/S: transmission texts; from memory.
TEST(SettingRows, GiveEachRatioAndTheStepToTheNext) {
    const Train train = simpson_train();
    const std::vector<SettingRow> rows = setting_rows(train, member_named(train, "carrier1"));
    ASSERT_EQ(rows.size(), 5U);
    EXPECT_EQ(rows[0].driver_per_output, Ratio(54, 23));
    EXPECT_EQ(rows[0].step_to_next, Ratio(54, 31));
    EXPECT_EQ(rows[1].driver_per_output, Ratio(31, 23));
    EXPECT_EQ(rows[1].step_to_next, Ratio(31, 23));
    EXPECT_EQ(rows[2].driver_per_output, Ratio(1));
    EXPECT_EQ(rows[4].driver_per_output, Ratio(-23, 8));
    EXPECT_EQ(rows[4].step_to_next, std::nullopt);
    EXPECT_EQ(rows[0].driver, member_named(train, "ring1"));
    EXPECT_EQ(rows[4].driver, member_named(train, "sun"));
}

TEST(SettingRows, HaveNoRatioWhereASettingDoesNotMove) {
    const Train train = simpson_train();
    const std::vector<SettingRow> rows = setting_rows(train, member_named(train, "carrier1"));
    EXPECT_EQ(rows[3].motion.outcome, Outcome::locked);
    EXPECT_EQ(rows[3].driver_per_output, std::nullopt);
    EXPECT_EQ(rows[3].step_to_next, std::nullopt);
    EXPECT_EQ(rows[2].step_to_next, std::nullopt);
}

TEST(SettingRows, HaveNoRatioWhereTheOutputStandsStill) {
    Train train = train_from(kSimpleSet);
    train.settings.push_back(setting_from(train, "hold ring; drive sun 1"));
    train.settings.push_back(setting_from(train, "drive sun 16, carrier 5"));
    const std::vector<SettingRow> rows = setting_rows(train, member_named(train, "ring"));
    EXPECT_EQ(rows[0].driver_per_output, std::nullopt);
    // Two drivers at the speeds that keep the ring still.
    EXPECT_EQ(rows[1].driver_per_output, std::nullopt);
}

TEST(CommonOutput, IsWhatIsNeitherHeldNorDrivenAndAlwaysTurns) {
    const Train train = simpson_train();
    const std::optional<MemberIndex> output = common_output(train);
    ASSERT_TRUE(output.has_value());
    // carrier1 and ring2 are tied: either names the output.
    const std::string name = name_of(train, *output);
    EXPECT_TRUE(name == "carrier1" || name == "ring2") << name;
}

TEST(CommonOutput, IsNothingWhereTwoTurnApart) {
    Train train = train_from("a 20 x b 40; a 20 x c 30");
    train.settings.push_back(setting_from(train, "drive a 1"));
    EXPECT_EQ(common_output(train), std::nullopt);
}

TEST(CommonOutput, IsTheCarrierOfASimpleSetWithTheRingHeld) {
    Train train = train_from(kSimpleSet);
    train.settings.push_back(setting_from(train, "hold ring; drive sun 1"));
    EXPECT_EQ(common_output(train), member_named(train, "carrier"));
}

TEST(CommonOutput, IsNothingWhereEachMemberIsDrivenOnce) {
    Train train = train_from(kSimpleSet);
    for (const char* setting : {"hold ring; drive sun 1", "hold sun; drive carrier 1"})
        train.settings.push_back(setting_from(train, setting));
    EXPECT_EQ(common_output(train), std::nullopt);
}

}  // namespace
}  // namespace couplet
