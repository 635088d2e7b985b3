#include <gtest/gtest.h>

#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "scene/scene.hpp"

namespace couplet {
namespace {

std::string scene_text(const std::string& name) {
    return load_scene_text(std::string(COUPLET_ROOT) + "/scenes/" + name);
}

TEST(PlacePanel, ShowsWhereAxesStandAndCopiesIt) {
    NullWindow window("", draw_place_panel);
    // The default scene: the planets stand 3 (21 + 24) / 2 = 67.5 mm from the middle, 120 degrees apart.
    EXPECT_EQ(window.said("x of planet 1").value, "67.500");
    EXPECT_EQ(window.said("x of planet 2").value, "-33.750");
    EXPECT_EQ(window.said("y of planet 2").value, "58.457");
    window.click("copy y of planet 2");
    EXPECT_EQ(window.session.clipboard, "58.457");
    window.click("centres: on what it rides on");
    EXPECT_EQ(window.said("x of planet 1").value, "67.500");
}

TEST(PlacePanel, ShowsStartingRotationsExactly) {
    const NullWindow window("", draw_place_panel);
    EXPECT_EQ(window.said("crank: turn").value, "0");
    // Half a pitch of 24 teeth, for a tooth of the crank points at the planet.
    EXPECT_EQ(window.said("planet 1: turn").value, "7.5");
    // A copy of a planet goes round by 120 degrees; what it lacks then, whole teeth of 15 degrees left out, is nothing.
    EXPECT_EQ(window.said("planet 2: round centre").value, "120");
    EXPECT_EQ(window.said("planet 2: then itself").value, "0");
}

TEST(PlacePanel, TellsAssemblyAndItsArithmetic) {
    const NullWindow window("", draw_place_panel);
    EXPECT_EQ(window.said("assembly").value, "holds: assembles");
    EXPECT_NE(window.said("condition 1").value.find("(21 + 69) / 3 = 30"), std::string::npos);
}

TEST(PlacePanel, MovesMisplacedCopiesToWhereTheyFit) {
    // (22 + 62) / 5 is not whole: four of the five planets miss.
    NullWindow window(scene_text("misfit_mooring.toml"), draw_place_panel);
    EXPECT_EQ(window.said("assembly").value, "fails: does not assemble");
    EXPECT_EQ(window.session.study->places().part->assembly.misplaced.size(), 4U);
    window.click("move every copy to its nearest place");
    const std::vector<Ratio>& at = window.session.train().members[2].at_deg;
    ASSERT_EQ(at.size(), 5U);
    // 72 is nearest to 17 x 360/84 = 72.857142857143 degrees; 144 to 34 x 360/84 = 145.714285714286, 33 x 360/84 =
    // 141.43 being further off.
    EXPECT_EQ(at[1], Ratio::whole_from_digits("72857142857143") / Ratio(1000000000000));
    EXPECT_EQ(at[2], Ratio::whole_from_digits("145714285714286") / Ratio(1000000000000));
    EXPECT_EQ(window.said("assembly").value, "holds: assembles");
    EXPECT_EQ(window.said("proof of mesh").value.substr(0, 5), "holds");
    // Such a train can be written, and reads as the same.
    EXPECT_EQ(read_scene(write_scene(window.session.train()), "written"), window.session.train());
}

TEST(PlacePanel, MovesOneCopyEitherWay) {
    NullWindow window(scene_text("misfit_mooring.toml"), draw_place_panel);
    window.click("to 68.5714 deg planet 2");  // 16 x 360/84
    EXPECT_EQ(window.session.train().members[2].at_deg[1],
              Ratio::whole_from_digits("68571428571429") / Ratio(1000000000000));
    EXPECT_EQ(window.session.study->places().part->assembly.misplaced.size(), 3U);
}

TEST(PlacePanel, ProvesEachMeshAndShowsOneOnTheStage) {
    NullWindow window("", draw_place_panel);
    // Half of the normal backlash: 0.1 cos 20 deg / 2 = 0.04698.
    EXPECT_EQ(window.said("crank with planet 1: expected").value, "0.0470");
    EXPECT_EQ(window.said("crank with planet 1: gap").value, "0.0470");
    window.click("show crank with planet 2");
    EXPECT_EQ(window.session.view.mesh_shown, std::optional<std::size_t>(1));
    EXPECT_EQ(window.said("show crank with planet 2").value, "on");
    window.click("show crank with planet 2");
    EXPECT_FALSE(window.session.view.mesh_shown);
}

TEST(PlacePanel, LightsTheMemberUnderTheCursor) {
    NullWindow window("", draw_place_panel);
    window.hover("planet 3");
    EXPECT_EQ(window.session.view.pointed, std::optional(MemberIndex{2}));
}

TEST(PlacePanel, FitsItsWidthAtBothScalesAndByBothLights) {
    for (const float scale : {1.0F, 2.0F})
        for (const Daylight light : {Daylight::light, Daylight::dark})
            for (const std::string& scene : {std::string(), scene_text("misfit_mooring.toml"),
                                             scene_text("slipway_gearbox.toml"), scene_text("two_crew_hoist.toml")}) {
                const NullWindow window(scene, draw_place_panel, light, scale);
                for (const Said& said : window.screen.said)
                    EXPECT_LE(said.box_px[2], 420 * scale) << said.name << " = " << said.value;
            }
}

}  // namespace
}  // namespace couplet
