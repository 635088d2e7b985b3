#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

class PlaceVerb : public CoupletRun {
  protected:
    static std::string scene(const std::string& name) {
        return "'" + (std::filesystem::path(COUPLET_ROOT) / "scenes" / (name + ".toml")).string() + "'";
    }
};

TEST_F(PlaceVerb, PrintsEveryFormat) {
    const Result text = run("place");
    EXPECT_EQ(text.status, 0);
    EXPECT_EQ(text.out.rfind("Harbour capstan\n", 0), 0U);
    EXPECT_EQ(run("place --format md").out.rfind("# Harbour capstan\n", 0), 0U);
    EXPECT_EQ(run("place --format csv").out.rfind("gear,copy,", 0), 0U);
    const Json sheet = json("place");
    EXPECT_EQ(sheet.at("outcome"), "assembles");
    EXPECT_EQ(sheet.at("setting"), "hauling");
    EXPECT_EQ(sheet.at("gears").at(1).at("gear"), "planet/outer");
}

TEST_F(PlaceVerb, TakesItsOptions) {
    EXPECT_EQ(json("place --drawn gap").at("drawn"), "gap");
    EXPECT_EQ(json("place --first 2.5").at("gears").at(0).at("starting_rotation_deg").at("exact"), "5/2");
    EXPECT_EQ(json("place --setting lowering").at("setting"), "lowering");
    EXPECT_EQ(json("place --timed").at("copies"), "timed each");
    EXPECT_TRUE(json("place --match-shifts").at("matched_shifts").empty());
}

TEST_F(PlaceVerb, RefusesWhatMakesNoSense) {
    expect_refused("place --drawn flank",
                   "couplet: --drawn takes 'tooth' or 'gap', what a gear has on +X as drawn, not 'flank'");
    expect_refused("place --first x", "couplet: --first 'x' is not a number; write it like 7.5 or -30 (degrees)");
    EXPECT_EQ(run("place --setting nowhere").status, 2);
    write("bare.toml", kSet);
    EXPECT_EQ(run("place bare.toml").status, 2);
    EXPECT_EQ(run("place bare.toml").err.rfind("bare.toml: ", 0), 0U);
}

TEST_F(PlaceVerb, NeedsNoSetting) {
    write("set.toml", std::string(kSet) + "[teeth]\nmodule = 2\nbacklash = 0.08\n");
    const Json sheet = json("place set.toml");
    EXPECT_TRUE(sheet.at("setting").is_null());
    EXPECT_TRUE(sheet.at("meshes").at(0).at("at_driver_turns").is_null());
    EXPECT_EQ(run("place set.toml").status, 0);
}

// misfit_mooring.toml says of itself that it cannot be assembled.
TEST_F(PlaceVerb, FindsEveryOtherShippedSceneSound) {
    for (const auto& entry : std::filesystem::directory_iterator(std::string(COUPLET_ROOT) + "/scenes")) {
        const bool misfit = entry.path().stem() == "misfit_mooring";
        const Result result = run("place '" + entry.path().string() + "'");
        EXPECT_EQ(result.status, misfit ? 1 : 0) << entry.path() << '\n' << result.err;
    }
    const Json sheet = json("place " + scene("misfit_mooring"));
    EXPECT_EQ(sheet.at("outcome"), "does not assemble");
    EXPECT_FALSE(sheet.at("misplaced").empty());
}

TEST_F(PlaceVerb, GivesEachSteppedPlanetItsMark) {
    const std::string text = run("place " + scene("dry_dock_pump")).out;
    EXPECT_NE(text.find("Timing marks"), std::string::npos);
    const Json sheet = json("place " + scene("dry_dock_pump"));
    EXPECT_EQ(sheet.at("conditions").at(0).at("arithmetic"), "(25 * 16 + 76 * 35) / (3 * 1) = 1020");
}

}  // namespace
}  // namespace couplet
