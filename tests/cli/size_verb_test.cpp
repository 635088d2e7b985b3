#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

constexpr const char* kTeeth = "couplet = 1\ntitle = \"Test set\"\n[teeth]\nmodule = 2.0\nbacklash = 0.08\n";

std::string with_teeth(const std::string& set) {
    return kTeeth + set.substr(set.find("[[member]]"));
}

class SizeVerb : public CoupletRun {
  protected:
    SizeVerb() { write("set.toml", with_teeth(kSet)); }
};

TEST_F(SizeVerb, PrintsEveryFormat) {
    EXPECT_EQ(run("size set.toml").out.rfind("Test set\n========\n", 0), 0U);
    EXPECT_EQ(run("size set.toml --format md").out.rfind("# Test set\n", 0), 0U);
    EXPECT_EQ(run("size set.toml --format csv").out.rfind("what,name,quantity,value,unit\r\n", 0), 0U);
    EXPECT_EQ(json("size set.toml").at("gears").size(), 3U);
    EXPECT_EQ(run("size set.toml").status, 0);
    EXPECT_EQ(run("size").out.rfind("Harbour capstan\n", 0), 0U);
}

TEST_F(SizeVerb, WritesToAFile) {
    EXPECT_EQ(run("size set.toml -o sizes.txt").out, "");
    EXPECT_EQ(read("sizes.txt"), run("size set.toml").out);
}

TEST_F(SizeVerb, ExitsWithOneWhereARuleFails) {
    std::string set = with_teeth(kSet);
    set.replace(set.find("teeth = 69"), 10, "teeth = 71");
    write("apart.toml", set);
    EXPECT_EQ(run("size apart.toml").status, 1);
    EXPECT_NE(run("size apart.toml").out.find("FAILS: centre distances agree"), std::string::npos);
    EXPECT_EQ(json("size apart.toml").at("outcome"), "fails");
    const Json matched = json("size apart.toml --match-shifts");
    EXPECT_EQ(matched.at("matched_shifts").at(0).at("gear"), "ring");
    EXPECT_EQ(matched.at("meshes").at(0).at("centre_distance_mm"), 45.0);
    EXPECT_NEAR(matched.at("meshes").at(1).at("centre_distance_mm"), 45.0, 1e-4);
}

TEST_F(SizeVerb, TakesABasicRackByName) {
    // ISO 53:1998, profile D: dedendum 1.40 (from memory); A: 1.25.
    const auto root = [&](const std::string& rack) {
        return json("size set.toml" + rack).at("gears").at(0).at("root_diameter_mm").get<double>();
    };
    const double module_mm = json("size set.toml").at("gears").at(0).at("module_mm").get<double>();
    EXPECT_NEAR(root(" --rack A") - root(" --rack D"), 2 * 0.15 * module_mm, 1e-9);
    expect_refused("size set.toml --rack E", "couplet: --rack takes A, B, C or D, the basic racks of ISO 53, not 'E'");
}

TEST_F(SizeVerb, RefusesTeethThatSayTooLittle) {
    write("bare.toml", kSet);
    expect_refused(
        "size bare.toml",
        "bare.toml: gear 'sun' has no size; give 'module' (mm) or 'diametral_pitch' (per inch) in [teeth] or "
        "on the gear");
    EXPECT_EQ(run("size bare.toml --drawing picture.svg").status, 2);
    EXPECT_EQ(files(), 2U);
    expect_refused(
        "size set.toml --setting low",
        "couplet: unknown setting 'low'; add a [[setting]] to it, or say what is held and driven with --hold "
        "and --drive");
    expect_refused("size set.toml --settings all", "couplet: unknown option '--settings'; did you mean '--setting'?");
}

TEST_F(SizeVerb, DrawsOnPaper) {
    EXPECT_EQ(run("size set.toml --drawing picture.svg").status, 0);
    EXPECT_EQ(read("picture.svg").rfind("<?xml", 0), 0U);
    expect_refused("size set.toml --drawing same -o same",
                   "couplet: -o and --drawing name the same file; give each a file of its own");
    EXPECT_EQ(run("size set.toml --drawing set.toml").status, 2);
    EXPECT_EQ(read("set.toml"), with_teeth(kSet));
}

// Scenes are there to be built: only what a scene says of itself may fail.
TEST_F(SizeVerb, FindsEveryShippedSceneSound) {
    std::size_t seen = 0;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(COUPLET_ROOT) + "/scenes")) {
        const Result result = run("size '" + entry.path().string() + "'");
        EXPECT_EQ(result.status, 0) << entry.path() << '\n' << result.err;
        ++seen;
    }
    EXPECT_GE(seen, 15U);
}

}  // namespace
}  // namespace couplet
