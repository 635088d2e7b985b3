#include "sheet/speeds_sheet.hpp"

#include <gtest/gtest.h>

#include "sheet/hand_sheets.hpp"
#include "sheet/json_values.hpp"

namespace couplet {
namespace {

// Ring held: crank turns 30/7 times for one turn of the drum (Willis, 1 + 69/21).
std::vector<SpeedRow> one_row(const HandSheet& hand) {
    return {{{hand.member("ring")}, hand.member("crank"), hand.member("drum"), Ratio(30, 7)}};
}

TEST(SpeedsSheet, HasTheKeysOfTheContract) {
    const HandSheet hand = capstan_sheet();
    const Json json = Json::parse(speeds_sheet(hand.train, {}, one_row(hand), Format::json));
    EXPECT_EQ(json.at("couplet"), 1);
    EXPECT_EQ(json.at("scene"), "Harbour capstan");
    EXPECT_EQ(json.at("outcome"), "moves");
    const Json& row = json.at("rows").at(0);
    EXPECT_EQ(row.at("held"), Json::parse(R"(["ring"])"));
    EXPECT_EQ(row.at("driver"), "crank");
    EXPECT_EQ(row.at("output"), "drum");
    EXPECT_EQ(row.at("driver_per_output").at("exact"), "30/7");
    EXPECT_DOUBLE_EQ(row.at("driver_per_output").at("value"), 30.0 / 7.0);
    EXPECT_EQ(json.at("cautions").size(), 3U);
}

TEST(SpeedsSheet, IsATableForEyesAndForSpreadsheets) {
    const HandSheet hand = capstan_sheet();
    EXPECT_EQ(speeds_sheet(hand.train, {}, one_row(hand), Format::csv),
              "held,driver,output,driver per output (exact turns),driver per output (turns),sense\r\n"
              "ring,crank,drum,30/7,4.285714285714286,same\r\n");
    const std::string text = speeds_sheet(hand.train, {}, one_row(hand), Format::text);
    EXPECT_NE(text.find("ring  crank   drum                 30/7           4.285714  same\n"), std::string::npos)
        << text;
    EXPECT_NE(text.find("Turning gears trap fingers"), std::string::npos);
    EXPECT_NE(
        speeds_sheet(hand.train, {}, one_row(hand), Format::md).find("| ring | crank | drum | 30/7 | 4.285714 | "),
        std::string::npos);
}

TEST(SpeedsSheet, SaysWhenNothingMovesAndWhatIsTied) {
    const HandSheet hand = capstan_sheet();
    const std::string text = speeds_sheet(hand.train, {{hand.member("crank"), hand.member("ring")}}, {}, Format::text);
    EXPECT_NE(text.find("No choice of held members, driver and output moves."), std::string::npos);
    EXPECT_NE(text.find("crank = ring"), std::string::npos);
    EXPECT_EQ(Json::parse(speeds_sheet(hand.train, {}, {}, Format::json)).at("outcome"), "locked");
}

std::vector<SettingRow> two_settings(HandSheet& hand) {
    hand.train.settings = {hand.sheet.setting, hand.sheet.setting};
    hand.train.settings[1].name = "stuck";
    SettingRow moves{{0}, hand.sheet.motion, hand.member("crank"), Ratio(30, 7), Ratio(2)};
    SettingRow stuck{{1}, hand.sheet.motion, {}, {}, {}};
    stuck.motion.outcome = Outcome::locked;
    return {moves, stuck};
}

TEST(SettingsSheet, HasARowForEverySetting) {
    HandSheet hand = capstan_sheet();
    const std::vector<SettingRow> rows = two_settings(hand);
    const Json json = Json::parse(settings_sheet(hand.train, hand.member("drum"), rows, Format::json));
    EXPECT_EQ(json.at("output"), "drum");
    ASSERT_EQ(json.at("settings").size(), 2U);
    const Json& first = json.at("settings").at(0);
    EXPECT_EQ(first.at("setting"), "hauling");
    EXPECT_EQ(first.at("held"), Json::parse(R"(["ring"])"));
    EXPECT_EQ(first.at("driver"), "crank");
    EXPECT_EQ(first.at("outcome"), "moves");
    EXPECT_EQ(first.at("driver_per_output").at("exact"), "30/7");
    EXPECT_EQ(first.at("step_to_next").at("exact"), "2");
    const Json& second = json.at("settings").at(1);
    EXPECT_EQ(second.at("outcome"), "locked");
    EXPECT_TRUE(second.at("driver_per_output").is_null());
    EXPECT_TRUE(second.at("step_to_next").is_null());
}

TEST(SettingsSheet, IsATableInTheOtherFormats) {
    HandSheet hand = capstan_sheet();
    const std::vector<SettingRow> rows = two_settings(hand);
    EXPECT_EQ(settings_sheet(hand.train, hand.member("drum"), rows, Format::csv),
              "setting,held,tied,driver,outcome,driver per output (exact turns),driver per output (turns),step to next "
              "(x)\r\n"
              "hauling,ring,,crank,moves,30/7,4.285714285714286,2\r\n"
              "stuck,ring,,crank,locked,,,\r\n");
    EXPECT_NE(settings_sheet(hand.train, hand.member("drum"), rows, Format::text).find("Output    drum"),
              std::string::npos);
    EXPECT_NE(settings_sheet(hand.train, hand.member("drum"), rows, Format::md).find("| hauling | ring |"),
              std::string::npos);
}

}  // namespace
}  // namespace couplet
