#include "sheet/size_sheet.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

// The design's example: module 3, backlash 0.1.
Train capstan() {
    Train train = simple_set(21, 24, 69, 3);
    train.title = "Capstan";
    train.teeth.module_mm = Ratio(3);
    train.teeth.backlash = Ratio(1, 10);
    return train;
}

Json json_of(const Train& train, bool match = false) {
    return Json::parse(size_sheet(train_sizes(train, match), Format::json));
}

// The keys are read from the design's section 5 (size).
TEST(SizeSheet, HasTheKeysOfTheContract) {
    const Json json = json_of(capstan());
    EXPECT_EQ(json.at("couplet"), 1);
    EXPECT_EQ(json.at("scene"), "Capstan");
    EXPECT_EQ(json.at("outcome"), "holds");
    ASSERT_EQ(json.at("gears").size(), 3U);
    for (const char* key : {"gear", "teeth", "internal", "module_mm", "shift", "pitch_diameter_mm", "base_diameter_mm",
                            "tip_diameter_mm", "root_diameter_mm", "span_teeth", "span_mm", "pin_mm", "over_pins_mm"})
        for (const Json& gear : json.at("gears")) EXPECT_TRUE(gear.contains(key)) << key;
    for (const char* key : {"gears", "centre_distance_mm", "operating_angle_deg", "contact_ratio"})
        for (const Json& mesh : json.at("meshes")) EXPECT_TRUE(mesh.contains(key)) << key;
}

// Derived: d = m z, d_a = d + 2 m, d_f = d - 2.5 m (ISO 53 profile A), inverted inside.
TEST(SizeSheet, TellsTheDiametersOfTheTexts) {
    const Json json = json_of(capstan());
    const Json& sun = json.at("gears").at(0);
    EXPECT_EQ(sun.at("teeth"), 21);
    EXPECT_EQ(sun.at("internal"), false);
    EXPECT_DOUBLE_EQ(sun.at("pitch_diameter_mm"), 63.0);
    EXPECT_DOUBLE_EQ(sun.at("tip_diameter_mm"), 69.0);
    EXPECT_DOUBLE_EQ(sun.at("root_diameter_mm"), 55.5);
    const Json& ring = json.at("gears").at(2);
    EXPECT_EQ(ring.at("internal"), true);
    EXPECT_DOUBLE_EQ(ring.at("tip_diameter_mm"), 201.0);
    EXPECT_DOUBLE_EQ(ring.at("root_diameter_mm"), 214.5);
    EXPECT_TRUE(ring.at("span_mm").is_null());
    EXPECT_DOUBLE_EQ(json.at("meshes").at(0).at("centre_distance_mm"), 67.5);
    EXPECT_NEAR(json.at("meshes").at(1).at("operating_angle_deg"), 20.0, 1e-9);
}

TEST(SizeSheet, CallsAGearByItsOwnName) {
    Train train = capstan();
    train.gears[1].name = "outer";
    const Json json = json_of(train);
    EXPECT_EQ(json.at("gears").at(1).at("gear"), "planet/outer");
    EXPECT_EQ(json.at("meshes").at(0).at("gears"), Json::parse(R"(["sun", "planet/outer"])"));
}

// A ring written first: what belongs to each gear stays with it. The larger gear plays less, in inverse ratio of teeth
// (derived: the same arc at the operating circles).
TEST(SizeSheet, KeepsTheOrderOfTheMesh) {
    Train train = capstan();
    std::swap(train.meshes[1].first, train.meshes[1].second);
    const Json mesh = json_of(train).at("meshes").at(1);
    EXPECT_EQ(mesh.at("gears"), Json::parse(R"(["ring", "planet"])"));
    EXPECT_DOUBLE_EQ(mesh.at("first_operating_diameter_mm"), 207.0);
    EXPECT_NEAR(mesh.at("second_backlash_deg").get<double>() / mesh.at("first_backlash_deg").get<double>(), 69.0 / 24.0,
                1e-9);
}

TEST(SizeSheet, TellsHelicalGearsInBothSections) {
    Train train = capstan();
    train.teeth.helix_angle_deg = Ratio(18);
    const Json json = json_of(train);
    EXPECT_EQ(json.at("gears").at(0).at("hand"), "right");
    EXPECT_EQ(json.at("gears").at(1).at("hand"), "left");
    EXPECT_EQ(json.at("gears").at(2).at("hand"), "left");
    // Derived: m_t = m / cos(18 deg).
    EXPECT_NEAR(json.at("gears").at(0).at("transverse_module_mm"), 3.154386673, 1e-9);
    EXPECT_GT(json.at("meshes").at(0).at("overlap_ratio"), 0.0);
}

TEST(SizeSheet, ExplainsTheShiftsThatItSolved) {
    Train train = simple_set(18, 23, 66, 3);
    EXPECT_TRUE(json_of(train).at("matched_shifts").is_null());
    EXPECT_EQ(json_of(train).at("outcome"), "fails");
    const Json json = json_of(train, true);
    ASSERT_EQ(json.at("matched_shifts").size(), 1U);
    EXPECT_EQ(json.at("matched_shifts").at(0).at("gear"), "ring");
    EXPECT_NEAR(json.at("meshes").at(1).at("centre_distance_mm"), 20.5, 1e-5);
    const std::string text = size_sheet(train_sizes(train, true), Format::text);
    EXPECT_NE(text.find("ring: type shift = "), std::string::npos);
    EXPECT_NE(size_sheet(train_sizes(capstan(), true), Format::text).find("no shift was changed"), std::string::npos);
}

// Teeth that cannot be: everything that has no value is null, and nothing reads NaN.
TEST(SizeSheet, NeverSaysNaN) {
    Train train = capstan();
    train.gears[0].shift = Ratio(-4);
    train.gears[1].shift = Ratio(5);
    for (const Format format : {Format::text, Format::json, Format::csv, Format::md}) {
        const std::string sheet = size_sheet(train_sizes(train, false), format);
        EXPECT_EQ(sheet.find("nan"), std::string::npos);
        EXPECT_EQ(sheet.find("inf "), std::string::npos);
    }
    EXPECT_EQ(json_of(train).at("outcome"), "fails");
}

TEST(SizeSheet, SpeaksAllFormats) {
    const TrainSizes sizes = train_sizes(capstan(), false);
    EXPECT_EQ(size_sheet(sizes, Format::text).rfind("Capstan\n=======\n", 0), 0U);
    EXPECT_EQ(size_sheet(sizes, Format::md).rfind("# Capstan\n", 0), 0U);
    EXPECT_NE(size_sheet(sizes, Format::csv).find("gear,sun,pitch_diameter_mm,63,mm\r\n"), std::string::npos);
    EXPECT_NE(size_sheet(sizes, Format::text).find("Turning gears trap fingers"), std::string::npos);
}

}  // namespace
}  // namespace couplet
