#include "app/given_name.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace couplet {
namespace {

const std::vector<std::string> kTaken = {"hauling", "hauling 2"};

TEST(GivenName, RefusesWhatNoSceneFileHolds) {
    EXPECT_EQ(name_fault("lowering", "setting", kTaken), "");
    EXPECT_EQ(name_fault("", "setting", kTaken), "give the setting a name");
    EXPECT_EQ(name_fault("  ", "setting", kTaken), "give the setting a name");
    EXPECT_EQ(name_fault("two\nlines", "setting", kTaken), "a name is one line of plain letters");
    EXPECT_EQ(name_fault("hauling", "setting", kTaken), "there is another setting of that name");
    // scene/limits.hpp allows 200 bytes.
    EXPECT_EQ(name_fault(std::string(200, 'a'), "setting", kTaken), "");
    EXPECT_EQ(name_fault(std::string(201, 'a'), "setting", kTaken), "a name has at most 200 bytes");
}

TEST(GivenName, CountsOnUntilANameIsFree) {
    EXPECT_EQ(unused_name("lowering", kTaken), "lowering");
    EXPECT_EQ(unused_name("hauling", kTaken), "hauling 3");
    EXPECT_EQ(unused_name("hauling 2", kTaken), "hauling 3");
    // A number without a name before it is a name.
    EXPECT_EQ(unused_name("17", std::vector<std::string>{"17"}), "17 2");
}

TEST(GivenName, ShortensALongNameBetweenLetters) {
    // 100 letters of two bytes each.
    std::string name;
    for (int i = 0; i < 100; ++i) name += "\xc3\xa4";
    const std::vector<std::string> taken = {name};
    const std::string next = unused_name(name, taken);
    EXPECT_EQ(name_fault(next, "setting", taken), "");
    EXPECT_TRUE(next.ends_with("\xc3\xa4 2"));
}

}  // namespace
}  // namespace couplet
