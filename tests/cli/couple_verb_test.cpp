#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

// -161/240, 360 : -241.5, 240 : -161 and 7/30 are read from the design's section 5; the rest is derived from Willis's
// formula with the same tooth counts.
class CoupleVerb : public CoupletRun {
  protected:
    CoupleVerb() { write("set.toml", std::string(kSet) + kSettings); }

    static const Json& coupling_to(const Json& sheet, const std::string& second) {
        for (const Json& coupling : sheet.at("couplings"))
            if (coupling.at("second") == second) return coupling;
        throw std::out_of_range("no coupling to " + second);
    }
};

TEST_F(CoupleVerb, PrintsTheExactCouplingOfTheFirstSetting) {
    const Json sheet = json("couple set.toml");
    EXPECT_EQ(sheet.at("setting"), "low");
    EXPECT_EQ(sheet.at("driver"), "sun");
    const Json& coupling = coupling_to(sheet, "planet on carrier");
    EXPECT_EQ(coupling.at("first"), "sun on frame");
    EXPECT_EQ(coupling.at("second_per_first").at("exact"), "-161/240");
    EXPECT_EQ(coupling.at("degrees"), Json::parse(R"(["360", "-241.5"])"));
    EXPECT_EQ(coupling.at("whole_degrees"), Json::parse("[240, -161]"));
    EXPECT_EQ(coupling.at("opposite"), true);
    EXPECT_EQ(coupling_to(sheet, "carrier on frame").at("second_per_first").at("exact"), "7/30");
}

TEST_F(CoupleVerb, ChoosesASettingByName) {
    const Json sheet = json("couple set.toml --setting high");
    EXPECT_EQ(sheet.at("setting"), "high");
    EXPECT_EQ(coupling_to(sheet, "carrier on frame").at("second_per_first").at("exact"), "23/30");
}

TEST_F(CoupleVerb, TakesASettingFromTheCommandLine) {
    const Json sheet = json("couple set.toml --hold carrier --drive sun=-2.5");
    EXPECT_TRUE(sheet.at("setting").is_null());
    EXPECT_EQ(sheet.at("held"), Json::parse(R"(["carrier"])"));
    EXPECT_EQ(sheet.at("drivers").at(0).at("rpm"), -2.5);
    EXPECT_EQ(coupling_to(sheet, "planet on carrier").at("second_per_first").at("exact"), "-7/8");
    EXPECT_TRUE(coupling_to(sheet, "planet on carrier").at("carrier_correction").is_null());
}

// Repeatable options once took every argument behind them, the scene included.
TEST_F(CoupleVerb, TakesTheSceneBehindRepeatableOptions) {
    EXPECT_EQ(run("couple --hold ring --drive sun set.toml").out, run("couple set.toml --hold ring --drive sun").out);
    EXPECT_EQ(run("couple --drive sun --tie sun=ring set.toml").status, 0);
}

TEST_F(CoupleVerb, TiesMembersFromTheCommandLine) {
    const Json sheet = json("couple set.toml --tie sun=ring --drive sun");
    EXPECT_EQ(sheet.at("tied"), Json::parse(R"([["sun", "ring"]])"));
    EXPECT_EQ(sheet.at("drivers").at(0).at("rpm"), 1.0);
    EXPECT_EQ(coupling_to(sheet, "carrier on frame").at("second_per_first").at("exact"), "1");
}

TEST_F(CoupleVerb, TellsTwoDriversApart) {
    const Json sheet = json("couple set.toml --drive sun=3 --drive ring=1");
    EXPECT_EQ(sheet.at("freedom"), 2);
    EXPECT_EQ(sheet.at("members").at(1).at("combination").at("sun").at("exact"), "7/30");
    EXPECT_EQ(sheet.at("members").at(1).at("combination").at("ring").at("exact"), "23/30");
    EXPECT_TRUE(coupling_to(sheet, "ring on frame").at("second_per_first").is_null());
    EXPECT_EQ(coupling_to(sheet, "ring on frame").at("obstacle"), "independent");
}

TEST_F(CoupleVerb, MeansTheDecimalThatIsWritten) {
    const Json coupling = coupling_to(json("couple set.toml --first 0.1"), "planet on carrier");
    EXPECT_EQ(coupling.at("degrees"), Json::parse(R"(["0.1", "-161/2400"])"));
    EXPECT_EQ(coupling_to(json("couple set.toml --first -720"), "planet on carrier").at("degrees"),
              Json::parse(R"(["-720", "483"])"));
}

TEST_F(CoupleVerb, FitsThePairIntoTheFields) {
    const Json exact = coupling_to(json("couple set.toml --decimals 0"), "planet on carrier").at("to_type");
    EXPECT_EQ(exact.at("exact"), true);
    const Json rounded = coupling_to(json("couple set.toml --decimals 0 --cap 200 --first 100"), "planet on carrier");
    EXPECT_EQ(rounded.at("to_type").at("exact"), false);
    EXPECT_NE(rounded.at("to_type").at("drift_deg_per_1000_turns").at("exact"), "0");
}

TEST_F(CoupleVerb, CouplesFromAnotherJoint) {
    const Json sheet = json("couple set.toml --from 'carrier on frame'");
    EXPECT_EQ(sheet.at("couplings").at(0).at("first"), "carrier on frame");
    EXPECT_EQ(coupling_to(sheet, "sun on frame").at("second_per_first").at("exact"), "30/7");
    EXPECT_EQ(json("couple set.toml --from 'planet on frame'").at("couplings").at(0).at("first"), "planet on frame");
}

TEST_F(CoupleVerb, ExitsWithOneWhereTheAuditFindsAWrongCoupling) {
    const std::string coupling = "[[coupling]]\njoints = [\"sun on frame\", \"planet on carrier\"]\ntyped = ";
    write("wrong.toml", std::string(kSet) + kSettings + coupling + "[360.0, -315.0]\n");
    write("right.toml", std::string(kSet) + kSettings + coupling + "[480, -322]\n");
    write("rounded.toml", std::string(kSet) + kSettings + coupling + "[100, -67.08]\n");
    EXPECT_EQ(run("couple wrong.toml").status, 1);
    EXPECT_EQ(run("couple right.toml").status, 0);
    EXPECT_EQ(run("couple rounded.toml").status, 1);
    const Json audit = json("couple wrong.toml").at("couplings").at(0).at("audit");
    EXPECT_EQ(audit.at("verdict"), "wrong");
    EXPECT_EQ(audit.at("mistake"), "bare_tooth_ratio");
    EXPECT_EQ(audit.at("off_deg_per_turn").at("exact"), "-147/2");
    EXPECT_EQ(json("couple rounded.toml").at("couplings").at(0).at("audit").at("verdict"), "rounded");
    EXPECT_NE(run("couple wrong.toml").out.find("WRONG by 73.5 deg per turn"), std::string::npos);
}

TEST_F(CoupleVerb, ExitsByTheOutcome) {
    EXPECT_EQ(run("couple set.toml --drive sun").status, 0);  // free
    EXPECT_EQ(run("couple set.toml --hold ring --hold carrier --drive sun").status, 1);
    EXPECT_EQ(run("couple set.toml --hold ring --drive sun=30 --drive carrier=10").status, 1);
    EXPECT_EQ(json("couple set.toml --drive sun").at("outcome"), "free");
    EXPECT_EQ(json("couple set.toml --hold ring --hold carrier --drive sun").at("outcome"), "locked");
    const Json conflicting = json("couple set.toml --hold ring --drive sun=30 --drive carrier=10");
    EXPECT_EQ(conflicting.at("outcome"), "conflicting");
    // 30 x 7/30 = 7 rpm would agree.
    const std::string advice = conflicting.at("explanation").at("advice").at(1);
    EXPECT_NE(advice.find("carrier has to turn at 7 rpm but is driven at 10 rpm"), std::string::npos) << advice;
}

TEST_F(CoupleVerb, NamesWhatIsMisspelt) {
    expect_refused("couple set.toml --setting lo", "couplet: unknown setting 'lo'; did you mean 'low'?");
    expect_refused("couple set.toml --setting reverse",
                   "couplet: unknown setting 'reverse'; the settings are 'low' and 'high'");
    expect_refused("couple set.toml --hold rng", "couplet: unknown member 'rng'; did you mean 'ring'?");
    expect_refused("couple set.toml --from 'planet on carier'",
                   "couplet: unknown joint 'planet on carier'; did you mean 'planet on carrier'?");
    expect_refused("couple set.toml --format yaml",
                   "couplet: unknown format 'yaml'; the formats are 'text', 'json', 'csv' and 'md'");
    expect_refused("couple set.toml --format jsn", "couplet: unknown format 'jsn'; did you mean 'json'?");
}

TEST_F(CoupleVerb, RefusesNumbersThatCannotBeTyped) {
    expect_refused("couple set.toml --first abc",
                   "couplet: --first 'abc' is not a number; write it like 360 or 45.5 (degrees)");
    expect_refused("couple set.toml --first 0", "couplet: --first 0 turns nothing; give an angle other than 0");
    expect_refused("couple set.toml --first nan",
                   "couplet: --first 'nan' is not a number; write it like 360 or 45.5 (degrees)");
    expect_refused("couple set.toml --decimals 13",
                   "couplet: --decimals '13' is out of range; a field accepts 0 to 12 decimals");
    expect_refused("couple set.toml --decimals 1.5",
                   "couplet: --decimals '1.5' is out of range; a field accepts 0 to 12 decimals");
    expect_refused("couple set.toml --cap 0",
                   "couplet: --cap '0' is out of range; it goes from 1 to 1000000000000 degrees");
    expect_refused("couple set.toml --first 720 --cap 700",
                   "couplet: --first 720 is beyond the largest angle, --cap 700; raise --cap or lower --first");
}

TEST_F(CoupleVerb, RefusesSettingsThatAreNone) {
    expect_refused("couple set.toml --setting low --hold sun",
                   "couplet: --setting and --hold, --tie or --drive exclude each other; give one or the other");
    write("bare.toml", kSet);
    expect_refused("couple bare.toml",
                   "couplet: bare.toml has no setting; add a [[setting]] to it, or say what is held and driven with "
                   "--hold and --drive");
    EXPECT_EQ(run("couple bare.toml --hold ring --drive sun").status, 0);
}

TEST_F(CoupleVerb, NamesTheLineOfABrokenScene) {
    write("broken.toml", "couplet = 1\n[[member]]\nname = \"sun\"\nteeth = 21\n");
    const Result result = run("couple broken.toml");
    EXPECT_EQ(result.status, 2);
    EXPECT_EQ(result.out, "");
    EXPECT_EQ(result.err.rfind("broken.toml:4: ", 0), 0U) << result.err;
    EXPECT_EQ(run("couple missing.toml").status, 2);
}

TEST_F(CoupleVerb, PrintsAllSettingsAsSpeedsDoes) {
    EXPECT_EQ(run("couple set.toml --settings all").out, run("speeds set.toml --settings all").out);
}

TEST_F(CoupleVerb, CallsAnUntitledSceneByItsFile) {
    std::string untitled = std::string(kSet) + kSettings;
    untitled.erase(untitled.find("title"), untitled.find("[[member]]") - untitled.find("title"));
    write("untitled set.toml", untitled);
    EXPECT_EQ(json("couple 'untitled set.toml'").at("scene"), "untitled set");
}

}  // namespace
}  // namespace couplet
