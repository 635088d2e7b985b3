#include "sheet/place_sheet.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"
#include "sheet/json_values.hpp"

namespace couplet {
namespace {

Train capstan() {
    Train train = simple_set(21, 24, 69, 3);
    train.title = "Capstan";
    train.teeth.module_mm = Ratio(3);
    train.teeth.backlash = Ratio(1, 10);
    Setting setting;
    setting.name = "hauling";
    setting.hold = {member_named(train, "ring")};
    setting.drive = {{member_named(train, "sun"), 30}};
    train.settings = {setting};
    return train;
}

TrainPlaces places_of(const Train& train, const StartOptions& options = {}) {
    return train_places(train, false, options,
                        train.settings.empty() ? std::nullopt : std::optional(train.settings.front()));
}

Json json_of(const TrainPlaces& places) {
    return Json::parse(place_sheet(places, Format::json));
}

const Json& gear(const Json& sheet, const std::string& name, int copy) {
    for (const Json& row : sheet.at("gears"))
        if (row.at("gear") == name && row.at("copy") == copy) return row;
    throw std::out_of_range(name);
}

// The keys are read from the design's section 5 (place).
TEST(PlaceSheet, HasTheKeysOfTheContract) {
    const Json json = json_of(places_of(capstan()));
    EXPECT_EQ(json.at("couplet"), 1);
    EXPECT_EQ(json.at("scene"), "Capstan");
    EXPECT_EQ(json.at("drawn"), "tooth");
    EXPECT_EQ(json.at("outcome"), "assembles");
    ASSERT_EQ(json.at("gears").size(), 5U);
    for (const char* key :
         {"gear", "copy", "centre_mm", "centre_on_carrier_mm", "starting_rotation_deg", "extra_turn_deg"})
        for (const Json& row : json.at("gears")) EXPECT_TRUE(row.contains(key)) << key;
    ASSERT_EQ(json.at("meshes").size(), 6U);
    for (const char* key : {"gears", "copy", "gap_mm", "at_driver_turns"})
        for (const Json& row : json.at("meshes")) EXPECT_TRUE(row.contains(key)) << key;
    EXPECT_EQ(gear(json, "planet", 2).at("starting_rotation_deg").at("exact"), "15/2");
    EXPECT_DOUBLE_EQ(gear(json, "planet", 2).at("starting_rotation_deg").at("value"), 7.5);
}

// By the design's section 5: half of the normal backlash, backlash x cos(operating angle) / 2 = 0.1 cos(20 deg) / 2.
TEST(PlaceSheet, ProvesHalfOfTheNormalBacklash) {
    const Json json = json_of(places_of(capstan()));
    EXPECT_EQ(json.at("all_mesh"), true);
    for (const Json& mesh : json.at("meshes")) {
        EXPECT_NEAR(mesh.at("gap_mm"), 0.0469846, 0.02 * 0.0469846);
        EXPECT_EQ(mesh.at("verdict"), "meshes");
        EXPECT_TRUE(mesh.at("at_driver_turns").contains("exact"));
    }
}

// With gaps on +X and a sun left at 0, a gap of the sun faces the planet, so a tooth of the planet has to face the sun:
// as drawn its gap is on +X, and 24 teeth being even, another is on -X; half a pitch of 15 deg is missing (derived).
TEST(PlaceSheet, FollowsHowGearsAreDrawn) {
    StartOptions options;
    options.drawn = Drawn::gap;
    const Json json = json_of(places_of(capstan(), options));
    EXPECT_EQ(json.at("drawn"), "gap");
    EXPECT_EQ(gear(json, "sun", 1).at("starting_rotation_deg").at("exact"), "0");
    EXPECT_EQ(gear(json, "planet", 1).at("starting_rotation_deg").at("exact"), "15/2");
    // 120 deg round the centre at 67.5 mm.
    EXPECT_NEAR(gear(json, "planet", 2).at("centre_mm").at(0), -33.75, 1e-9);
}

TEST(PlaceSheet, ShowsWhatMissesWhereItDoesNotAssemble) {
    const TrainPlaces places = places_of(simple_set(22, 20, 62, 5));
    EXPECT_FALSE(meshes(places));
    const Json json = json_of(places);
    EXPECT_EQ(json.at("outcome"), "does not assemble");
    EXPECT_EQ(json.at("all_mesh"), false);
    ASSERT_EQ(json.at("misplaced").size(), 4U);
    EXPECT_EQ(json.at("misplaced").at(0).at("nearest_above_deg").at("exact"), "510/7");
    EXPECT_TRUE(json.at("meshes").at(0).at("at_driver_turns").is_null());
    const std::string text = place_sheet(places, Format::text);
    EXPECT_NE(text.find("480/7 deg and 510/7 deg"), std::string::npos);
    EXPECT_NE(text.find("overlaps"), std::string::npos);
}

TEST(PlaceSheet, GivesTheTimingMarksOfSteppedPlanets) {
    const TrainPlaces places = places_of(stepped_set(25, 35, 16, 76, 3));
    const Json json = json_of(places);
    EXPECT_EQ(json.at("outcome"), "assembles");
    std::size_t planets = 0;
    for (const Json& body : json.at("bodies"))
        if (body.at("member") == "planet") ++planets;
    EXPECT_EQ(planets, 3U);
    EXPECT_NE(place_sheet(places, Format::text).find("Timing marks"), std::string::npos);
    EXPECT_EQ(place_sheet(places_of(capstan()), Format::text).find("Timing marks"), std::string::npos);
}

TEST(PlaceSheet, SpeaksAllFormats) {
    const TrainPlaces places = places_of(capstan());
    const std::string text = place_sheet(places, Format::text);
    EXPECT_EQ(text.rfind("Capstan\n=======\n", 0), 0U);
    EXPECT_NE(text.find("(21 + 69) / 3 = 30"), std::string::npos);
    EXPECT_NE(text.find("Turning gears trap fingers"), std::string::npos);
    EXPECT_EQ(place_sheet(places, Format::md).rfind("# Capstan\n", 0), 0U);
    const std::string csv = place_sheet(places, Format::csv);
    EXPECT_EQ(csv.rfind("gear,copy,x (mm),y (mm),", 0), 0U);
    EXPECT_NE(csv.find("planet,1,67.5,0,67.5,0,0,7.5,0\r\n"), std::string::npos) << csv;
}

}  // namespace
}  // namespace couplet
