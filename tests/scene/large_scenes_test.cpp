// Scenes of the largest size, and large files that are no scenes: read or refused, and not in quadratic time, which
// would take many minutes (CMakeLists.txt sets the limit).
#include <gtest/gtest.h>

#include "scene/scene.hpp"
#include "scene_texts.hpp"
#include "support/dice.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

std::string number(int value) {
    return std::to_string(value);
}

// A chain of 50,000 wheels in mesh and 50,000 members that ride on each other.
std::string scene_of_100000_members() {
    std::string text = "couplet = 1\n";
    for (int i = 0; i < 50000; ++i)
        text += "[[member]]\nname = \"wheel " + number(i) + "\"\n[[member.gear]]\nteeth = " + number(20 + i % 99980) +
                "\nshift = 0." + number(i) + "\n";
    for (int i = 0; i < 50000; ++i)
        text += "[[member]]\nname = \"rider " + number(i) + "\"\non = \"" +
                (i == 0 ? "frame" : "rider " + number(i - 1)) + "\"\n";
    for (int i = 1; i < 50000; ++i)
        text += "[[mesh]]\ngears = [\"wheel " + number(i - 1) + "\", \"wheel " + number(i) + "\"]\n";
    return text;
}

TEST(LargeScene, OfAHundredThousandMembersIsRead) {
    const Train train = read_scene(scene_of_100000_members(), "s.toml");
    EXPECT_EQ(train.members.size(), 100000U);
    EXPECT_EQ(train.meshes.size(), 49999U);
    EXPECT_EQ(train.gears[49999].teeth, 50019);
    EXPECT_EQ(train.gears[49999].shift, Ratio(49999, 100000));
    EXPECT_EQ(train.members[99999].rides_on, MemberIndex{99998});
}

TEST(LargeScene, IsRewrittenInPlace) {
    const std::string text = scene_of_100000_members();
    Train train = read_scene(text, "s.toml");
    train.gears[777].teeth = 3;
    train.members[99999].copies = 2;
    EXPECT_EQ(rewrite_scene(text, train), with(with(text, "teeth = 797\n", "teeth = 3\n"), "on = \"rider 49998\"\n",
                                               "on = \"rider 49998\"\ncopies = 2\n"));
}

TEST(LargeScene, OfMoreMembersIsRefused) {
    std::string text = "couplet = 1\n";
    for (int i = 0; i <= 100000; ++i) text += "[[member]]\nname = \"" + number(i) + "\"\n";
    EXPECT_EQ(refusal(text), "s.toml:200002: the scene has 100001 members; a scene has at most 100000 members");
}

TEST(LargeScene, OnOneLineIsReadAsQuickly) {
    std::string text = "couplet = 1\nmember = [";
    for (int i = 0; i < 100000; ++i)
        text += "{ name = \"" + number(i) + "\", gear = [{ bore = 1.5, teeth = 20, shift = 0.25 }], at = [0.5] },";
    const Train train = read_scene(text + "]\n", "s.toml");
    EXPECT_EQ(train.members[99999].at_deg[0], Ratio(1, 2));
    EXPECT_EQ(train.gears[99999].shift, Ratio(1, 4));
}

TEST(LargeScene, WithOneNameMisspeltNamesTheNearest) {
    const std::string text = scene_of_100000_members();
    EXPECT_EQ(refusal(with(text, "on = \"rider 49998\"", "on = \"ridre 49998\"")),
              "s.toml:400001: 'on' in [[member]] names 'ridre 49998', which is no member; did you mean 'rider 49998'?");
}

TEST(LargeScene, InACycleIsRefused) {
    const std::string refused = refusal(with(scene_of_100000_members(), "on = \"frame\"", "on = \"rider 49999\""));
    EXPECT_EQ(
        refused,
        "s.toml:250004: member 'rider 0' rides on itself by way of 'rider 49999', 'rider 49998', 'rider 49997' and "
        "49996 more; what a member rides on must lead to the frame");
}

std::string random_bytes(std::size_t count, int least, int most) {
    Dice dice(7);
    std::string text;
    while (text.size() < count) text += static_cast<char>(dice.between(least, most));
    return text;
}

constexpr std::size_t kMegabyte = 1000000;

TEST(LargeScene, OfGarbageIsRefusedInItsFirstLines) {
    EXPECT_EQ(refusal(random_bytes(kMegabyte, 0, 255)),
              "s.toml:1: this is not valid UTF-8 text; save the scene as plain text in UTF-8");
    EXPECT_TRUE(refusal(random_bytes(kMegabyte, 32, 126)).starts_with("s.toml:1: this is not valid TOML: "));
    EXPECT_TRUE(refusal(random_bytes(kMegabyte, 10, 126)).starts_with("s.toml:"));
    EXPECT_TRUE(refusal(std::string(kMegabyte, '\0')).starts_with("s.toml:1: this is not valid TOML: "));
    EXPECT_TRUE(refusal(std::string(kMegabyte, 'x')).starts_with("s.toml:1: this is not valid TOML: "));
    EXPECT_TRUE(refusal(std::string(kMegabyte, '"')).starts_with("s.toml:1: "));
    EXPECT_TRUE(refusal(std::string(kMegabyte, '.')).starts_with("s.toml:1: a key has more than 16 parts"));
}

TEST(LargeScene, OfDeepNestingIsRefused) {
    EXPECT_EQ(
        refusal("a = " + std::string(kMegabyte, '[')),
        "s.toml:1: this is not valid TOML: exceeded maximum nested value depth of 32; a scene nests at most a few "
        "lists and tables");
    std::string braces = "a = ";
    while (braces.size() < kMegabyte) braces += "{a=";
    EXPECT_TRUE(refusal(braces).starts_with("s.toml:1: this is not valid TOML: exceeded maximum nested value depth"));
    std::string dots = "a";
    while (dots.size() < kMegabyte) dots += ".a";
    EXPECT_TRUE(refusal(dots + " = 1").starts_with("s.toml:1: a key has more than 16 parts"));
}

TEST(LargeScene, OfManyUnknownKeysIsRefusedByTheFirst) {
    std::string text = "couplet = 1\n";
    for (int i = 99999; i >= 0; --i) text += "key" + number(i) + " = 1\n";
    EXPECT_TRUE(refusal(text).starts_with("s.toml:2: unknown key 'key99999' in the scene; the keys here are"));
}

TEST(LargeScene, OfManyWrongDriversIsRefusedByTheFirst) {
    std::string text = scene_of_100000_members() + "[[setting]]\nname = \"s\"\n[setting.drive]\n";
    for (int i = 99999; i >= 0; --i) text += "\"whele " + number(i) + "\" = 1\n";
    EXPECT_TRUE(refusal(text).starts_with(
        "s.toml:500003: 'drive' in [[setting]] names 'whele 99999', which is no member; did you mean"));
}

TEST(LargeScene, BeyondTheLimitOfBytesIsRefused) {
    EXPECT_EQ(refusal("couplet = 1\n" + std::string(kMostSceneBytes, '#')),
              "s.toml: the file is larger than 64 MiB; give a scene file");
    EXPECT_EQ(refusal("couplet = 1\n#" + std::string(kMostSceneBytes - 13, 'x')), "read, with 0 members");
}

}  // namespace
}  // namespace couplet
