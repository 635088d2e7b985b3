// Rewriting: a change touches the lines that it must, and nothing else.
#include <gtest/gtest.h>

#include <functional>

#include "scene/scene.hpp"
#include "scene_texts.hpp"

namespace couplet {
namespace {

// As a person writes: comments at every place, odd spacing, tables out of order.
constexpr std::string_view kWritten = R"(# The capstan.
couplet = 1   # format
title="Capstan"

[[setting]]   # settings first
name = "hauling"
hold = [ "ring" ]  # bolted
drive = {crank = 30.0}  # rpm

# All gears.
[teeth]
  module = 3.00   # mm
  backlash = 0.1  # mm

# The sun.
# It is the crank.
[[member]]
name = "crank"
[[member.gear]]
teeth = 21  # prime factors 3 and 7
shift = 0.0

[[member]]
name = "drum"

[[member]]
name = "planet"   # three of them
on = "drum"
copies = 3
# The planet's gear.
[[member.gear]]
teeth = 24

# The ring.
[[member]]
name = 'ring'
[[member.gear]]
teeth = 69
internal = true
# Nothing below but meshes.

[[mesh]]
gears = ["crank",
         "planet"]  # outside
[[mesh]]
gears = ["planet", "ring"]  # inside
# The end.
)";

// The text after the change, which reads as the changed train.
std::string rewritten(std::string_view text, const std::function<void(Train&)>& change) {
    Train train = read_scene(text, "s.toml");
    change(train);
    std::string changed = rewrite_scene(text, train);
    EXPECT_EQ(read_scene(changed, "s.toml"), train) << changed;
    return changed;
}

std::string rewritten(const std::function<void(Train&)>& change) {
    return rewritten(kWritten, change);
}

std::string written_with(std::string_view part, std::string_view replacement) {
    return with(std::string(kWritten), part, replacement);
}

TEST(RewriteScene, LeavesEveryByteWhereNothingChanged) {
    const auto nothing = [](Train&) {};
    EXPECT_EQ(rewritten(nothing), kWritten);
    EXPECT_EQ(rewritten(with_crlf(kWritten), nothing), with_crlf(kWritten));
    EXPECT_EQ(rewritten(kCapstan, nothing), kCapstan);
}

TEST(RewriteScene, ReplacesANumberInItsPlace) {
    EXPECT_EQ(rewritten([](Train& train) { train.gears[0].teeth = 22; }), written_with("teeth = 21", "teeth = 22"));
    EXPECT_EQ(rewritten([](Train& train) { train.gears[0].shift = Ratio(-1, 4); }),
              written_with("shift = 0.0", "shift = -0.25"));
    EXPECT_EQ(rewritten([](Train& train) { train.settings[0].drive[0].rpm = Ratio(-15, 2); }),
              written_with("{crank = 30.0}", "{crank = -7.5}"));
    EXPECT_EQ(rewritten([](Train& train) { train.teeth.module_mm = Ratio(5, 2); }), written_with("3.00", "2.5"));
    EXPECT_EQ(rewritten([](Train& train) { train.members[2].copies = 1; }), written_with("copies = 3", "copies = 1"));
}

TEST(RewriteScene, ReplacesTextFlagsAndMembers) {
    EXPECT_EQ(rewritten([](Train& train) { train.title = "A \"new\" title"; }),
              written_with("\"Capstan\"", R"("A \"new\" title")"));
    EXPECT_EQ(rewritten([](Train& train) {
                  train.gears[2].internal = false;
                  train.meshes.pop_back();
              }),
              with(written_with("internal = true", "internal = false"),
                   "[[mesh]]\ngears = [\"planet\", \"ring\"]  # inside\n", ""));
    EXPECT_EQ(rewritten([](Train& train) { train.settings[0].hold = {{1}}; }),
              written_with("[ \"ring\" ]", "[ \"drum\" ]"));
}

TEST(RewriteScene, ReplacesAListWhoseLengthChanged) {
    EXPECT_EQ(rewritten([](Train& train) {
                  train.settings[0].hold = {{3}, {1}};
              }),
              written_with("[ \"ring\" ]", "[\"ring\", \"drum\"]"));
    EXPECT_EQ(rewritten([](Train& train) { train.settings[0].hold.clear(); }), written_with("[ \"ring\" ]", "[]"));
}

TEST(RewriteScene, ReplacesOneItemOfAListOverSeveralLines) {
    EXPECT_EQ(rewritten([](Train& train) {
                  train.gears.insert(train.gears.begin() + 1, Gear{{1}, "", 20, false, {}, {}, {}});
                  train.meshes[0] = {{0}, {1}, {}};
                  train.meshes[1] = {{2}, {3}, {}};
                  train.members[2].rides_on = kFrame;
              }),
              with(with(written_with("         \"planet\"]", "         \"drum\"]"), "name = \"drum\"\n",
                        "name = \"drum\"\n[[member.gear]]\nteeth = 20\n"),
                   "on = \"drum\"", "on = \"frame\""));
}

TEST(RewriteScene, ReplacesTheDriversWhereOthersDrive) {
    EXPECT_EQ(rewritten([](Train& train) {
                  train.settings[0].drive = {{{1}, 7}};
              }),
              written_with("{crank = 30.0}", "{ drum = 7 }"));
    EXPECT_EQ(rewritten([](Train& train) {
                  train.settings[0].drive.push_back({{1}, 7});
              }),
              written_with("{crank = 30.0}", "{ crank = 30, drum = 7 }"));
    EXPECT_EQ(rewritten([](Train& train) { train.settings[0].drive.clear(); }), written_with("{crank = 30.0}", "{}"));
}

TEST(RewriteScene, AddsAKeyAfterTheLastOfItsTable) {
    EXPECT_EQ(rewritten([](Train& train) { train.notes = "New."; }),
              written_with("title=\"Capstan\"\n", "title=\"Capstan\"\nnotes = \"New.\"\n"));
    EXPECT_EQ(rewritten([](Train& train) { train.gears[1].shift = Ratio(1, 10); }),
              written_with("teeth = 24\n", "teeth = 24\nshift = 0.1\n"));
    EXPECT_EQ(rewritten([](Train& train) { train.teeth.face_width = 12; }),
              written_with("backlash = 0.1  # mm\n", "backlash = 0.1  # mm\n  face_width = 12\n"));
    EXPECT_EQ(rewritten([](Train& train) {
                  train.settings[0].tie = {{{0}, {1}}};
              }),
              written_with("# rpm\n", "# rpm\ntie = [[\"crank\", \"drum\"]]\n"));
    EXPECT_EQ(rewritten([](Train& train) { train.meshes[0].centre_distance = 68; }),
              written_with("# outside\n", "# outside\ncentre_distance = 68\n"));
    EXPECT_EQ(rewritten([](Train& train) { train.members[3].copies = 2; }),
              written_with("name = 'ring'\n", "name = 'ring'\ncopies = 2\n"));
}

TEST(RewriteScene, RemovesTheLineOfAKeyThatWent) {
    EXPECT_EQ(rewritten([](Train& train) { train.gears[0].shift.reset(); }), written_with("shift = 0.0\n", ""));
    EXPECT_EQ(rewritten([](Train& train) { train.teeth.backlash.reset(); }),
              written_with("  backlash = 0.1  # mm\n", ""));
}

TEST(RewriteScene, ChangesModuleToDiametralPitch) {
    EXPECT_EQ(rewritten([](Train& train) {
                  train.teeth.module_mm.reset();
                  train.teeth.diametral_pitch = 8;
              }),
              with(written_with("  module = 3.00   # mm\n", ""), "# mm\n\n", "# mm\n  diametral_pitch = 8\n\n"));
}

TEST(RewriteScene, RenamesAMemberWhereverItIsNamed) {
    EXPECT_EQ(rewritten([](Train& train) { train.members[0].name = "handle"; }),
              with(with(written_with("name = \"crank\"", "name = \"handle\""), "[\"crank\",", "[\"handle\","),
                   "{crank = 30.0}", "{ handle = 30 }"));
}

TEST(RewriteScene, AddsAMemberBehindTheOneBefore) {
    EXPECT_EQ(rewritten([](Train& train) {
                  Member brake;
                  brake.name = "brake";
                  train.members.push_back(brake);
                  train.gears.push_back({{4}, "", 30, false, {}, {}, {}});
              }),
              written_with("internal = true\n",
                           "internal = true\n\n[[member]]\nname = \"brake\"\n[[member.gear]]\nteeth = 30\n"));
}

TEST(RewriteScene, AddsAMemberBeforeTheFirst) {
    EXPECT_EQ(rewritten([](Train& train) {
                  Member brake;
                  brake.name = "brake";
                  train.members.insert(train.members.begin(), brake);
                  for (Member& member : train.members)
                      if (member.rides_on != kFrame) ++member.rides_on.value;
                  for (Gear& gear : train.gears) ++gear.member.value;
                  for (MemberIndex& member : train.settings[0].hold) ++member.value;
                  for (Drive& drive : train.settings[0].drive) ++drive.member.value;
              }),
              written_with("# The sun.\n", "[[member]]\nname = \"brake\"\n\n# The sun.\n"));
}

TEST(RewriteScene, RemovesAMemberWithTheCommentsAboveIt) {
    EXPECT_EQ(rewritten([](Train& train) {
                  train.members.pop_back();
                  train.gears.pop_back();
                  train.meshes.pop_back();
                  train.settings[0].hold.clear();
              }),
              with(with(written_with("[ \"ring\" ]", "[]"),
                        "# The ring.\n[[member]]\nname = 'ring'\n[[member.gear]]\nteeth = 69\ninternal = true\n", ""),
                   "[[mesh]]\ngears = [\"planet\", \"ring\"]  # inside\n", ""));
}

TEST(RewriteScene, AddsAndRemovesGearsOfAMember) {
    const std::string two = rewritten([](Train& train) {
        train.gears[1].name = "outer";
        train.gears.insert(train.gears.begin() + 2, Gear{{2}, "inner", 12, false, {}, {}, {}});
        train.meshes[1] = {{1}, {3}, {}};
    });
    EXPECT_EQ(two,
              with(with(written_with("         \"planet\"]", "         \"planet/outer\"]"), "[\"planet\", \"ring\"]",
                        "[\"planet/outer\", \"ring\"]"),
                   "teeth = 24\n", "teeth = 24\nname = \"outer\"\n[[member.gear]]\nname = \"inner\"\nteeth = 12\n"));
    EXPECT_EQ(rewritten(two,
                        [](Train& train) {
                            train.gears.erase(train.gears.begin() + 2);
                            train.meshes[1] = {{1}, {2}, {}};
                        }),
              written_with("teeth = 24\n", "teeth = 24\nname = \"outer\"\n"));
}

TEST(RewriteScene, AddsAndRemovesMeshesAndSettings) {
    EXPECT_EQ(rewritten([](Train& train) {
                  train.meshes.push_back({{0}, {2}, {}});
              }),
              written_with("# inside\n", "# inside\n[[mesh]]\ngears = [\"crank\", \"ring\"]\n"));
    EXPECT_EQ(rewritten([](Train& train) { train.meshes.erase(train.meshes.begin()); }),
              written_with("[[mesh]]\ngears = [\"crank\",\n         \"planet\"]  # outside\n", ""));
    EXPECT_EQ(rewritten([](Train& train) {
                  train.settings.push_back({"slack", {}, {}, {{{1}, 5}}});
              }),
              written_with("# rpm\n", "# rpm\n\n[[setting]]\nname = \"slack\"\ndrive = { drum = 5 }\n"));
    EXPECT_EQ(rewritten([](Train& train) { train.settings.clear(); }),
              written_with("[[setting]]   # settings first\nname = \"hauling\"\nhold = [ \"ring\" ]  # bolted\n"
                           "drive = {crank = 30.0}  # rpm\n\n",
                           ""));
}

TEST(RewriteScene, AddsTheFirstEntriesOfAList) {
    EXPECT_EQ(
        rewritten([](Train& train) {
            train.joints.push_back({"pin", {2}, {1}, true});
            train.couplings.push_back({{"crank on frame", "pin"}, {{360, Ratio(-483, 2)}}});
        }),
        written_with("# inside\n",
                     "# inside\n\n[[joint]]\nname = \"pin\"\nturns = \"planet\"\nagainst = \"drum\"\nflipped = true\n"
                     "\n[[coupling]]\njoints = [\"crank on frame\", \"pin\"]\ntyped = [360, -241.5]\n"));
    EXPECT_EQ(rewritten("couplet = 1 # version", [](Train& train) { train.teeth.module_mm = 2; }),
              "couplet = 1 # version\n\n[teeth]\nmodule = 2\n");
}

TEST(RewriteScene, ChangesAddsAndRemovesShots) {
    const std::string two =
        std::string(kCapstan) + "\n# The end.\n[[shot]]\nat = 0.75 # late\nazimuth = 90 # the side\n";
    EXPECT_EQ(
        rewritten(two,
                  [](Train& train) {
                      train.members[2].name = "wheel";
                      train.shots[1].at = Ratio(4, 5);
                      train.shots[1].azimuth_deg = 100;
                  }),
        with(with(with(with(with(with(two, "name = \"planet\"", "name = \"wheel\""), "planet/outer", "wheel/outer"),
                            "planet/outer", "wheel/outer"),
                       "turns = \"planet\"", "turns = \"wheel\""),
                  "look_at = \"planet\"", "look_at = \"wheel\""),
             "at = 0.75 # late\nazimuth = 90 #", "at = 0.8 # late\nazimuth = 100 #"));
    EXPECT_EQ(rewritten(two,
                        [](Train& train) {
                            train.shots[0].look_at = kFrame;
                            train.shots[0].elevation_deg = 20;
                            train.shots.insert(train.shots.begin() + 1, Shot{Ratio(1, 2), {}, {}, {}, {}});
                        }),
              with(two, "look_at = \"planet\"\n", "look_at = \"frame\"\nelevation = 20\n[[shot]]\nat = 0.5\n"));
    EXPECT_EQ(rewritten(two, [](Train& train) { train.shots.pop_back(); }),
              with(two, "# The end.\n[[shot]]\nat = 0.75 # late\nazimuth = 90 # the side\n", ""));
    EXPECT_EQ(rewritten("couplet = 1\n",
                        [](Train& train) {
                            train.shots = {{0, {}, {}, 2, {}}};
                        }),
              "couplet = 1\n\n[[shot]]\nat = 0\nzoom = 2\n");
}

TEST(RewriteScene, WritesLineEndsAsTheFileHasThem) {
    EXPECT_EQ(rewritten(with_crlf(kWritten),
                        [](Train& train) {
                            train.gears[1].shift = Ratio(1, 10);
                            train.meshes.push_back({{0}, {2}, {}});
                            train.notes = "Two\nlines.";
                        }),
              with_crlf(with(with(written_with("teeth = 24\n", "teeth = 24\nshift = 0.1\n"), "# inside\n",
                                  "# inside\n[[mesh]]\ngears = [\"crank\", \"ring\"]\n"),
                             "title=\"Capstan\"\n", "title=\"Capstan\"\nnotes = \"\"\"\nTwo\nlines.\"\"\"\n")));
}

TEST(RewriteScene, CountsLettersNotBytes) {
    const std::string text =
        "couplet = 1\ntitle = \"\xC3\xA9\xE2\x9A\x99\"  # \xC3\xA9\n[[member]]\nname = \"\xC3\xA9\"\n"
        "[[setting]]\nname = \"s\"\ndrive = { \"\xC3\xA9\" = 1.0 } # \xC3\xA9\n";
    EXPECT_EQ(rewritten(text, [](Train& train) { train.settings[0].drive[0].rpm = 2; }), with(text, "1.0", "2"));
    EXPECT_EQ(rewritten(text, [](Train& train) { train.title = "x"; }), with(text, "\xC3\xA9\xE2\x9A\x99", "x"));
    EXPECT_EQ(rewritten("\xEF\xBB\xBF" + text, [](Train& train) { train.title = "x"; }),
              "\xEF\xBB\xBF" + with(text, "\xC3\xA9\xE2\x9A\x99", "x"));
}

TEST(RewriteScene, ReachesIntoTablesInBracesAndDottedKeys) {
    const std::string text =
        "couplet = 1\nteeth.module = 3.0 # dotted\n"
        "member = [ { name = \"a\", gear = [ {teeth=20} ] }, # one\n  { name = \"b\" } ] # two\n"
        "[[setting]]\nname = \"s\"\n[setting.drive]\na = 1.0 # rpm\nb = 2.0\n";
    EXPECT_EQ(rewritten(text,
                        [](Train& train) {
                            train.teeth.module_mm = 2;
                            train.gears[0].teeth = 30;
                            train.settings[0].drive[0].rpm = 5;
                        }),
              with(with(with(text, "3.0", "2"), "teeth=20", "teeth=30"), "a = 1.0", "a = 5"));
}

// Where a change cannot be made in place, the whole text is written anew and comments are lost.
void expect_written_anew(std::string_view text, const std::function<void(Train&)>& change) {
    Train train = read_scene(text, "s.toml");
    change(train);
    EXPECT_EQ(rewritten(text, change), write_scene(train));
}

TEST(RewriteScene, WritesAnewWhereEntriesChangedTheirOrder) {
    expect_written_anew(kWritten, [](Train& train) { std::swap(train.meshes[0], train.meshes[1]); });
}

TEST(RewriteScene, WritesAnewWhereAListInBracesGrows) {
    expect_written_anew("couplet = 1\nmember = [ { name = \"a\" } ] # one\n", [](Train& train) {
        train.members.push_back(train.members[0]);
        train.members[1].name = "b";
    });
}

TEST(RewriteScene, WritesAnewWhereATableOfDottedKeysGrows) {
    expect_written_anew("couplet = 1\nteeth.module = 3.0 # mm\n", [](Train& train) { train.teeth.face_width = 5; });
}

TEST(RewriteScene, WritesAnewWhereDriversWithAHeaderChange) {
    expect_written_anew(
        "couplet = 1\n[[member]]\nname = \"a\"\n[[member]]\nname = \"b\"\n[[setting]]\nname = "
        "\"s\"\n[setting.drive]\na = 1\n",
        [](Train& train) { train.settings[0].drive[0].member = {1}; });
}

TEST(RewriteScene, RefusesATextThatIsNoScene) {
    EXPECT_THROW((void)rewrite_scene("couplet = 2", Train{}), SceneError);
    EXPECT_THROW((void)rewrite_scene("couplet = ", Train{}), SceneError);
}

TEST(RewriteScene, KeepsASceneWithoutALastLineEnd) {
    EXPECT_EQ(rewritten("couplet = 1\n[[member]]\nname = \"a\"",
                        [](Train& train) {
                            train.gears.push_back({{0}, "", 20, false, {}, {}, {}});
                        }),
              "couplet = 1\n[[member]]\nname = \"a\"\n[[member.gear]]\nteeth = 20\n");
}

}  // namespace
}  // namespace couplet
