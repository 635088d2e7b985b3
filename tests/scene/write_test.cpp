// Writing: the canonical text of a train, and that it reads as the same train.
#include <gtest/gtest.h>

#include "scene/scene.hpp"
#include "scene_texts.hpp"

namespace couplet {
namespace {

Train read(std::string_view text) {
    return read_scene(text, "s.toml");
}

TEST(WriteScene, LeavesDefaultsOutAndKeepsTheOrderOfTheFormat) {
    EXPECT_EQ(write_scene(read(kCapstan)), R"(couplet = 1
title = "Capstan"
notes = "A test."

[teeth]
module = 3

[[member]]
name = "crank"
[[member.gear]]
teeth = 21

[[member]]
name = "drum"

[[member]]
name = "planet"
on = "drum"
copies = 3
[[member.gear]]
name = "outer"
teeth = 24
[[member.gear]]
name = "inner"
teeth = 12

[[member]]
name = "ring"
[[member.gear]]
teeth = 69
internal = true

[[mesh]]
gears = ["crank", "planet/outer"]
[[mesh]]
gears = ["planet/outer", "ring"]

[[setting]]
name = "hauling"
hold = ["ring"]
drive = { crank = 30 }

[[joint]]
name = "pin"
turns = "planet"
against = "drum"

[[coupling]]
joints = ["crank on frame", "pin"]
typed = [360, -180]

[[shot]]
at = 0.25
zoom = 1.5
look_at = "planet"
)");
}

TEST(WriteScene, WritesNothingButTheVersionOfAnEmptyTrain) {
    EXPECT_EQ(write_scene(Train{}), "couplet = 1\n");
}

TEST(WriteScene, WritesTextThatReadsAsTheSameTrain) {
    const std::string everything = with(
        with(capstan_with("copies = 3", "at = [0, 118.5, 242]\naxis = [0, 1e-3, -1]"), "[[mesh]]",
             "[[mesh]]\ncentre_distance = 67.25"),
        "teeth = 12",
        "teeth = 12\nshift = -0.123456789\nbore = 2.5\ndiametral_pitch = 8\npressure_angle = 25\nhelix_angle = 12.5\n"
        "face_width = 7\nbacklash = 0\naddendum = 0.8\ndedendum = 1\nroot_radius = 0.25");
    for (const std::string& text :
         {std::string(kCapstan), everything, capstan_with("tie = []", "tie = [[\"crank\", \"drum\"]]"),
          capstan_with("{ crank = 30.0 }", "{ ring = 1.5, crank = -2 }"), capstan_with("name = \"pin\"\n", ""),
          with(capstan_with("against = \"drum\"", "against = \"drum\"\nflipped = true"), "typed = [360.0, -180.0]", ""),
          capstan_with("zoom = 1.5", "azimuth = -7.5\nelevation = 12") + "[[shot]]\nat = 1\nlook_at = \"frame\"\n"}) {
        const Train train =
            refusal(text).starts_with("read") ? read(text) : read(with(text, "\"pin\"", "\"planet on drum\""));
        EXPECT_EQ(read(write_scene(train)), train) << text;
        EXPECT_EQ(write_scene(read(write_scene(train))), write_scene(train));
    }
}

TEST(WriteScene, WritesNumbersExactly) {
    Train train;
    train.teeth.module_mm = Ratio(1, 10);
    train.teeth.backlash = Ratio(1) / Ratio::whole_from_digits("1" + std::string(40, '0'));
    train.teeth.helix_angle_deg = Ratio(-61, 4);
    EXPECT_EQ(write_scene(train), "couplet = 1\n\n[teeth]\nmodule = 0.1\nhelix_angle = -15.25\nbacklash = 0." +
                                      std::string(39, '0') + "1\n");
    EXPECT_EQ(read(write_scene(train)), train);
}

TEST(WriteScene, RefusesANumberThatIsNoDecimal) {
    Train train;
    train.teeth.module_mm = Ratio(1, 3);
    EXPECT_THROW((void)write_scene(train), std::invalid_argument);
}

TEST(WriteScene, EscapesTextAndQuotesKeys) {
    Train train;
    train.title = "A \"title\" with \\ and \x01 and \x7F and \r and \xC3\xA9";
    train.members.resize(1);
    train.members[0].name = "1st \"wheel\"";
    train.settings = {{"s", {}, {}, {{{0}, 1}}}};
    const std::string text = write_scene(train);
    EXPECT_NE(text.find(R"(title = "A \"title\" with \\ and \u0001 and \u007F and \r and é")"), std::string::npos)
        << text;
    EXPECT_NE(text.find(R"(drive = { "1st \"wheel\"" = 1 })"), std::string::npos) << text;
    EXPECT_EQ(read(text), train);
}

TEST(WriteScene, WritesNotesOfSeveralLinesAsTheyStand) {
    Train train;
    train.notes = "\nFirst line,\n\tsecond with \"quotes\"\"\"\" and \\,\r\n third.\n";
    const std::string text = write_scene(train);
    EXPECT_TRUE(text.starts_with("couplet = 1\nnotes = \"\"\"\n\nFirst line,\n\tsecond")) << text;
    EXPECT_EQ(read(text), train);
    EXPECT_EQ(read(with_crlf(text)), train);
}

}  // namespace
}  // namespace couplet
