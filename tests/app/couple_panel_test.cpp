#include <gtest/gtest.h>

#include <algorithm>

#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "couple/joints.hpp"
#include "scene/scene.hpp"
#include "support/train_families.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

// The default scene: sun 21, planet 24, ring 69. With the ring held, a turn of the crank turns the drum by
// 21 / (21 + 69) = 7/30 (84 of 360 degrees), the planet on the drum by -(1 - 7/30) 21/24 = -161/240 (-241.5 degrees);
// tooth counts alone say -21/24 (-315 degrees), which is 73.5 degrees more.
std::string scene_text(const std::string& name) {
    return load_scene_text(std::string(COUPLET_ROOT) + "/scenes/" + name);
}

std::string copied(const NullWindow& window) {
    for (const Command& command : window.last_commands)
        if (const auto* copy = std::get_if<CopyText>(&command)) return copy->text;
    return "nothing";
}

TEST(CouplePanel, ShowsThePairToTypeAndCopiesIt) {
    NullWindow window("", draw_couple_panel);
    EXPECT_TRUE(window.shows("crank on frame \u2192 drum on frame"));
    EXPECT_EQ(window.said("drum on frame").value, "84");
    EXPECT_EQ(window.said("planet on drum: first angle").value, "360");
    EXPECT_EQ(window.said("planet on drum").value, "-241.5");
    window.click("copy planet on drum");
    EXPECT_EQ(copied(window), "-241.5");
    window.click("copy both drum on frame");
    EXPECT_EQ(copied(window), "360 : 84");
}

TEST(CouplePanel, TellsRatioSenseWholeDegreesAndFormula) {
    NullWindow window("", draw_couple_panel);
    EXPECT_EQ(window.said("drum on frame: ratio").value, "7/30 (0.233333), same sense");
    EXPECT_EQ(window.said("planet on drum: ratio").value, "-161/240 (-0.670833), opposite");
    // 240 : -161 has no common divisor.
    EXPECT_EQ(window.said("planet on drum: whole degrees").value, "240 : -161");
    window.click("copy planet on drum: formula");
    EXPECT_EQ(copied(window), window.session.study->sheet().couplings[1].expression);
}

TEST(CouplePanel, TellsTheCarrierCorrectionWhereThereIsOne) {
    NullWindow window("", draw_couple_panel);
    EXPECT_TRUE(window.shows("tooth counts alone say -315: wrong by 73.5 deg a turn, since drum turns too"));
    EXPECT_TRUE(window.says("planet on drum: carrier correction"));
    EXPECT_FALSE(window.says("drum on frame: carrier correction"));
    window.hover("planet on drum: carrier correction");
}

TEST(CouplePanel, ListsJointsThatStandStillApart) {
    NullWindow window("", draw_couple_panel);
    EXPECT_TRUE(window.shows("Stands still: fix this joint"));
    EXPECT_FALSE(window.says("ring on frame: coupling"));
    EXPECT_TRUE(window.shows("ring on frame"));
}

TEST(CouplePanel, JudgesWhatIsTypedAndKeepsEveryCard) {
    NullWindow window("", draw_couple_panel);
    window.type("planet on drum: typed second", "-315");
    const std::vector<CouplingEntry>& couplings = window.session.train().couplings;
    ASSERT_EQ(couplings.size(), 3U);  // drum, planet and ring, from the crank
    EXPECT_EQ(couplings[1].joints[1], "planet on drum");
    EXPECT_EQ(couplings[1].typed, (std::array<Ratio, 2>{Ratio(360), Ratio(-315)}));
    EXPECT_TRUE(window.says("drum on frame: coupling"));
    EXPECT_TRUE(window.said("planet on drum: audit").value.starts_with("fails: wrong. This is the bare tooth ratio"));
    EXPECT_EQ(window.said("planet on drum: corrected").value, "360 : -241.5");

    window.type("planet on drum: typed second", "-241.5");
    EXPECT_TRUE(window.said("planet on drum: audit").value.starts_with("holds: right."));
    window.click("forget what was typed for planet on drum");
    EXPECT_FALSE(window.says("planet on drum: audit"));
    window.click("couple all joints again");
    EXPECT_TRUE(window.session.train().couplings.empty());
}

TEST(CouplePanel, TellsMistakesOfANotebookEachOnItsOwnCard) {
    // The scene has six couplings with typed angles: the first is right, the last rounded.
    NullWindow window(scene_text("dredger_notebook.toml"), draw_couple_panel);
    const std::string pair = "sprocket on frame \u2192 bucket wheel on spider";
    EXPECT_TRUE(window.said(pair + ": audit").value.starts_with("holds: right"));
    EXPECT_TRUE(window.said(pair + " (2): audit").value.starts_with("fails: wrong. This is the bare tooth ratio"));
    EXPECT_TRUE(window.said(pair + " (5): audit").value.starts_with("fails: wrong. The two angles stand"));
    EXPECT_TRUE(window.said("spider on frame: audit").value.starts_with("caution: rounded"));
    // Changing one of them leaves the others as they are.
    window.type(pair + " (3): typed second", "-104");
    EXPECT_TRUE(window.said(pair + " (3): audit").value.starts_with("holds: right"));
    EXPECT_TRUE(window.said(pair + " (2): audit").value.starts_with("fails: wrong"));
}

TEST(CouplePanel, OffersTheHoldsThatMakeACouplingExist) {
    // A differential with two drivers: no two of its joints turn in one ratio until a member is held.
    NullWindow window(scene_text("two_crew_hoist.toml"), draw_couple_panel);
    EXPECT_TRUE(window.shows("can turn independently of each other"));
    window.click("hold starboard crew for load on frame");
    ASSERT_TRUE(window.session.draft().trial);
    // Port crew 36, ring 72: 36 / (36 + 72) = 1/3 of a turn of the load.
    EXPECT_EQ(window.said("load on frame").value, "120");
}

TEST(CouplePanel, SaysWhereNothingMoves) {
    NullWindow window(scene_text("stuck_sluice.toml"), draw_couple_panel);
    EXPECT_TRUE(window.said("outcome").value.starts_with("fails: locked"));
    EXPECT_TRUE(window.shows("Let go of"));
    EXPECT_FALSE(window.shows("Couplings: the two angles to type"));
}

TEST(CouplePanel, ChoosesRenamesAddsAndRemovesSettings) {
    NullWindow window("", draw_couple_panel);
    const std::size_t settings = window.session.train().settings.size();
    EXPECT_TRUE(window.shows("hauling: ring held, crank drives at 30 rpm"));
    window.click("setting");
    window.click("setting: lowering");
    EXPECT_TRUE(window.shows("lowering: ring held, drum drives at -3.5 rpm"));
    window.type("setting name", "lower away");
    EXPECT_TRUE(window.shows("lower away: ring held"));
    window.type("setting name", "hauling");  // taken
    EXPECT_TRUE(window.shows("there is another setting of that name"));
    EXPECT_EQ(window.session.train().settings[1].name, "lower away");
    window.click("add setting");
    ASSERT_EQ(window.session.train().settings.size(), settings + 1);
    EXPECT_EQ(window.session.train().settings.back().name, "lower away 2");
    window.click("remove setting");
    EXPECT_EQ(window.session.train().settings.size(), settings);
}

TEST(CouplePanel, ChangesHoldsTiesAndDrivers) {
    NullWindow window("", draw_couple_panel);
    const auto setting = [&] { return running_setting(window.session.draft()); };
    window.click("let go of ring");
    EXPECT_TRUE(setting().hold.empty());
    window.click("hold one more");
    EXPECT_FALSE(window.says("hold one more: crank"));  // it drives
    window.click("hold one more: drum");
    EXPECT_EQ(setting().hold, (std::vector<MemberIndex>{{1}}));
    // Holding the drum makes a plain train: the ring turns by 21/69 = 7/23 of the crank. Of the exact pairs the one
    // with 16 x 23 is nearest to 360 (15 x 23 is 345).
    EXPECT_EQ(window.said("ring on frame: ratio").value, "-7/23 (-0.304348), opposite");
    EXPECT_EQ(window.said("ring on frame: first angle").value, "368");
    EXPECT_EQ(window.said("ring on frame").value, "-112");
    window.click("let go of drum");
    window.click("tie a member");
    window.click("tie a member: crank");
    window.click("tie it with");
    window.click("tie it with: drum");
    ASSERT_EQ(setting().tie.size(), 1U);
    // Locked together, everything turns as one.
    EXPECT_EQ(window.said("drum on frame").value, "360");
    window.click("untie crank = drum");
    EXPECT_TRUE(setting().tie.empty());
    window.type("speed of crank", "45");
    EXPECT_EQ(setting().drive.front().rpm, Ratio(45));
    window.click("stop driving crank");
    EXPECT_TRUE(setting().drive.empty());
    window.click("drive one more");
    window.click("drive one more: ring");
    EXPECT_EQ(setting().drive.front().member, MemberIndex{3});
    EXPECT_TRUE(faults(window.session.train()).empty());
    EXPECT_FALSE(window.session.draft().trial);
}

TEST(CouplePanel, FlippingADefaultJointWritesItDown) {
    NullWindow window("", draw_couple_panel);
    window.click("flipped planet on drum");
    ASSERT_EQ(window.session.train().joints.size(), 1U);
    EXPECT_TRUE(window.session.train().joints.front().flipped);
    EXPECT_EQ(window.said("planet on drum").value, "241.5");
    window.type("name of planet on drum", "planet pin");
    EXPECT_EQ(window.session.train().joints.front().name, "planet pin");
    EXPECT_EQ(window.said("planet pin").value, "241.5");
    window.click("remove joint planet pin");
    EXPECT_TRUE(window.session.train().joints.empty());
    EXPECT_EQ(window.said("planet on drum").value, "-241.5");
}

TEST(CouplePanel, AddsAJointByTwoListsAndCancels) {
    NullWindow window("", draw_couple_panel);
    window.click("add a joint");
    ASSERT_TRUE(window.session.view.joint_pick);
    window.click("cancel the joint");
    EXPECT_FALSE(window.session.view.joint_pick);
    window.click("add a joint");
    window.click("joint: turns");
    window.click("joint: turns: planet");
    EXPECT_TRUE(window.shows("planet turns."));
    window.click("joint: against");
    window.click("joint: against: ring");
    EXPECT_FALSE(window.session.view.joint_pick);
    ASSERT_EQ(window.session.train().joints.size(), 1U);
    EXPECT_EQ(window.session.train().joints.front().name, "planet on ring");
    // The ring is held, so the planet against it is 7/30 - 161/240 = -7/16 of a turn: -157.5 of 360 degrees.
    EXPECT_EQ(window.said("planet on ring").value, "-157.5");
}

void undo(NullWindow& window) {
    Edits edits{window.session.view, {}};
    edits.ask(Undo{});
    apply(window.session, edits, window.session.now_s);
    window.frame();
}

TEST(CouplePanel, AddsACouplingOfTwoJointsAndRemovesIt) {
    NullWindow window("", draw_couple_panel);
    const Train before = window.session.train();
    window.click("add a coupling");
    ASSERT_TRUE(window.session.view.coupling_pick);
    EXPECT_FALSE(window.says("coupling: second"));
    window.click("coupling: first");
    window.click("coupling: first: drum on frame");
    EXPECT_EQ(window.said("coupling: first").value, "drum on frame");
    window.click("coupling: second");
    EXPECT_FALSE(window.says("coupling: second: drum on frame"));  // with itself
    window.click("coupling: second: planet on drum");
    EXPECT_FALSE(window.session.view.coupling_pick);
    // The three from the crank are written down, and this one behind them.
    ASSERT_EQ(window.session.train().couplings.size(), 4U);
    EXPECT_EQ(window.session.train().couplings.back().joints,
              (std::array<std::string, 2>{"drum on frame", "planet on drum"}));
    // -161/240 by 7/30 is -23/8 turns for each of the drum: -1035 degrees for 360.
    const std::string key = "drum on frame \u2192 planet on drum";
    EXPECT_EQ(window.said(key).value, "-1035");

    window.click("remove coupling " + key);
    EXPECT_EQ(window.session.train().couplings.size(), 3U);
    EXPECT_FALSE(window.says(key + ": coupling"));
    undo(window);
    EXPECT_EQ(window.said(key).value, "-1035");
    undo(window);
    EXPECT_EQ(window.session.train(), before);
    EXPECT_TRUE(faults(window.session.train()).empty());
}

TEST(CouplePanel, LeavesTheAddingOfACoupling) {
    NullWindow window("", draw_couple_panel);
    window.click("add a coupling");
    window.click("coupling: first");
    window.click("coupling: first: planet on drum");
    window.click("cancel the coupling");
    EXPECT_FALSE(window.session.view.coupling_pick);
    EXPECT_TRUE(window.session.train().couplings.empty());
    // A joint that is gone by now is no longer the first one.
    window.session.view.coupling_pick = CouplingPick{Joint{"gone", {2}, {3}, false}};
    window.frame(2);
    EXPECT_FALSE(window.says("coupling: second"));
}

TEST(CouplePanel, RemovesOnlyCouplingsThatTheSceneNames) {
    const NullWindow defaults("", draw_couple_panel);
    EXPECT_FALSE(defaults.says("remove coupling planet on drum"));
    EXPECT_FALSE(defaults.says("remove coupling ring on frame"));
}

TEST(CouplePanel, RemovesNamedCouplingsOneByOne) {
    NullWindow window(scene_text("dredger_notebook.toml"), draw_couple_panel);
    const std::vector<CouplingEntry> before = window.session.train().couplings;
    ASSERT_EQ(before.size(), 6U);
    window.click("remove coupling spider on frame");  // the last one
    EXPECT_EQ(window.session.train().couplings, std::vector<CouplingEntry>(before.begin(), before.end() - 1));
    // The ring is held: its joint stands still, and is listed apart.
    window.click("couple all joints again");
    window.type("spider on frame: typed second", "1");
    const std::size_t named = window.session.train().couplings.size();
    window.click("remove coupling hull ring on frame");
    EXPECT_EQ(window.session.train().couplings.size(), named - 1);
}

TEST(CouplePanel, KeepsToTheFieldsOfTheModeller) {
    NullWindow window("", draw_couple_panel);
    window.type("decimals", "0");
    EXPECT_EQ(window.session.view.couple_options.limits.decimals, 0);
    // The exact pair of whole degrees nearest to a first angle of 360: multiples of 240.
    EXPECT_EQ(window.said("planet on drum: first angle").value, "240");
    window.type("decimals", "3");
    window.type("first angle wished", "720");
    EXPECT_EQ(window.said("planet on drum").value, "-483");
    window.type("first angle wished", "0");
    EXPECT_EQ(window.session.view.couple_options.limits.first_deg, Ratio(720));
}

TEST(CouplePanel, KeepsOrDropsATrial) {
    NullWindow window("", draw_couple_panel);
    Edits edits{window.session.view, {}};
    edits.change("pin", pinned(window.session.draft(), MemberIndex{1}));
    apply(window.session, edits, 0);
    window.frame();
    ASSERT_TRUE(window.session.draft().trial);
    window.click("drop the trial");
    EXPECT_FALSE(window.session.draft().trial);
}

// No widget may stand out of the panel, whose width is 420 units.
TEST(CouplePanel, FitsItsWidthAtBothScalesAndByBothLights) {
    for (const float scale : {1.0F, 2.0F})
        for (const Daylight light : {Daylight::light, Daylight::dark})
            for (const std::string& scene : {std::string(), scene_text("dredger_notebook.toml"),
                                             scene_text("slipway_gearbox.toml"), scene_text("two_crew_hoist.toml")}) {
                const NullWindow window(scene, draw_couple_panel, light, scale);
                for (const Said& said : window.screen.said)
                    EXPECT_LE(said.box_px[2], 420 * scale) << said.name << " = " << said.value;
            }
}

TEST(CouplePanel, ShowsTheFirstOfAThousandAndNarrowsThem) {
    const FamilyTrain family = family_a(1000);
    NullWindow window("", draw_couple_panel);
    Draft draft = draft_of(family.train);
    draft.train.settings = {family.setting};
    draft.train.settings.front().name = "running";
    draft.chosen = {0};
    Edits edits{window.session.view, {}};
    edits.change("a long train", draft);
    apply(window.session, edits, 0);
    window.frame();
    ASSERT_EQ(window.session.train().members.size(), family.train.members.size());
    const auto cards = [&] { return std::ranges::count(window.screen.said, "card", &Said::role); };
    EXPECT_EQ(cards(), 30);
    const std::string last = family.train.members.back().name;
    window.type("couplings named", last);
    EXPECT_LT(cards(), 30);
    EXPECT_TRUE(window.shows(last));
}

}  // namespace
}  // namespace couplet
