#include <gtest/gtest.h>

#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "scene/scene.hpp"
#include "support/simple_set.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

std::string scene_text(const std::string& name) {
    return load_scene_text(std::string(COUPLET_ROOT) + "/scenes/" + name);
}

// Sun 18, planet 18, ring 55 of module 2: the sun stands (18 + 18) / 2 x 2 = 36 mm from the planet, the ring
// (55 - 18) / 2 x 2 = 37 mm.
const std::string kDisagreeing = simple_set_text({18, 18, 55, 1}) + "[teeth]\nmodule = 2.0\n";

TEST(SizePanel, ShowsDiametersOfEveryGear) {
    const NullWindow window("", draw_size_panel);
    // The default scene has module 3: 21, 24 and 69 teeth; tips stand one module out, of the ring in.
    EXPECT_EQ(window.said("pitch diameter of crank").value, "63.000");
    EXPECT_EQ(window.said("tip diameter of crank").value, "69.000");
    EXPECT_EQ(window.said("pitch diameter of ring").value, "207.000");
    EXPECT_EQ(window.said("teeth of planet").value, "24");
}

TEST(SizePanel, ChangesTeethAndShiftAndRefusesWhatNoGearHas) {
    NullWindow window("", draw_size_panel);
    window.type("teeth of crank", "22");
    EXPECT_EQ(window.session.train().gears[0].teeth, 22);
    EXPECT_EQ(window.said("pitch diameter of crank").value, "66.000");
    EXPECT_EQ(window.session.history.undo_what(), "teeth of crank: 22");
    window.type("teeth of crank", "2");
    EXPECT_EQ(window.session.train().gears[0].teeth, 22);
    EXPECT_TRUE(window.shows("a whole number from 3"));
    window.type("shift of crank", "0.25");
    EXPECT_EQ(window.session.train().gears[0].shift, Ratio(1, 4));
}

TEST(SizePanel, ShowsWhatFailsUnderItsGear) {
    NullWindow window("", draw_size_panel);
    // 12 teeth without shift are undercut; 5/6 of 2 / sin^2 20 deg = 17.1 is allowed.
    window.type("teeth of crank", "12");
    const Said undercut = window.said("undercut at crank");
    EXPECT_NE(undercut.value.find("limit 14.2473"), std::string::npos) << undercut.value;
    const Said crank = window.said("teeth of crank");
    const Said planet = window.said("teeth of planet");
    EXPECT_GT(undercut.box_px[1], crank.box_px[1]);
    EXPECT_LT(undercut.box_px[3], planet.box_px[3]);
}

TEST(SizePanel, ShowsAssemblyUnderTheCopiesAndMendsIt) {
    // (22 + 62) / 5 is not whole, (22 + 62) / 4 is.
    NullWindow window(scene_text("misfit_mooring.toml"), draw_size_panel);
    EXPECT_TRUE(window.said("design rules").value.starts_with("fails"));
    const std::string condition = "assembly condition at capstan head, planet, mooring ring";
    EXPECT_GT(window.said(condition).box_px[1], window.said("copies of planet").box_px[1]);
    window.type("copies of planet", "4");
    EXPECT_EQ(window.session.train().members[2].copies, 4);
    EXPECT_FALSE(window.says(condition));
}

TEST(SizePanel, SpacesGivenPlacesEqually) {
    NullWindow window("", draw_size_panel);
    Draft draft = window.session.draft();
    draft.train.members[2].at_deg = {Ratio(0), Ratio(118), Ratio(242)};
    Edits edits{window.session.view, {}};
    edits.change("places", draft);
    apply(window.session, edits, 0);
    window.frame();
    EXPECT_TRUE(window.shows("at 0, 118 and 242 deg"));
    window.click("space equally planet");
    EXPECT_TRUE(window.session.train().members[2].at_deg.empty());
    EXPECT_EQ(window.session.train().members[2].copies, 3);
}

TEST(SizePanel, MatchesShiftsWhereCentresDisagree) {
    NullWindow window(kDisagreeing, draw_size_panel);
    EXPECT_TRUE(window.says("centre distances agree at planet on carrier"));
    window.click("match shifts of planet");
    EXPECT_TRUE(window.session.train().gears[2].shift.has_value());
    EXPECT_FALSE(window.says("match shifts of planet"));
}

TEST(SizePanel, OpensAllDataOfAGear) {
    NullWindow window("", draw_size_panel);
    EXPECT_FALSE(window.says("crank: base diameter"));
    window.click("crank: all data");
    // 63 cos 20 deg = 59.2006.
    EXPECT_EQ(window.said("crank: base diameter").value, "59.201");
    // Its mesh with the planet: 3 (21 + 24) / 2.
    EXPECT_EQ(window.said("crank with planet: centre distance").value, "67.500");
    window.click("copy crank: base diameter");
    EXPECT_EQ(window.session.clipboard, "59.201");
    window.click("crank: all data");
    EXPECT_FALSE(window.says("crank: base diameter"));
}

TEST(SizePanel, ChangesAllTeethAndTellsWhatIsUsual) {
    NullWindow window("", draw_size_panel);
    window.type("module", "2.5");
    EXPECT_EQ(window.said("pitch diameter of crank").value, "52.500");
    window.type("pressure angle", "");
    EXPECT_FALSE(window.session.train().teeth.pressure_angle_deg);
    window.type("pressure angle", "50");
    EXPECT_TRUE(window.shows("a number above 0 and below 45 (degrees)"));
}

TEST(SizePanel, GoesFromModuleToDiametralPitchAndBack) {
    NullWindow window("", draw_size_panel);
    window.click("size by: diametral pitch");
    const ToothSpec inches = window.session.train().teeth;
    // 25.4 / 3 and 12 / 25.4, to six decimals.
    EXPECT_EQ(inches.diametral_pitch, Ratio(8466667, 1000000));
    EXPECT_EQ(inches.face_width, Ratio(472441, 1000000));
    EXPECT_TRUE(window.said("pitch diameter of crank").value.starts_with("63.000"));
    window.click("size by: module");
    EXPECT_EQ(window.session.train().teeth.face_width, Ratio(12000001, 1000000));  // 0.472441 x 25.4 = 12.0000014
}

TEST(SizePanel, TellsATooSmallWorldInWordsAndKeepsItsFields) {
    NullWindow window(R"(couplet = 1
title = "No module"
[[member]]
name = "wheel"
[[member.gear]]
teeth = 18
)",
                      draw_size_panel);
    EXPECT_TRUE(window.shows("has no size"));
    window.type("module", "2");
    EXPECT_EQ(window.said("pitch diameter of wheel").value, "36.000");
}

TEST(SizePanel, FitsItsWidthAtBothScalesAndByBothLights) {
    for (const float scale : {1.0F, 2.0F})
        for (const Daylight light : {Daylight::light, Daylight::dark})
            for (const std::string& scene : {std::string(), scene_text("misfit_mooring.toml"),
                                             scene_text("slipway_gearbox.toml"), scene_text("two_crew_hoist.toml")}) {
                NullWindow window(scene, draw_size_panel, light, scale);
                window.session.view.panels.gear_open = GearIndex{1};
                window.frame();
                for (const Said& said : window.screen.said)
                    EXPECT_LE(said.box_px[2], 420 * scale) << said.name << " = " << said.value;
            }
}

}  // namespace
}  // namespace couplet
