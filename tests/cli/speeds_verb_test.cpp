#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

// Ratios are derived from Willis's formula: ring held 1 + 69/21, sun held 1 + 21/69, carrier held -69/21.
class SpeedsVerb : public CoupletRun {
  protected:
    SpeedsVerb() { write("set.toml", std::string(kSet) + kSettings); }

    static std::string ratio(const Json& sheet, const std::string& held, const std::string& driver,
                             const std::string& output) {
        for (const Json& row : sheet.at("rows"))
            if (row.at("held") == Json::array({held}) && row.at("driver") == driver && row.at("output") == output)
                return row.at("driver_per_output").at("exact");
        return "no row";
    }
};

TEST_F(SpeedsVerb, ListsEveryChoiceThatMoves) {
    const Json sheet = json("speeds set.toml");
    EXPECT_EQ(sheet.at("couplet"), 1);
    EXPECT_EQ(sheet.at("scene"), "Test set");
    EXPECT_EQ(sheet.at("outcome"), "moves");
    EXPECT_EQ(sheet.at("rows").size(), 6U);
    EXPECT_EQ(ratio(sheet, "ring", "sun", "carrier"), "30/7");
    EXPECT_EQ(ratio(sheet, "ring", "carrier", "sun"), "7/30");
    EXPECT_EQ(ratio(sheet, "sun", "ring", "carrier"), "30/23");
    EXPECT_EQ(ratio(sheet, "carrier", "sun", "ring"), "-23/7");
}

TEST_F(SpeedsVerb, ChoosesAmongTheMembersNamed) {
    const Json sheet = json("speeds set.toml --members sun,carrier,ring");
    EXPECT_EQ(sheet.at("rows"), json("speeds --members sun --members ring,carrier set.toml").at("rows"));
    EXPECT_EQ(sheet.at("rows").size(), 6U);
}

TEST_F(SpeedsVerb, TakesTheTiesOfASetting) {
    write("tied.toml", std::string(kSet) +
                           "[[setting]]\nname = \"one\"\ntie = [[\"sun\", \"ring\"]]\n"
                           "drive = { sun = 1 }\n");
    const Json sheet = json("speeds tied.toml --setting one");
    EXPECT_EQ(sheet.at("tied"), Json::parse(R"([["sun", "ring"]])"));
    ASSERT_FALSE(sheet.at("rows").empty());
    for (const Json& row : sheet.at("rows")) EXPECT_EQ(row.at("driver_per_output").at("exact"), "1");
}

TEST_F(SpeedsVerb, PrintsARowForEverySetting) {
    const Json sheet = json("speeds set.toml --settings all");
    EXPECT_EQ(sheet.at("output"), "carrier");
    ASSERT_EQ(sheet.at("settings").size(), 2U);
    EXPECT_EQ(sheet.at("settings").at(0).at("driver_per_output").at("exact"), "30/7");
    EXPECT_EQ(sheet.at("settings").at(1).at("driver_per_output").at("exact"), "30/23");
    EXPECT_EQ(sheet.at("settings").at(0).at("step_to_next").at("exact"), "23/7");
    EXPECT_TRUE(sheet.at("settings").at(1).at("step_to_next").is_null());
    EXPECT_EQ(run("speeds set.toml --settings all --out carrier").status, 0);
}

TEST_F(SpeedsVerb, ExitsWithOneWhereASettingIsLocked) {
    write("locked.toml", std::string(kSet) + kSettings +
                             "[[setting]]\nname = \"stuck\"\nhold = [\"ring\", \"carrier\"]\ndrive = { sun = 1 }\n");
    EXPECT_EQ(run("speeds locked.toml --settings all --out carrier").status, 1);
}

TEST_F(SpeedsVerb, RefusesWhatItCannotAnswer) {
    write("bare.toml", kSet);
    expect_refused("speeds bare.toml --settings all",
                   "couplet: bare.toml has no setting; add a [[setting]] for each speed");
    expect_refused("speeds set.toml --settings low",
                   "couplet: --settings takes 'all', not 'low'; --setting takes the name of one setting");
    expect_refused("speeds set.toml --members sun",
                   "couplet: --members names one member; a driver and an output make two");
    expect_refused("speeds set.toml --members sun,rng", "couplet: unknown member 'rng'; did you mean 'ring'?");
    expect_refused("speeds set.toml --members sun,frame", "couplet: the frame never turns; name a member of the train");
    expect_refused("speeds set.toml --out carrier", "couplet: --out needs --settings all");
    expect_refused("couple set.toml --out carrier", "couplet: --out needs --settings all");
    write("three.toml", std::string(kSet) + kSettings +
                            "[[setting]]\nname = \"third\"\nhold = [\"carrier\"]\n"
                            "drive = { sun = 1 }\n");
    expect_refused("speeds three.toml --settings all",
                   "couplet: no single member is the output of every setting; name one with --out NAME");
}

}  // namespace
}  // namespace couplet
