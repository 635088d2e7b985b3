#include "scene/screen.hpp"

#include <gtest/gtest.h>

#include "scene/scene.hpp"

namespace couplet {
namespace {

// What the text is refused with; empty where it passes.
std::string refusal_of(const std::string& text) {
    try {
        screen(text, "s.toml");
        return "";
    } catch (const SceneError& error) {
        return error.what();
    }
}

std::string repeated(const std::string& part, std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) text += part;
    return text;
}

const char* const kInvalid = "s.toml:2: this is not valid UTF-8 text; save the scene as plain text in UTF-8";

TEST(Screen, LetsUtf8OfEveryLengthPass) {
    EXPECT_EQ(refusal_of("a = \"\x7F \xC2\x80 \xDF\xBF \xE0\xA0\x80 \xEF\xBF\xBD \xF0\x90\x80\x80 \xF4\x8F\xBF\xBF\""),
              "");
}

// The kinds of invalid sequences of RFC 3629, section 10 and section 3.
TEST(Screen, RefusesWhatIsNotUtf8InItsLine) {
    EXPECT_EQ(refusal_of("a\n\xFF"), kInvalid);                   // no lead byte
    EXPECT_EQ(refusal_of("a\n\x80 b"), kInvalid);                 // continuation without lead
    EXPECT_EQ(refusal_of("a\n\xC3("), kInvalid);                  // lead without continuation
    EXPECT_EQ(refusal_of("a\n\xE2\x82"), kInvalid);               // cut off at the end
    EXPECT_EQ(refusal_of("a\n\xC0\x80"), kInvalid);               // longer than needed
    EXPECT_EQ(refusal_of("a\n\xE0\x9F\xBF"), kInvalid);           // longer than needed
    EXPECT_EQ(refusal_of("a\n\xED\xA0\x80"), kInvalid);           // surrogate
    EXPECT_EQ(refusal_of("a\n\xF4\x90\x80\x80"), kInvalid);       // beyond U+10FFFF
    EXPECT_EQ(refusal_of("a\n\xF0\x8F\xBF\xBF \n b"), kInvalid);  // longer than needed
}

TEST(Screen, RefusesEmptyAndHugeFiles) {
    EXPECT_EQ(refusal_of(""), "s.toml:1: the file is empty; a scene starts with couplet = 1, the format version");
    EXPECT_EQ(refusal_of(std::string(kMostSceneBytes + 1, ' ')),
              "s.toml: the file is larger than 64 MiB; give a scene file");
}

TEST(Screen, RefusesKeysOfManyParts) {
    const std::string sixteen = "a" + repeated(".a", 15);
    const std::string refused =
        "s.toml:1: a key has more than 16 parts; the longest in a scene, member.gear.teeth, has 3";
    EXPECT_EQ(refusal_of(sixteen + " = 1"), "");
    EXPECT_EQ(refusal_of("[" + sixteen + "]"), "");
    EXPECT_EQ(refusal_of(sixteen + ".a = 1"), refused);
    EXPECT_EQ(refusal_of("[\"a\"" + repeated(" . 'a'", 16) + "]"), refused);
    EXPECT_EQ(refusal_of("x = { a" + repeated(".a", 16)), refused);
}

TEST(Screen, CountsNoDotsInTextAndComments) {
    const std::string dots(1000, '.');
    EXPECT_EQ(refusal_of("a = \"" + dots + "\"\n"), "");
    EXPECT_EQ(refusal_of("a = \"\\\"" + dots + "\"\n"), "");
    EXPECT_EQ(refusal_of("a = '\\' # " + dots + "\n"), "");
    EXPECT_EQ(refusal_of("a = \"\"\"\n\"\" " + dots + "\"\"\"\n"), "");
    EXPECT_EQ(refusal_of("a = '''\n" + dots + "''' # " + dots), "");
    EXPECT_EQ(refusal_of("# " + dots), "");
    EXPECT_EQ(refusal_of("a = [" + repeated("1.5, ", 1000) + "]"), "");
}

TEST(Screen, RefusesMoreValuesThanAnySceneHas) {
    const std::string many = "a = [" + repeated("0,", kMostSceneValues) + "]";
    EXPECT_EQ(refusal_of(many),
              "s.toml:1: the file holds more than 4000000 values; a scene has at most 100000 members");
    EXPECT_EQ(refusal_of("a = \"" + std::string(kMostSceneValues + 1, ',') + "\""), "");
}

TEST(Screen, RefusesMoreTablesThanAnySceneHas) {
    const std::string refused =
        "s.toml:500001: the file holds more than 500000 tables; a scene has at most 100000 members";
    EXPECT_EQ(refusal_of(repeated("[[member]]\n", 500000)), "");
    EXPECT_EQ(refusal_of(repeated("[[member]]\n", 500001)), refused);
    EXPECT_EQ(refusal_of(repeated("  [[member.gear]]\n", 500001)), refused);
    EXPECT_EQ(refusal_of(repeated("a.b = 1\n", 125001)),
              "s.toml:125001: the file holds more than 500000 tables; a scene has at most 100000 members");
    EXPECT_EQ(refusal_of(repeated("at = [0.5, 120.5]\n", 500001)), "");
}

}  // namespace
}  // namespace couplet
