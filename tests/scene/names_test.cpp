#include "scene/names.hpp"

#include <gtest/gtest.h>

#include <array>
#include <vector>

namespace couplet {
namespace {

TEST(EditDistance, CountsLettersChangedLeftOutPutInAndSwapped) {
    EXPECT_EQ(edit_distance("drum", "drum", 4), 0U);
    EXPECT_EQ(edit_distance("drum", "drom", 4), 1U);
    EXPECT_EQ(edit_distance("drum", "drm", 4), 1U);
    EXPECT_EQ(edit_distance("drum", "drumm", 4), 1U);
    EXPECT_EQ(edit_distance("ring", "rign", 4), 1U);
    EXPECT_EQ(edit_distance("planet", "plaent", 4), 1U);
    EXPECT_EQ(edit_distance("kitten", "sitting", 4), 3U);
    EXPECT_EQ(edit_distance("", "abc", 4), 3U);
}

TEST(EditDistance, EditsNoPieceTwice) {
    // Optimal string alignment: "ca" to "abc" takes 3, where the unrestricted distance is 2.
    EXPECT_EQ(edit_distance("ca", "abc", 4), 3U);
}

TEST(EditDistance, StopsAtTheMost) {
    EXPECT_EQ(edit_distance("kitten", "sitting", 2), 3U);
    EXPECT_EQ(edit_distance("a", "abcdef", 2), 3U);
    EXPECT_EQ(edit_distance("abcdef", "uvwxyz", 1), 2U);
}

constexpr std::array<std::string_view, 4> kMembers = {"crank", "drum", "planet", "ring"};

TEST(NearestName, IsTheOneWithTheFewestEdits) {
    EXPECT_EQ(nearest_name("drumm", kMembers), "drum");
    EXPECT_EQ(nearest_name("plnaet", kMembers), "planet");
    constexpr std::array<std::string_view, 2> kAlike = {"planet 2", "planet 12"};
    EXPECT_EQ(nearest_name("plante 12", kAlike), "planet 12");
}

TEST(NearestName, IsNothingWhereNoneIsNear) {
    EXPECT_FALSE(nearest_name("sun", kMembers));
    EXPECT_FALSE(nearest_name("", kMembers));
    EXPECT_FALSE(nearest_name(std::string(65, 'x'), kMembers));
    EXPECT_FALSE(nearest_name("drum", {}));
}

TEST(Suggestion, NamesTheNearest) {
    EXPECT_EQ(suggestion("rign", kMembers, "the members are", "there are none"), "did you mean 'ring'?");
}

TEST(Suggestion, ListsTheNamesWhereNoneIsNear) {
    EXPECT_EQ(suggestion("sun", kMembers, "the members are", "there are none"),
              "the members are 'crank', 'drum', 'planet' and 'ring'");
    EXPECT_EQ(suggestion("sun", {}, "the members are", "there are none"), "there are none");
}

TEST(Suggestion, StaysShortForManyNames) {
    std::vector<std::string> names;
    for (int i = 0; i < 100000; ++i) names.push_back("member number " + std::to_string(i));
    const std::vector<std::string_view> views(names.begin(), names.end());
    EXPECT_EQ(suggestion("member nubmer 99999", views, "the members are", ""), "did you mean 'member number 99999'?");
    const std::string list = suggestion("?", views, "the members are", "");
    EXPECT_TRUE(list.ends_with(", 'member number 15' and 99984 more")) << list;
}

}  // namespace
}  // namespace couplet
