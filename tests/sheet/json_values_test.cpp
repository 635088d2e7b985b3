#include "sheet/json_values.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"
#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

TEST(ExactJson, PutsTheDoubleBesideTheText) {
    EXPECT_EQ(exact_json(Ratio(-5, 12)), Json::parse(R"({"exact": "-5/12", "value": -0.4166666666666667})"));
    EXPECT_EQ(exact_json(Ratio(4)).at("exact"), "4");
    EXPECT_TRUE(exact_json(std::optional<Ratio>()).is_null());
}

TEST(ExactJson, HasNoValueBeyondADouble) {
    const Json huge = exact_json(power_of_ten(400));
    EXPECT_TRUE(huge.at("value").is_null());
    EXPECT_EQ(huge.at("exact").get<std::string>().size(), 401U);
}

// 2^53 is the last whole number up to which an IEEE 754 double holds every whole number.
TEST(WholeJson, IsANumberUpToTwoToThe53) {
    const std::int64_t most = std::int64_t{1} << 53;
    EXPECT_EQ(whole_json(-161), Json(-161));
    EXPECT_EQ(whole_json(most), Json(most));
    EXPECT_EQ(whole_json(most + 1), Json("9007199254740993"));
    EXPECT_EQ(whole_json(power_of_ten(30)), Json("1" + std::string(30, '0')));
}

TEST(JsonText, ReplacesMalformedUtf8) {
    EXPECT_EQ(json_text(Json("a\xFF")), "\"a\xEF\xBF\xBD\"\n");
}

TEST(JsonValues, NameMembersTiesAndDrivers) {
    const HandSheet hand = capstan_sheet();
    EXPECT_EQ(names_json(hand.train, {hand.member("ring"), kFrame}), Json::parse(R"(["ring", "frame"])"));
    EXPECT_EQ(ties_json(hand.train, {{hand.member("ring"), hand.member("drum")}}),
              Json::parse(R"([["ring", "drum"]])"));
    EXPECT_EQ(drivers_json(hand.train, hand.sheet.setting.drive), Json::parse(R"([{"name": "crank", "rpm": 30.0}])"));
    EXPECT_EQ(names_json(hand.train, {}), Json::array());
}

}  // namespace
}  // namespace couplet
