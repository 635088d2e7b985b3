// Reading: what each key of a scene becomes in the train.
#include <gtest/gtest.h>

#include "scene/scene.hpp"
#include "scene_texts.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

Train read(std::string_view text) {
    return read_scene(text, "s.toml");
}

// The module of a scene that writes it so.
Ratio module_written(const std::string& number) {
    return read("couplet = 1\n[teeth]\nmodule = " + number + "\n").teeth.module_mm.value();
}

TEST(ReadScene, ReadsTheExampleOfTheFormat) {
    const Train train = read(kCapstan);
    EXPECT_EQ(train.title, "Capstan");
    EXPECT_EQ(train.notes, "A test.");
    EXPECT_EQ(train.teeth.module_mm, Ratio(3));
    ASSERT_EQ(train.members.size(), 4U);
    EXPECT_EQ(train.members[0].name, "crank");
    EXPECT_EQ(train.members[0].rides_on, kFrame);
    EXPECT_EQ(train.members[0].copies, 1);
    EXPECT_EQ(train.members[2].rides_on, MemberIndex{1});
    EXPECT_EQ(train.members[2].copies, 3);
    ASSERT_EQ(train.gears.size(), 4U);
    EXPECT_EQ(train.gears[1].member, MemberIndex{2});
    EXPECT_EQ(train.gears[1].name, "outer");
    EXPECT_EQ(train.gears[1].teeth, 24);
    EXPECT_FALSE(train.gears[1].internal);
    EXPECT_TRUE(train.gears[3].internal);
    EXPECT_EQ(train.meshes, (std::vector<Mesh>{{{0}, {1}, {}}, {{1}, {3}, {}}}));
    EXPECT_EQ(train.settings, (std::vector<Setting>{{"hauling", {{3}}, {}, {{{0}, 30}}}}));
    EXPECT_EQ(train.joints, (std::vector<Joint>{{"pin", {2}, {1}, false}}));
    EXPECT_EQ(train.couplings, (std::vector<CouplingEntry>{{{"crank on frame", "pin"}, {{360, -180}}}}));
    EXPECT_EQ(train.shots, (std::vector<Shot>{{Ratio(1, 4), {}, {}, Ratio(3, 2), MemberIndex{2}}}));
}

TEST(ReadScene, ReadsEveryKeyOfAShot) {
    const Train train = read(std::string(kCapstan) +
                             "[[shot]]\nat = 1\nazimuth = -400.5\nelevation = -90\nzoom = 1e3\nlook_at = \"frame\"\n");
    ASSERT_EQ(train.shots.size(), 2U);
    EXPECT_EQ(train.shots[1], (Shot{1, Ratio(-801, 2), -90, 1000, kFrame}));
}

TEST(ReadScene, ReadsASceneOfNothing) {
    EXPECT_EQ(read("couplet = 1"), Train{});
}

TEST(ReadScene, TakesADecimalForWhatIsWritten) {
    EXPECT_EQ(module_written("0.1"), Ratio(1, 10));
    EXPECT_EQ(module_written("1e-3"), Ratio(1, 1000));
    EXPECT_EQ(module_written("1_0.5"), Ratio(21, 2));
    EXPECT_EQ(module_written("+2.5E+0"), Ratio(5, 2));
    EXPECT_EQ(module_written("0x10"), Ratio(16));
    EXPECT_EQ(module_written("1_000"), Ratio(1000));
    EXPECT_EQ(module_written("0.30000000000000000000000000000000000001"),
              Ratio(3, 10) + Ratio(1) / Ratio::whole_from_digits("1" + std::string(38, '0')));
}

TEST(ReadScene, FindsNumbersBehindLettersOfSeveralBytes) {
    const Train train = read(
        "couplet = 1\n[[member]]\nname = \"g\xC3\xA9"
        "ar \xE2\x9A\x99\"\n"
        "[[setting]]\nname = \"\xC3\xA9\"\ndrive = { \"g\xC3\xA9"
        "ar \xE2\x9A\x99\" = 0.7 }\n");
    EXPECT_EQ(train.settings[0].drive[0].rpm, Ratio(7, 10));
}

TEST(ReadScene, ReadsEveryKeyOfTheTeethForAllAndForOneGear) {
    const std::string keys =
        "diametral_pitch = 8\npressure_angle = 14.5\nhelix_angle = -15.25\nface_width = 0.75\nbacklash = 0.004\n"
        "addendum = 0.8\ndedendum = 1.0\nroot_radius = 0.3\n";
    ToothSpec spec;
    spec.diametral_pitch = 8;
    spec.pressure_angle_deg = Ratio(29, 2);
    spec.helix_angle_deg = Ratio(-61, 4);
    spec.face_width = Ratio(3, 4);
    spec.backlash = Ratio(1, 250);
    spec.addendum = Ratio(4, 5);
    spec.dedendum = 1;
    spec.root_radius = Ratio(3, 10);
    const Train train =
        read("couplet = 1\n[teeth]\n" + keys + "[[member]]\nname = \"a\"\n[[member.gear]]\nteeth = 20\n" +
             "shift = -0.35\nbore = 6.5\n" + keys);
    EXPECT_EQ(train.teeth, spec);
    EXPECT_EQ(train.gears[0].spec, spec);
    EXPECT_EQ(train.gears[0].shift, Ratio(-7, 20));
    EXPECT_EQ(train.gears[0].bore, Ratio(13, 2));
}

TEST(ReadScene, ReadsPlacesAxesAndCentreDistances) {
    const Train train = read(with(capstan_with("copies = 3", "at = [0.0, 118.5, 242]\naxis = [1, 0, -0.5]"), "[[mesh]]",
                                  "[[mesh]]\ncentre_distance = 67.5"));
    EXPECT_EQ(train.members[2].copies, 3);
    EXPECT_EQ(train.members[2].at_deg, (std::vector<Ratio>{0, Ratio(237, 2), 242}));
    EXPECT_EQ(train.members[2].axis, (std::array<Ratio, 3>{1, 0, Ratio(-1, 2)}));
    EXPECT_EQ(train.meshes[0].centre_distance, Ratio(135, 2));
}

TEST(ReadScene, LetsCopiesStandBesideAsManyPlaces) {
    EXPECT_EQ(read(capstan_with("copies = 3", "copies = 2\nat = [0, 180]")).members[2].copies, 2);
}

TEST(ReadScene, KeepsTheOrderOfTheDrivers) {
    const auto drivers = [](const std::string& drive) {
        const Train train = read(capstan_with("drive = { crank = 30.0 }", drive));
        std::string names;
        for (const Drive& driver : train.settings[0].drive) names += name_of(train, driver.member) + " ";
        return names;
    };
    EXPECT_EQ(drivers("drive = { ring = 1, crank = 2, drum = 3 }"), "ring crank drum ");
    EXPECT_EQ(drivers("drive = { drum = 1, \"crank\" = 2, ring = 3 }"), "drum crank ring ");
    EXPECT_EQ(drivers("drive.planet = 1\ndrive.crank = 2"), "planet crank ");
    EXPECT_EQ(drivers("[setting.drive]\nring = 1\ndrum = 2\ncrank = 3"), "ring drum crank ");
}

TEST(ReadScene, ReadsTies) {
    const Train train = read(capstan_with("tie = []", "tie = [[\"crank\", \"drum\"], [\"drum\", \"ring\"]]"));
    EXPECT_EQ(train.settings[0].tie, (std::vector<std::pair<MemberIndex, MemberIndex>>{{{0}, {1}}, {{1}, {3}}}));
}

TEST(ReadScene, CallsAJointWithoutNameByItsMembers) {
    const Train train = read(with(capstan_with("name = \"pin\"\n", ""), "\"pin\"", "\"planet on drum\""));
    EXPECT_EQ(train.joints[0].name, "planet on drum");
}

TEST(ReadScene, LetsAJointStandAgainstAnyMemberOrTheFrame) {
    const Train train = read(std::string(kCapstan) +
                             "[[joint]]\nname = \"hub\"\nturns = \"frame\"\nagainst = \"ring\"\nflipped = true\n");
    EXPECT_EQ(train.joints[1], (Joint{"hub", kFrame, {3}, true}));
}

TEST(ReadScene, FindsTheJointsOfACoupling) {
    EXPECT_EQ(refusal_with("\"pin\"]", "\"planet on frame\"]"), "read, with 4 members");
    EXPECT_EQ(refusal_with("\"pin\"]", "\"frame on ring\"]"), "read, with 4 members");
    EXPECT_EQ(read(capstan_with("typed = [360.0, -180.0]\n", "")).couplings[0].typed, std::nullopt);
}

TEST(ReadScene, TakesAnOnlyGearByMemberOrByFullName) {
    const std::string text = capstan_with("[[member.gear]]\nname = \"inner\"\nteeth = 12\n", "");
    EXPECT_EQ(read(text), read(with(text, "\"planet/outer\"", "\"planet\"")));
}

TEST(ReadScene, LetsNamesHaveSpacesAndSigns) {
    const std::string text =
        "couplet = 1\n[[member]]\nname = \"1st wheel, \\\"A\\\"\"\n[[member]]\nname = \"a on b\"\n"
        "[[setting]]\nname = \"s\"\nhold = [\"a on b\"]\ndrive = { \"1st wheel, \\\"A\\\"\" = 1 }\n"
        "[[coupling]]\njoints = [\"a on b on frame\", \"1st wheel, \\\"A\\\" on a on b\"]\n";
    EXPECT_EQ(refusal(text), "read, with 2 members");
}

TEST(ReadScene, LetsMeshesComeBeforeMembers) {
    const Train train = read(
        "couplet = 1\n[[mesh]]\ngears = [\"a\", \"b\"]\n[[member]]\nname = \"a\"\n[[member.gear]]\nteeth = 20\n"
        "[[member]]\nname = \"b\"\n[[member.gear]]\nteeth = 30\n");
    EXPECT_EQ(train.meshes, (std::vector<Mesh>{{{0}, {1}, {}}}));
}

TEST(ReadScene, ReadsTablesInBraces) {
    const Train in_braces = read(
        "couplet = 1\nteeth = { module = 3.0 }\n"
        "member = [{ name = \"a\", gear = [{ teeth = 20, shift = 0.1 }] }, { name = \"b\", gear = [{ teeth = 30 }] }]\n"
        "mesh = [{ gears = [\"a\", \"b\"] }]\n");
    EXPECT_EQ(in_braces,
              read("couplet = 1\n[teeth]\nmodule = 3.0\n[[member]]\nname = \"a\"\n[[member.gear]]\nteeth = 20\n"
                   "shift = 0.1\n[[member]]\nname = \"b\"\n[[member.gear]]\nteeth = 30\n[[mesh]]\n"
                   "gears = [\"a\", \"b\"]\n"));
}

TEST(ReadScene, JoinsLinesBeforeLettersBeyondAscii) {
    // 2026-11-25: the TOML library ran into undefined behaviour at a letter beyond ASCII behind a joined line.
    EXPECT_EQ(read("couplet = 1\nnotes = \"\"\"\nGetriebe, \\\n  \xC3\xBC"
                   "bersichtlich.\"\"\"\n")
                  .notes,
              "Getriebe, \xC3\xBC"
              "bersichtlich.");
    EXPECT_TRUE(refusal("couplet = 1\n\xC3\x92 = 2\n").starts_with("s.toml:2: this is not valid TOML: "));
}

TEST(ReadScene, ReadsLineEndsOfBothKinds) {
    EXPECT_EQ(read(with_crlf(kCapstan)), read(kCapstan));
}

TEST(ReadScene, ReadsPastAByteOrderMark) {
    EXPECT_EQ(read("\xEF\xBB\xBF" + std::string(kCapstan)), read(kCapstan));
}

}  // namespace
}  // namespace couplet
