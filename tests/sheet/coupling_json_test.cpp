#include "sheet/coupling_json.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"
#include "sheet/hand_sheets.hpp"
#include "sheet/json_values.hpp"

namespace couplet {
namespace {

Json json_of(const HandSheet& hand) {
    return Json::parse(coupling_json(hand.train, hand.sheet));
}

// Every expected key and value is read from the example in the design's section 5.
TEST(CouplingJson, HasTheKeysOfTheContract) {
    const Json json = json_of(capstan_sheet());
    EXPECT_EQ(json.at("couplet"), 1);
    EXPECT_EQ(json.at("scene"), "Harbour capstan");
    EXPECT_EQ(json.at("setting"), "hauling");
    EXPECT_EQ(json.at("outcome"), "moves");
    EXPECT_EQ(json.at("freedom"), 1);
    EXPECT_EQ(json.at("driver"), "crank");
    std::vector<std::string> first_keys;
    for (const auto& [key, value] : json.items()) first_keys.push_back(key);
    first_keys.resize(6);
    EXPECT_EQ(first_keys, (std::vector<std::string>{"couplet", "scene", "setting", "outcome", "freedom", "driver"}));
}

TEST(CouplingJson, TellsMembersAndJoints) {
    const Json json = json_of(capstan_sheet());
    const Json& drum = json.at("members").at(3);
    EXPECT_EQ(drum.at("name"), "drum");
    EXPECT_EQ(drum.at("rides_on"), "frame");
    EXPECT_EQ(drum.at("turns").at("exact"), "7/30");
    EXPECT_DOUBLE_EQ(drum.at("turns").at("value"), 7.0 / 30.0);
    EXPECT_TRUE(drum.at("rpm").is_number_float());
    EXPECT_EQ(drum.at("rpm"), 7.0);
    EXPECT_FALSE(drum.contains("combination"));
    EXPECT_EQ(json.at("members").at(1).at("rides_on"), "drum");
    EXPECT_EQ(json.at("members").at(1).at("copies"), 3);

    const Json& joint = json.at("joints").at(1);
    EXPECT_EQ(joint.at("name"), "planet on drum");
    EXPECT_EQ(joint.at("turns"), "planet");
    EXPECT_EQ(joint.at("against"), "drum");
    EXPECT_EQ(joint.at("per_driver_turn").at("exact"), "-161/240");
    EXPECT_DOUBLE_EQ(joint.at("per_driver_turn").at("value"), -161.0 / 240.0);
}

TEST(CouplingJson, TellsTheCouplingAsTheContractDoes) {
    const Json json = json_of(capstan_sheet());
    const Json& coupling = json.at("couplings").at(0);
    EXPECT_EQ(coupling.at("first"), "crank on frame");
    EXPECT_EQ(coupling.at("second"), "planet on drum");
    EXPECT_EQ(coupling.at("second_per_first").at("exact"), "-161/240");
    EXPECT_EQ(coupling.at("degrees"), Json::parse(R"(["360", "-241.5"])"));
    EXPECT_EQ(coupling.at("whole_degrees"), Json::parse("[240, -161]"));
    EXPECT_EQ(coupling.at("opposite"), true);
    EXPECT_EQ(coupling.at("expression"), "-360 * 21/24 * 69/(21+69)");
    EXPECT_TRUE(coupling.at("typed").is_null());
    EXPECT_TRUE(coupling.at("audit").is_null());
}

TEST(CouplingJson, TellsMoreBesideTheContract) {
    const Json json = json_of(capstan_sheet());
    const Json& coupling = json.at("couplings").at(0);
    EXPECT_EQ(coupling.at("to_type").at("degrees"), Json::parse(R"(["360", "-241.5"])"));
    EXPECT_EQ(coupling.at("to_type").at("exact"), true);
    EXPECT_EQ(coupling.at("to_type").at("drift_deg_per_1000_turns").at("exact"), "0");
    EXPECT_TRUE(coupling.at("to_type").at("turns_to_quarter_tooth").is_null());
    EXPECT_EQ(coupling.at("carrier_correction").at("bare_tooth_ratio").at("exact"), "-7/8");
    EXPECT_EQ(coupling.at("carrier_correction").at("needed").at("exact"), "-161/240");
    EXPECT_EQ(coupling.at("carrier_correction").at("difference_deg_per_turn").at("exact"), "-147/2");
    EXPECT_TRUE(coupling.at("obstacle").is_null());
    EXPECT_EQ(json.at("held"), Json::parse(R"(["ring"])"));
    EXPECT_EQ(json.at("drivers").at(0).at("rpm"), 30.0);
    EXPECT_TRUE(json.at("explanation").is_null());
    EXPECT_EQ(json.at("cautions").size(), 3U);
}

TEST(CouplingJson, WritesDegreesThatNoDecimalIsAsFractions) {
    HandSheet hand = capstan_sheet();
    hand.coupling().degrees = {360, Ratio(550, 3)};
    hand.coupling().whole_degrees = {power_of_ten(20), 1};
    const Json coupling = json_of(hand).at("couplings").at(0);
    EXPECT_EQ(coupling.at("degrees"), Json::parse(R"(["360", "550/3"])"));
    EXPECT_EQ(coupling.at("whole_degrees"), Json::parse(R"(["100000000000000000000", 1])"));
}

TEST(CouplingJson, TellsTheAudit) {
    const HandSheet hand = audited_sheet({360, -315}, Mistake::bare_tooth_ratio, Ratio(-147, 2));
    const Json json = json_of(hand);
    const Json& coupling = json.at("couplings").at(0);
    EXPECT_EQ(coupling.at("typed"), Json::parse(R"(["360", "-315"])"));
    EXPECT_EQ(coupling.at("audit").at("verdict"), "wrong");
    EXPECT_EQ(coupling.at("audit").at("mistake"), "bare_tooth_ratio");
    EXPECT_EQ(coupling.at("audit").at("off_deg_per_turn").at("exact"), "-147/2");
    EXPECT_EQ(coupling.at("audit").at("corrected"), Json::parse(R"(["360", "-241.5"])"));
    EXPECT_FALSE(coupling.at("audit").at("explanation").get<std::string>().empty());
}

TEST(CouplingJson, IsNullWithAReasonWhereNoCouplingExists) {
    HandSheet hand = capstan_sheet();
    hand.coupling().second_per_first.reset();
    hand.coupling().correction.reset();
    hand.coupling().obstacle = Obstacle::independent;
    hand.coupling().holds_to_exist = {hand.member("drum")};
    const Json coupling = json_of(hand).at("couplings").at(0);
    for (const char* key :
         {"second_per_first", "degrees", "whole_degrees", "opposite", "expression", "to_type", "carrier_correction"})
        EXPECT_TRUE(coupling.at(key).is_null()) << key;
    EXPECT_EQ(coupling.at("obstacle"), "independent");
    EXPECT_FALSE(coupling.at("reason").get<std::string>().empty());
    EXPECT_EQ(coupling.at("holds_to_exist"), Json::parse(R"(["drum"])"));
}

TEST(CouplingJson, TellsCombinationsOfTwoDrivers) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.drivers.push_back({hand.member("ring"), 10});
    hand.sheet.members[3].combination = {Ratio(7, 30), Ratio(23, 30)};
    hand.sheet.joints[1].combination.clear();
    const Json json = json_of(hand);
    EXPECT_EQ(json.at("members").at(3).at("combination").at("crank").at("exact"), "7/30");
    EXPECT_EQ(json.at("members").at(3).at("combination").at("ring").at("exact"), "23/30");
    EXPECT_TRUE(json.at("joints").at(1).at("combination").is_null());
}

TEST(CouplingJson, ExplainsLockedAndConflictingSettings) {
    HandSheet hand = capstan_sheet();
    hand.sheet.motion.outcome = Outcome::locked;
    hand.sheet.setting.tie = {{hand.member("crank"), hand.member("drum")}};
    hand.sheet.explanation.emplace();
    hand.sheet.explanation->blocked = {hand.member("crank")};
    hand.sheet.explanation->releases = {{{0}, {}}, {{}, {0}}};
    hand.sheet.motion.contradictions = {{{Ratio(1)}, 3}};
    const Json explanation = json_of(hand).at("explanation");
    EXPECT_EQ(explanation.at("release").at(0), Json::parse(R"({"holds": ["ring"], "ties": []})"));
    EXPECT_EQ(explanation.at("release").at(1), Json::parse(R"({"holds": [], "ties": [["crank", "drum"]]})"));
    EXPECT_EQ(explanation.at("blocked"), Json::parse(R"(["crank"])"));
    EXPECT_EQ(explanation.at("missing_drivers"), 0);
    EXPECT_EQ(explanation.at("contradictions").at(0).at("coefficients").at("crank").at("exact"), "1");
    EXPECT_EQ(explanation.at("contradictions").at(0).at("excess_rpm").at("exact"), "3");
    EXPECT_EQ(explanation.at("advice").at(0), "Locked: crank cannot turn.");
}

TEST(CouplingJson, HasNoDriverAndNoSettingNameWhereThereIsNone) {
    HandSheet hand = capstan_sheet();
    hand.sheet.reference_driver.reset();
    hand.sheet.setting.name.clear();
    hand.sheet.members[3].turns_per_driver_turn.reset();
    hand.sheet.members[3].rpm.reset();
    const Json json = json_of(hand);
    EXPECT_TRUE(json.at("driver").is_null());
    EXPECT_TRUE(json.at("setting").is_null());
    EXPECT_TRUE(json.at("members").at(3).at("turns").is_null());
    EXPECT_TRUE(json.at("members").at(3).at("rpm").is_null());
}

}  // namespace
}  // namespace couplet
