// The errors of reading a scene, each with its line and its full message.
#include <gtest/gtest.h>

#include "scene/scene.hpp"
#include "scene_texts.hpp"

namespace couplet {
namespace {

TEST(SceneErrorMessage, HasFileAndLineWhereThereIsOne) {
    EXPECT_STREQ(SceneError("a.toml", 7, "this is wrong", "that is right").what(),
                 "a.toml:7: this is wrong; that is right");
    EXPECT_STREQ(SceneError("a.toml", 0, "this is wrong", "that is right").what(),
                 "a.toml: this is wrong; that is right");
}

TEST(SceneErrors, LetTheSceneOfTheseTestsPass) {
    EXPECT_EQ(refusal(kCapstan), "read, with 4 members");
}

TEST(SceneErrors, NameUnknownKeysAtEveryLevel) {
    EXPECT_EQ(refusal_with("title", "titel"), "s.toml:2: unknown key 'titel' in the scene; did you mean 'title'?");
    EXPECT_EQ(refusal_with("module", "modul"), "s.toml:5: unknown key 'modul' in [teeth]; did you mean 'module'?");
    EXPECT_EQ(refusal_with("copies", "copys"), "s.toml:15: unknown key 'copys' in [[member]]; did you mean 'copies'?");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21\ntheeth = 21"),
              "s.toml:10: unknown key 'theeth' in [[member.gear]]; did you mean 'teeth'?");
    EXPECT_EQ(refusal_with("tie = []", "ties = []"),
              "s.toml:34: unknown key 'ties' in [[setting]]; did you mean 'tie'?");
    EXPECT_EQ(refusal_with("against", "agianst"),
              "s.toml:39: unknown key 'agianst' in [[joint]]; did you mean 'against'?");
    EXPECT_EQ(refusal_with("look_at", "lookat"),
              "s.toml:46: unknown key 'lookat' in [[shot]]; did you mean 'look_at'?");
}

TEST(SceneErrors, ListTheKeysWhereNoneIsNear) {
    EXPECT_EQ(refusal_with("typed", "angles"),
              "s.toml:42: unknown key 'angles' in [[coupling]]; the keys here are 'joints' and 'typed'");
    EXPECT_EQ(refusal_with("gears", "pair"),
              "s.toml:28: unknown key 'pair' in [[mesh]]; the keys here are 'gears' and 'centre_distance'");
}

TEST(SceneErrors, NameAMissingFormatVersion) {
    EXPECT_EQ(refusal_with("couplet = 1\n", ""),
              "s.toml:1: 'couplet' is missing; start the scene with couplet = 1, the version of the format");
    EXPECT_EQ(refusal_with("couplet = 1", "couplet = 2"),
              "s.toml:1: 'couplet' in the scene is 2; it must be 1, the version of the format");
    EXPECT_EQ(refusal_with("couplet = 1", "couplit = 1"),
              "s.toml:1: unknown key 'couplit' in the scene; did you mean 'couplet'?");
    EXPECT_EQ(refusal_with("couplet = 1", "couplet = \"1\""),
              "s.toml:1: 'couplet' in the scene is the text '1'; it must be 1, the version of the format");
}

TEST(SceneErrors, NameMissingKeys) {
    EXPECT_EQ(refusal_with("name = \"drum\"\n", ""),
              "s.toml:10: 'name' in [[member]] is missing; give each member a name of its own");
    EXPECT_EQ(refusal_with("teeth = 21\n", ""),
              "s.toml:8: 'teeth' in [[member.gear]] is missing; give the gear from 3 to 100000 teeth");
    EXPECT_EQ(refusal_with("name = \"inner\"\n", ""),
              "s.toml:19: 'name' in [[member.gear]] is missing; 'planet' has several gears: give each a name");
    EXPECT_EQ(refusal_with("gears = [\"crank\", \"planet/outer\"]\n", ""),
              "s.toml:27: 'gears' in [[mesh]] is missing; name the two gears in contact");
    EXPECT_EQ(refusal_with("name = \"hauling\"\n", ""),
              "s.toml:31: 'name' in [[setting]] is missing; give each setting a name of its own");
    EXPECT_EQ(
        refusal_with("against = \"drum\"\n", ""),
        "s.toml:36: 'against' in [[joint]] is missing; a joint names both members: the one that turns, and what it "
        "turns against");
    EXPECT_EQ(refusal_with("turns = \"planet\"\n", ""),
              "s.toml:36: 'turns' in [[joint]] is missing; a joint names both members: the one that turns, and what it "
              "turns against");
    EXPECT_EQ(refusal_with("joints = [\"crank on frame\", \"pin\"]\n", ""),
              "s.toml:40: 'joints' in [[coupling]] is missing; name the two joints that are coupled");
    EXPECT_EQ(
        refusal_with("at = 0.25\n", ""),
        "s.toml:43: 'at' in [[shot]] is missing; say at which part of the clip, from 0 to 1, the view is this one");
}

TEST(SceneErrors, NameWrongTypesAndWhatWasFound) {
    EXPECT_EQ(refusal_with("\"Capstan\"", "3"), "s.toml:2: 'title' in the scene is 3; it must be text in quotes");
    EXPECT_EQ(refusal_with("\"A test.\"", "[]"), "s.toml:3: 'notes' in the scene is a list; it must be text in quotes");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = \"21\""),
              "s.toml:9: 'teeth' in [[member.gear]] is the text '21'; it must be a whole number from 3 to 100000");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21.0"),
              "s.toml:9: 'teeth' in [[member.gear]] is 21.0; it must be a whole number from 3 to 100000");
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = true"),
              "s.toml:11: 'name' in [[member]] is true; it must be text in quotes");
    EXPECT_EQ(refusal_with("internal = true", "internal = 1"),
              "s.toml:26: 'internal' in [[member.gear]] is 1; it must be true or false");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "\"crank\""),
              "s.toml:28: 'gears' in [[mesh]] is the text 'crank'; it must be a list of two gears");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank\"]"),
              "s.toml:28: 'gears' in [[mesh]] is a list of 1; it must be a list of two gears");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank\", 2]"),
              "s.toml:28: 'gears' in [[mesh]] is 2; it must be text in quotes");
    EXPECT_EQ(refusal_with("hold = [\"ring\"]", "hold = \"ring\""),
              "s.toml:33: 'hold' in [[setting]] is the text 'ring'; it must be a list of members");
    EXPECT_EQ(refusal_with("tie = []", "tie = [[\"crank\"]]"),
              "s.toml:34: an entry of 'tie' in [[setting]] is no pair; 'tie' must be a list of pairs of members, "
              "[[\"crank\", \"drum\"]]");
    EXPECT_EQ(refusal_with("{ crank = 30.0 }", "30"),
              "s.toml:35: 'drive' in [[setting]] is 30; write drive = { member = rpm }");
    EXPECT_EQ(refusal_with("against = \"drum\"", "against = \"drum\"\nflipped = 0"),
              "s.toml:40: 'flipped' in [[joint]] is 0; it must be true or false");
    EXPECT_EQ(refusal_with("[360.0, -180.0]", "[360.0, 1979-05-27]"),
              "s.toml:42: 'typed' in [[coupling]] is a date or time; it must be a number from -1e12 to 1e12 (degrees)");
    EXPECT_EQ(refusal_with("[360.0, -180.0]", "[360.0]"),
              "s.toml:42: 'typed' in [[coupling]] is a list of 1; it must be a list of 2 numbers");
    EXPECT_EQ(refusal_with("[360.0, -180.0]", "{ a = 1 }"),
              "s.toml:42: 'typed' in [[coupling]] is a table; it must be a list of 2 numbers");
}

TEST(SceneErrors, NameTablesWrittenAsTheWrongKind) {
    EXPECT_EQ(refusal("couplet = 1\n[mesh]\n"),
              "s.toml:2: 'mesh' in the scene is a table; start each entry with [[mesh]]");
    EXPECT_EQ(refusal("couplet = 1\n[[teeth]]\n"),
              "s.toml:2: 'teeth' in the scene is a list; start the defaults of all gears with [teeth]");
    EXPECT_EQ(refusal("couplet = 1\njoint = [\n3]\n"),
              "s.toml:3: an entry of 'joint' in the scene is 3; start each entry with [[joint]]");
    EXPECT_EQ(refusal("couplet = 1\n[[member]]\nname = \"a\"\n[member.gear]\nteeth = 20\n"),
              "s.toml:4: 'gear' in [[member]] is a table; start each gear of a member with [[member.gear]]");
}

TEST(SceneErrors, NameTeethOutsideTheLimits) {
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 2"),
              "s.toml:9: 'teeth' in [[member.gear]] is 2; it must be a whole number from 3 to 100000");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = -21"),
              "s.toml:9: 'teeth' in [[member.gear]] is -21; it must be a whole number from 3 to 100000");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 100_001"),
              "s.toml:9: 'teeth' in [[member.gear]] is 100_001; it must be a whole number from 3 to 100000");
    EXPECT_EQ(
        refusal_with("teeth = 21", "teeth = 99999999999999999999"),
        "s.toml:9: this is not valid TOML: '99999999999999999999' is not representable in 64 bits; write a number "
        "as 21, -0.5 or 1e-3, with at most 40 digits");
}

// The limits of the tooth data, by key: a value beyond each bound.
struct Beyond {
    const char* key;
    const char* value;
    const char* right;
};

class ToothLimits : public testing::TestWithParam<Beyond> {};

TEST_P(ToothLimits, AreTold) {
    const Beyond& beyond = GetParam();
    const std::string assignment = std::string(beyond.key) + " = " + beyond.value;
    EXPECT_EQ(refusal("couplet = 1\n[teeth]\n" + assignment), std::string("s.toml:3: '") + beyond.key +
                                                                  "' in [teeth] is " + beyond.value +
                                                                  "; it must be a number " + beyond.right);
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21\n" + assignment), std::string("s.toml:10: '") + beyond.key +
                                                                           "' in [[member.gear]] is " + beyond.value +
                                                                           "; it must be a number " + beyond.right);
}

INSTANTIATE_TEST_SUITE_P(Each, ToothLimits,
                         testing::Values(Beyond{"module", "0", "above 0 and at most 1000 (mm)"},
                                         Beyond{"module", "1000.1", "above 0 and at most 1000 (mm)"},
                                         Beyond{"diametral_pitch", "-8", "above 0 and at most 10000 (per inch)"},
                                         Beyond{"pressure_angle", "0", "above 0 and below 45 (degrees)"},
                                         Beyond{"pressure_angle", "45.0", "above 0 and below 45 (degrees)"},
                                         Beyond{"helix_angle", "-60", "above -60 and below 60 (degrees)"},
                                         Beyond{"helix_angle", "60", "above -60 and below 60 (degrees)"},
                                         Beyond{"face_width", "0.0", "above 0 and at most 100000 (mm or inches)"},
                                         Beyond{"backlash", "-0.01", "from 0 to 1000 (mm or inches)"},
                                         Beyond{"addendum", "0", "above 0 and at most 10 (x module)"},
                                         Beyond{"dedendum", "11", "above 0 and at most 10 (x module)"},
                                         Beyond{"root_radius", "-1", "from 0 to 10 (x module)"},
                                         Beyond{"module", "inf", "above 0 and at most 1000 (mm)"},
                                         Beyond{"helix_angle", "nan", "above -60 and below 60 (degrees)"}));

TEST(SceneErrors, NameNumbersOutsideTheirLimits) {
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21\nshift = 10.5"),
              "s.toml:10: 'shift' in [[member.gear]] is 10.5; it must be a number from -10 to 10 (x module)");
    EXPECT_EQ(
        refusal_with("teeth = 21", "teeth = 21\nbore = 0"),
        "s.toml:10: 'bore' in [[member.gear]] is 0; it must be a number above 0 and at most 1000000 (mm or inches)");
    EXPECT_EQ(
        refusal_with("[[mesh]]", "[[mesh]]\ncentre_distance = 0"),
        "s.toml:28: 'centre_distance' in [[mesh]] is 0; it must be a number above 0 and at most 1000000000 (mm or "
        "inches)");
    EXPECT_EQ(refusal_with("30.0", "nan"),
              "s.toml:35: 'crank' in 'drive' of [[setting]] is nan; it must be a number from -1e12 to 1e12 (rpm)");
    EXPECT_EQ(refusal_with("30.0", "-1.1e12"),
              "s.toml:35: 'crank' in 'drive' of [[setting]] is -1.1e12; it must be a number from -1e12 to 1e12 (rpm)");
    EXPECT_EQ(refusal_with("30.0", "\"fast\""),
              "s.toml:35: 'crank' in 'drive' of [[setting]] is the text 'fast'; it must be a number from -1e12 to 1e12 "
              "(rpm)");
    EXPECT_EQ(refusal_with("-180.0", "-inf"),
              "s.toml:42: 'typed' in [[coupling]] is -inf; it must be a number from -1e12 to 1e12 (degrees)");
    EXPECT_EQ(refusal_with("30.0", "1e-41"),
              "s.toml:35: 'crank' in 'drive' of [[setting]] is 1e-41; it must be a number with at most 40 decimals");
    EXPECT_EQ(refusal_with("30.0", "1e999"),
              "s.toml:35: this is not valid TOML: '1e999' could not be interpreted as a value; write a number as 21, "
              "-0.5 or 1e-3, with at most 40 digits");
}

TEST(SceneErrors, NameModuleBesideDiametralPitch) {
    EXPECT_EQ(refusal_with("module = 3.0", "module = 3.0\ndiametral_pitch = 8"),
              "s.toml:6: 'diametral_pitch' in [teeth] stands beside 'module'; give one of the two");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21\ndiametral_pitch = 8\nmodule = 3.0"),
              "s.toml:11: 'module' in [[member.gear]] stands beside 'diametral_pitch'; give one of the two");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21\ndiametral_pitch = 8"), "read, with 4 members");
}

TEST(SceneErrors, NameNumbersOutsideTheLimitsOfAShot) {
    EXPECT_EQ(refusal_with("at = 0.25", "at = 1.01"),
              "s.toml:44: 'at' in [[shot]] is 1.01; it must be a number from 0 to 1 (part of the clip)");
    EXPECT_EQ(refusal_with("zoom = 1.5", "zoom = 0"),
              "s.toml:45: 'zoom' in [[shot]] is 0; it must be a number above 0 and at most 1000");
    EXPECT_EQ(refusal_with("zoom = 1.5", "elevation = 90.5"),
              "s.toml:45: 'elevation' in [[shot]] is 90.5; it must be a number from -90 to 90 (degrees)");
    EXPECT_EQ(refusal_with("zoom = 1.5", "azimuth = \"front\""),
              "s.toml:45: 'azimuth' in [[shot]] is the text 'front'; it must be a number from -1e12 to 1e12 (degrees)");
    EXPECT_EQ(refusal_with("look_at = \"planet\"", "look_at = 3"),
              "s.toml:46: 'look_at' in [[shot]] is 3; it must be text in quotes");
}

TEST(SceneErrors, NameShotsThatDoNotRise) {
    EXPECT_EQ(refusal(std::string(kCapstan) + "[[shot]]\nzoom = 2\nat = 0.25\n"),
              "s.toml:49: shot 2 is at 0.25, and the one before it at 0.25; each shot comes later in the clip than the "
              "one before");
    std::string many(kCapstan);
    for (int i = 1; i <= 100; ++i) many += "[[shot]]\nat = " + std::to_string(0.3 + i / 1000.0) + "\n";
    EXPECT_EQ(refusal(many), "s.toml:245: the train has 101 shots; a train has at most 100 shots");
}

TEST(SceneErrors, NameDuplicates) {
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"crank\""),
              "s.toml:11: two members are named 'crank', here and in line 7; give each member a name of its own");
    EXPECT_EQ(refusal_with("name = \"inner\"", "name = \"outer\""),
              "s.toml:20: two gears are named 'outer', here and in line 17; give each gear a name of its own");
    EXPECT_EQ(refusal(std::string(kCapstan) + "[[setting]]\nname = \"hauling\"\n"),
              "s.toml:48: two settings are named 'hauling', here and in line 32; give each setting a name of its own");
    EXPECT_EQ(refusal(std::string(kCapstan) + "[[joint]]\nname = \"pin\"\nturns = \"ring\"\nagainst = \"frame\"\n"),
              "s.toml:48: two joints are named 'pin', here and in line 37; give each joint a name of its own");
    const std::string unnamed = "[[joint]]\nturns = \"ring\"\nagainst = \"frame\"\n";
    EXPECT_EQ(refusal(std::string(kCapstan) + unnamed + unnamed),
              "s.toml:50: two joints are named 'ring on frame', here and in line 47; give this one a name of its own");
    EXPECT_EQ(refusal_with("teeth = 21", "teeth = 21\nteeth = 22"),
              "s.toml:10: 'teeth' is given twice; write [[name]] for each entry of a list, and each other key or table "
              "once");
    EXPECT_EQ(refusal_with("[[member]]", "[teeth]\n[[member]]"),
              "s.toml:6: 'teeth' is given twice; write [[name]] for each entry of a list, and each other key or table "
              "once");
}

TEST(SceneErrors, NameNamesThatCannotBe) {
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"frame\""),
              "s.toml:11: 'name' in [[member]] is 'frame'; frame is the fixed member, which every scene has: choose "
              "another name");
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"a/b\""),
              "s.toml:11: 'name' in [[member]] is 'a/b'; a member's name has no '/', which stands between a member and "
              "its gear");
    EXPECT_EQ(refusal_with("name = \"inner\"", "name = \"a/b\""),
              "s.toml:20: 'name' in [[member.gear]] is 'a/b'; a gear's name has no '/', which stands between a member "
              "and its gear");
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"\""),
              "s.toml:11: 'name' in [[member]] is empty; give each member a name of its own");
    EXPECT_EQ(refusal_with("name = \"hauling\"", "name = \"\""),
              "s.toml:32: 'name' in [[setting]] is empty; give each setting a name of its own");
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"a\\tb\""),
              "s.toml:11: 'name' in [[member]] is 'a\\x09b'; a name is one line without control characters");
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"" + std::string(201, 'x') + "\""),
              "s.toml:11: 'name' in [[member]] has 201 bytes; a name has at most 200 bytes");
}

TEST(SceneErrors, NameMembersThatAreMissingAndTheNearest) {
    EXPECT_EQ(refusal_with("on = \"drum\"", "on = \"drumm\""),
              "s.toml:14: 'on' in [[member]] names 'drumm', which is no member; did you mean 'drum'?");
    EXPECT_EQ(refusal_with("hold = [\"ring\"]", "hold = [\n\"rign\"]"),
              "s.toml:34: 'hold' in [[setting]] names 'rign', which is no member; did you mean 'ring'?");
    EXPECT_EQ(refusal_with("tie = []", "tie = [[\"crank\", \"sun\"]]"),
              "s.toml:34: 'tie' in [[setting]] names 'sun', which is no member; the members are 'crank', 'drum', "
              "'planet' and 'ring'");
    EXPECT_EQ(refusal_with("{ crank = 30.0 }", "{ krank = 30.0 }"),
              "s.toml:35: 'drive' in [[setting]] names 'krank', which is no member; did you mean 'crank'?");
    EXPECT_EQ(refusal_with("turns = \"planet\"", "turns = \"plant\""),
              "s.toml:38: 'turns' in [[joint]] names 'plant', which is no member; did you mean 'planet'?");
    EXPECT_EQ(refusal_with("look_at = \"planet\"", "look_at = \"plant\""),
              "s.toml:46: 'look_at' in [[shot]] names 'plant', which is no member; did you mean 'planet'?");
    EXPECT_EQ(refusal("couplet = 1\n[[setting]]\nname = \"a\"\nhold = [\"b\"]\n"),
              "s.toml:4: 'hold' in [[setting]] names 'b', which is no member; this scene has no members");
}

TEST(SceneErrors, NameGearsThatAreMissingAndTheNearest) {
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank\", \"planet/outr\"]"),
              "s.toml:28: 'gears' in [[mesh]] names 'planet/outr', which is no gear of that member; did you mean "
              "'outer'?");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank\", \"plante/outer\"]"),
              "s.toml:28: 'gears' in [[mesh]] names 'plante/outer', which is no member; did you mean 'planet'?");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank\", \"planet\"]"),
              "s.toml:28: 'gears' in [[mesh]] names 'planet', which has several gears; add '/' and one of 'outer' and "
              "'inner'");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank\", \"drum\"]"),
              "s.toml:28: 'gears' in [[mesh]] names 'drum', which has no gear; give that member a [[member.gear]]");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"crank/main\", \"ring\"]"),
              "s.toml:28: 'gears' in [[mesh]] names 'crank/main', but its gear has no name; write 'crank'");
    EXPECT_EQ(refusal_with("[\"crank\", \"planet/outer\"]", "[\"frame\", \"ring\"]"),
              "s.toml:28: 'gears' in [[mesh]] names 'frame', which is no member; the members are 'crank', 'drum', "
              "'planet' and 'ring'");
}

TEST(SceneErrors, NameJointsThatAreMissingAndTheNearest) {
    EXPECT_EQ(refusal_with("\"pin\"]", "\"pinn\"]"),
              "s.toml:41: 'joints' in [[coupling]] names 'pinn', which is no joint; did you mean 'pin'?");
    EXPECT_EQ(refusal_with("\"pin\"]", "\"crank on drumm\"]"),
              "s.toml:41: 'joints' in [[coupling]] names 'crank on drumm', which is no joint; did you mean 'crank on "
              "drum'?");
    EXPECT_EQ(refusal_with("\"pin\"]", "\"xyzzy\"]"),
              "s.toml:41: 'joints' in [[coupling]] names 'xyzzy', which is no joint; name a joint, or two "
              "members as 'a on b'; the joints are 'pin', 'crank on frame', 'drum on frame', 'planet on drum' and "
              "'ring on frame'");
    EXPECT_EQ(
        refusal_with("\"pin\"]", "\"crank on frame\"]"),
        "s.toml:41: 'joints' in [[coupling]] names 'crank on frame' twice; a coupling joins two different joints");
}

TEST(SceneErrors, NameAmbiguousJointNames) {
    EXPECT_EQ(refusal_with("name = \"pin\"", "name = \"ring on drum\""),
              "s.toml:37: 'name' in [[joint]] is 'ring on drum', which is the joint of 'ring' against 'drum'; choose "
              "another name, or change what it turns against");
    const std::string members =
        "couplet = 1\n[[member]]\nname = \"a\"\n[[member]]\nname = \"b\"\n[[member]]\nname = \"a on b\"\n"
        "[[member]]\nname = \"b on c\"\n[[member]]\nname = \"c\"\n";
    EXPECT_EQ(
        refusal(members + "[[coupling]]\njoints = [\"a on frame\", \"a on b on c\"]\n"),
        "s.toml:13: 'joints' in [[coupling]] names 'a on b on c', which could be the joint of 'a' against 'b on c' "
        "or of 'a on b' against 'c'; describe the one you mean as a [[joint]] with a name of its own");
}

TEST(SceneErrors, NameCopiesAndPlacesThatDisagree) {
    EXPECT_EQ(refusal_with("copies = 3", "copies = 3\nat = [0, 120]"),
              "s.toml:16: 'at' in [[member]] gives 2 places for 3 copies; give one angle for each copy, or leave out "
              "copies");
    EXPECT_EQ(refusal_with("copies = 3", "at = []"),
              "s.toml:15: 'at' in [[member]] is a list of 0; give one angle for each copy, from 1 to 100000");
    EXPECT_EQ(refusal_with("copies = 3", "at = [0, \"a third\"]"),
              "s.toml:15: 'at' in [[member]] is the text 'a third'; it must be a number from -1e12 to 1e12 (degrees)");
    EXPECT_EQ(refusal_with("copies = 3", "copies = 0"),
              "s.toml:15: 'copies' in [[member]] is 0; it must be a whole number from 1 to 100000");
}

TEST(SceneErrors, NameWhatMakesNoSenseAsATrain) {
    EXPECT_EQ(refusal_with("name = \"drum\"", "name = \"drum\"\non = \"planet\""),
              "s.toml:12: member 'drum' rides on itself by way of 'planet'; what a member rides on must lead to the "
              "frame");
    EXPECT_EQ(
        refusal_with("copies = 3", "axis = [0, 0.0, 0]"),
        "s.toml:15: the axis of member 'planet' has no direction; give three numbers of which at least one is not "
        "0");
    EXPECT_EQ(refusal_with("copies = 3", "axis = [0, 1]"),
              "s.toml:15: 'axis' in [[member]] is a list of 2; it must be a list of 3 numbers");
    EXPECT_EQ(refusal_with("name = \"ring\"", "name = \"ring\"\non = \"planet\""),
              "s.toml:31: the mesh of 'planet/outer' and 'ring' has no arm, a member in which both axes stand still; "
              "both members ride on the same one, or one rides on a member beside the other");
    EXPECT_EQ(
        refusal_with("[\"crank\", \"planet/outer\"]", "[\"planet/inner\", \"planet/outer\"]"),
        "s.toml:28: the gears 'planet/inner' and 'planet/outer' are fast on one member; a mesh joins gears of two "
        "members");
    EXPECT_EQ(refusal_with("hold = [\"ring\"]", "hold = [\"ring\", \"ring\"]"),
              "s.toml:33: setting 'hauling' holds 'ring' twice; name each member once");
    EXPECT_EQ(
        refusal_with("tie = []", "tie = [[\"crank\", \"frame\"]]"),
        "s.toml:34: setting 'hauling' ties 'crank' to the frame; to tie a member to the frame is to hold it: write "
        "it under hold");
    EXPECT_EQ(refusal_with("{ crank = 30.0 }", "{ frame = 30.0 }"),
              "s.toml:35: setting 'hauling' drives the frame; the frame never turns: leave it out");
    EXPECT_EQ(refusal_with("against = \"drum\"", "against = \"planet\""),
              "s.toml:39: joint 'pin' turns 'planet' against itself; a joint names two different members");
}

TEST(SceneErrors, NameWhatIsNoToml) {
    EXPECT_EQ(refusal_with("title = \"Capstan\"", "title \"Capstan\""),
              "s.toml:2: this is not valid TOML: expected '=', saw '\"'; write key = value");
    EXPECT_EQ(refusal_with("\"Capstan\"", "\"Capstan"),
              "s.toml:2: a string holds a line end or another control character; close it on its line, or put three "
              "quotes round text of several lines");
    EXPECT_EQ(
        refusal_with("\"Capstan\"", ""),
        "s.toml:2: this is not valid TOML: expected value, saw '\\n'; write a value after the =: text in quotes, a "
        "number, true, false or a list");
    EXPECT_EQ(refusal_with("\"Capstan\"", "tru"),
              "s.toml:2: this is not valid TOML: expected 'true', saw 'tru\\n'; write true or false");
    EXPECT_EQ(refusal_with("\"Capstan\"", "\"\\q\""),
              "s.toml:2: this is not valid TOML: unknown escape sequence '\\q'; write \\\\ for \\, or put the text in "
              "single quotes");
    EXPECT_EQ(refusal_with("[[mesh]]", "[[mesh]"),
              "s.toml:27: this is not valid TOML: expected ']', saw '\\n'; write [name] or, for an entry of a list, "
              "[[name]]");
    EXPECT_EQ(
        refusal_with("module = 3.0", "module = 3,0"),
        "s.toml:5: this is not valid TOML: expected a comment or whitespace, saw ','; put each key = value on a line "
        "of its own");
    EXPECT_EQ(
        refusal_with("teeth = 21", "teeth = 021"),
        "s.toml:9: this is not valid TOML: leading zeroes are prohibited; write a number as 21, -0.5 or 1e-3, with "
        "at most 40 digits");
    EXPECT_EQ(refusal("couplet = 1\nmember = [\n\n"),
              "s.toml:3: this is not valid TOML: encountered end-of-file; close the list with ]");
    EXPECT_EQ(
        refusal("couplet = 1\n[[mesh]]\n[mesh]\n"),
        "s.toml:3: this is not valid TOML: cannot redefine existing array 'mesh' as table; write [[name]] for each "
        "entry of a list, and each other key or table once");
    EXPECT_EQ(refusal("one word\n"), "s.toml:1: this is not valid TOML: expected '=', saw 'w'; write key = value");
}

TEST(SceneErrors, NameEmptyFilesAndInvalidUtf8) {
    const std::string empty = "s.toml:1: the file is empty; a scene starts with couplet = 1, the format version";
    EXPECT_EQ(refusal(""), empty);
    EXPECT_EQ(refusal(" \r\n\t\n"), empty);
    EXPECT_EQ(refusal("# only a comment"),
              "s.toml:1: 'couplet' is missing; start the scene with couplet = 1, the version of the format");
    EXPECT_EQ(refusal_with("A test.", "A \xC3\x28 test."),
              "s.toml:3: this is not valid UTF-8 text; save the scene as plain text in UTF-8");
}

TEST(SceneErrors, AreTheFirstByLine) {
    // Keys of a table come from the library in alphabetical order: 'axis' before 'on'.
    EXPECT_EQ(refusal_with("copies = 3", "copies = 3\naxis = 1"),
              "s.toml:16: 'axis' in [[member]] is 1; it must be a list of 3 numbers");
    EXPECT_EQ(refusal(with(capstan_with("copies = 3", "copies = 3\naxis = 1"), "on = \"drum\"", "on = \"drom\"")),
              "s.toml:14: 'on' in [[member]] names 'drom', which is no member; did you mean 'drum'?");
    EXPECT_EQ(refusal(with(capstan_with("typed", "tiped"), "teeth = 12", "teeth = 1")),
              "s.toml:21: 'teeth' in [[member.gear]] is 1; it must be a whole number from 3 to 100000");
}

TEST(SceneErrors, AreFirstOfWhatIsReadAndThenOfWhatItMeans) {
    // A misspelt carrier would leave the mesh above it without an arm; only the misspelling is told.
    EXPECT_EQ(refusal("couplet = 1\n[[mesh]]\ngears = [\"sun\", \"planet\"]\n[[member]]\nname = \"sun\"\n"
                      "[[member.gear]]\nteeth = 20\n[[member]]\nname = \"arm\"\non = \"sun\"\n[[member]]\n"
                      "name = \"planet\"\non = \"amr\"\n[[member.gear]]\nteeth = 20\n"),
              "s.toml:13: 'on' in [[member]] names 'amr', which is no member; did you mean 'arm'?");
}

TEST(SceneErrors, CountLinesOfEveryKind) {
    EXPECT_EQ(refusal(with_crlf(capstan_with("teeth = 21", "teeth = 2"))),
              "s.toml:9: 'teeth' in [[member.gear]] is 2; it must be a whole number from 3 to 100000");
    EXPECT_EQ(refusal("\xEF\xBB\xBF" + capstan_with("30.0", "3e13")),
              "s.toml:35: 'crank' in 'drive' of [[setting]] is 3e13; it must be a number from -1e12 to 1e12 (rpm)");
    EXPECT_EQ(refusal_with("notes = \"A test.\"", "notes = \"\"\"\nA\ntest.\"\"\"\nnots = 3"),
              "s.toml:6: unknown key 'nots' in the scene; did you mean 'notes'?");
}

TEST(SceneErrors, CutWhatWasFoundWhereItIsLong) {
    EXPECT_EQ(refusal_with("on = \"drum\"", "on = \"" + std::string(100, 'x') + "\""),
              "s.toml:14: 'on' in [[member]] names '" + std::string(60, 'x') +
                  "...', which is no member; the members are 'crank', 'drum', 'planet' and 'ring'");
}

}  // namespace
}  // namespace couplet
