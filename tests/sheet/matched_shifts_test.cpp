#include "sheet/matched_shifts.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

const MatchedShift kShift{{2}, -0.25, {0}, {1}, 22.5};

TEST(MatchedShifts, SayWhatToTypeAndWhy) {
    Page page;
    add_shifts(page, simple_set(21, 24, 69, 3), {kShift});
    const std::string text = text_page(page);
    EXPECT_NE(text.find("ring: type shift = -0.250000. sun with planet keeps its centre distance of 22.5000 mm"),
              std::string::npos)
        << text;
    EXPECT_EQ(text.find("no shift was changed"), std::string::npos);
}

TEST(MatchedShifts, SayWhereNoneWasNeeded) {
    Page page;
    add_shifts(page, simple_set(21, 24, 69, 3), {});
    EXPECT_NE(text_page(page).find("no shift was changed"), std::string::npos);
}

TEST(MatchedShifts, NameGearsAndMeshesForPrograms) {
    const Json json = shifts_json(simple_set(21, 24, 69, 3), {kShift});
    ASSERT_EQ(json.size(), 1U);
    EXPECT_EQ(json[0].at("gear"), "ring");
    EXPECT_EQ(json[0].at("shift"), -0.25);
    EXPECT_EQ(json[0].at("kept"), Json::parse(R"(["sun", "planet"])"));
    EXPECT_EQ(json[0].at("matched"), Json::parse(R"(["planet", "ring"])"));
}

}  // namespace
}  // namespace couplet
