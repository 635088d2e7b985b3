#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

class CheckVerb : public CoupletRun {
  protected:
    CheckVerb() { write("set.toml", sound_set()); }

    // `more` is written behind a simple set that is sized; the ring is held, the sun drives.
    static std::string sound_set(const SimpleSetCounts& counts = {}, const std::string& more = "") {
        return simple_set_text(counts) +
               "[teeth]\nmodule = 2.0\nbacklash = 0.08\n"
               "[[setting]]\nname = \"low\"\nhold = [\"ring\"]\ndrive = { sun = 30.0 }\n" +
               more;
    }
    static std::string coupling(const std::string& second, const std::string& typed) {
        return "[[coupling]]\njoints = [\"sun on frame\", \"" + second + "\"]\ntyped = " + typed + "\n";
    }
    // Of the first row with that rule.
    [[nodiscard]] std::string verdict_of(const std::string& arguments, const std::string& rule) const {
        const Json sheet = json(arguments);
        for (const Json& row : sheet.at("rows"))
            if (row.at("rule") == rule) return row.at("verdict");
        return "no such rule";
    }
    // Exit status 1 and a failing row of that rule.
    void expect_fails(const std::string& text, const std::string& rule) const {
        write("wrong.toml", text);
        EXPECT_EQ(run("check wrong.toml").status, 1) << rule;
        bool fails = false;
        const Json sheet = json("check wrong.toml");
        for (const Json& row : sheet.at("rows"))
            fails = fails || (row.at("rule") == rule && row.at("verdict") == "fails");
        EXPECT_TRUE(fails) << rule;
        EXPECT_EQ(sheet.at("outcome"), "fails") << rule;
    }
};

TEST_F(CheckVerb, PrintsEveryFormat) {
    EXPECT_EQ(run("check set.toml").status, 0);
    EXPECT_EQ(run("check set.toml").out.rfind("Test set\n========\n\n", 0), 0U);
    EXPECT_EQ(run("check set.toml --format md").out.rfind("# Test set\n", 0), 0U);
    EXPECT_EQ(run("check set.toml --format csv").out.rfind("step,rule,where,figure,limit,unit,verdict,", 0), 0U);
    EXPECT_EQ(json("check set.toml").at("outcome"), "holds");
    EXPECT_EQ(run("check").out.rfind("Harbour capstan\n", 0), 0U);
    EXPECT_EQ(run("check set.toml -o rules.txt").out, "");
    EXPECT_EQ(read("rules.txt"), run("check set.toml").out);
}

TEST_F(CheckVerb, ExitsWithOneForEveryKindOfFailure) {
    expect_fails(sound_set({9, 30, 69, 3}), "undercut");
    expect_fails(sound_set({21, 24, 69, 4}), "assembly condition");
    expect_fails(sound_set({20, 40, 100, 5}), "neighbour clearance");
    expect_fails(sound_set({21, 24, 71, 3}), "centre distances agree");
    expect_fails(
        sound_set({}, "[[setting]]\nname = \"stuck\"\nhold = [\"ring\", \"carrier\"]\ndrive = { sun = 1.0 }\n"),
        "drivers as many as the freedom");
    expect_fails(sound_set({}, coupling("planet on carrier", "[360.0, -315.0]")), "typed coupling");
    expect_fails(sound_set({}, "[[coupling]]\njoints = [\"ring on frame\", \"sun on frame\"]\n"), "coupling exists");
    expect_fails(kSet, "module given");
}

TEST_F(CheckVerb, ExitsWithZeroForCautions) {
    // 100 : 23.33 for 7/30.
    write("rounded.toml", sound_set({}, coupling("carrier on frame", "[100.0, 23.33]")));
    EXPECT_EQ(run("check rounded.toml").status, 0);
    EXPECT_EQ(verdict_of("check rounded.toml", "typed coupling"), "caution");
    std::string unequal = sound_set();
    unequal.replace(unequal.find("copies = 3"), 10, "at = [0.0, 92.0, 240.0]");
    write("unequal.toml", unequal);
    EXPECT_EQ(run("check unequal.toml").status, 0);
    EXPECT_EQ(verdict_of("check unequal.toml", "balance of the copies"), "caution");
    EXPECT_EQ(verdict_of("check unequal.toml", "teeth meet gaps all round"), "holds");
}

TEST_F(CheckVerb, TakesItsOptions) {
    write("apart.toml", sound_set({21, 24, 71, 3}));
    EXPECT_EQ(verdict_of("check apart.toml --match-shifts", "centre distances agree"), "holds");
    EXPECT_EQ(json("check set.toml --rack D").at("outcome"), "holds");
    write("stuck.toml", sound_set({},
                                  "[[setting]]\nname = \"stuck\"\nhold = [\"ring\", \"carrier\"]\n"
                                  "drive = { sun = 1.0 }\n"));
    EXPECT_EQ(run("check stuck.toml").status, 1);
    EXPECT_EQ(run("check stuck.toml --setting low").status, 0);
    EXPECT_EQ(json("check stuck.toml --setting stuck").at("settings"), Json::parse(R"(["stuck"])"));
}

// S 21, P 24/22, R 67 assembles with 3 and 5 alike copies, not with 2 (condition of compound planets, from memory).
TEST_F(CheckVerb, LetsCopiesBeTimed) {
    std::string stepped = sound_set({21, 24, 67, 2});
    stepped.replace(stepped.find("teeth = 24\n"), 11,
                    "name = \"large\"\nteeth = 24\n[[member.gear]]\nname = \"small\"\nteeth = 22\n");
    stepped.replace(stepped.find("\"sun\", \"planet\""), 15, "\"sun\", \"planet/large\"");
    stepped.replace(stepped.find("\"planet\", \"ring\""), 16, "\"planet/small\", \"ring\"");
    write("stepped.toml", stepped);
    EXPECT_EQ(verdict_of("check stepped.toml", "assembly condition"), "fails");
    EXPECT_EQ(verdict_of("check stepped.toml --timed", "assembly condition"), "caution");
}

TEST_F(CheckVerb, RefusesWhatMakesNoSense) {
    expect_refused("check set.toml --format html",
                   "couplet: unknown format 'html'; the formats are 'text', 'json', 'csv' and 'md'");
    expect_refused("check set.toml --rack E", "couplet: --rack takes A, B, C or D, the basic racks of ISO 53, not 'E'");
    EXPECT_EQ(run("check set.toml --setting nowhere").status, 2);
    write("broken.toml", "couplet = 1\n[[member]]\nname = \"a\"\n[[member.gear]]\nteeth = 2\n");
    const Result broken = run("check broken.toml -o rules.txt");
    EXPECT_EQ(broken.status, 2);
    EXPECT_EQ(broken.err.rfind("broken.toml:5: ", 0), 0U) << broken.err;
    EXPECT_EQ(files(), 2U);
}

// The notes of three scenes say what is wrong with them, on purpose.
TEST_F(CheckVerb, FindsEveryOtherShippedSceneSound) {
    std::size_t seen = 0;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(COUPLET_ROOT) + "/scenes")) {
        const std::string name = entry.path().stem().string();
        const bool wrong = name == "misfit_mooring" || name == "stuck_sluice" || name == "dredger_notebook";
        const Result result = run("check '" + entry.path().string() + "'");
        EXPECT_EQ(result.status, wrong ? 1 : 0) << name << '\n' << result.out << result.err;
        ++seen;
    }
    EXPECT_GE(seen, 15U);
}

}  // namespace
}  // namespace couplet
