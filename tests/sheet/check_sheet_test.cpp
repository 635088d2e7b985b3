#include "sheet/check_sheet.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "place/placed_train.hpp"
#include "sheet/json_values.hpp"
#include "support/shipped_scenes.hpp"

namespace couplet {
namespace {

// The design's example: module 3, backlash 0.1; the ring held, the crank's place taken by the sun.
Train capstan() {
    Train train = simple_set(21, 24, 69, 3);
    train.title = "Capstan";
    train.teeth.module_mm = Ratio(3);
    train.teeth.backlash = Ratio(1, 10);
    train.settings = {setting_from(train, "hold ring; drive sun 30")};
    train.settings[0].name = "hauling";
    return train;
}

std::vector<Finding> found(const TrainChecks& checks, const std::string& rule) {
    std::vector<Finding> findings;
    for (const CheckedRule& checked : checks.rules)
        if (checked.finding.rule == rule) findings.push_back(checked.finding);
    return findings;
}

// The rules that fail, each named once.
std::set<std::string> failing(const TrainChecks& checks) {
    std::set<std::string> rules;
    for (const CheckedRule& checked : checks.rules)
        if (checked.finding.verdict == Verdict::fails) rules.insert(checked.finding.rule);
    return rules;
}

using Rules = std::set<std::string>;

TEST(CheckTrain, FindsNothingWrongWithASoundTrain) {
    const TrainChecks checks = check_train(capstan(), {});
    EXPECT_TRUE(passes(checks));
    EXPECT_EQ(failing(checks), Rules{});
    std::set<CheckStep> steps;
    for (const CheckedRule& checked : checks.rules) {
        steps.insert(checked.step);
        EXPECT_FALSE(checked.finding.source.empty()) << checked.finding.rule;
        EXPECT_EQ(checked.finding.mend.empty(), checked.finding.verdict == Verdict::holds) << checked.finding.rule;
    }
    EXPECT_EQ(steps.size(), 4U);
    for (const char* rule :
         {"undercut", "tip clearance", "assembly condition", "neighbour clearance", "teeth meet gaps all round",
          "proof of mesh", "drivers as many as the freedom", "hunting tooth", "balance of the copies"})
        EXPECT_FALSE(found(checks, rule).empty()) << rule;
}

TEST(CheckTrain, TellsNothingTwice) {
    for (const std::string& name : shipped_names()) {
        std::set<std::pair<std::string, std::string>> told;
        for (const CheckedRule& checked : check_train(shipped_train(name), {}).rules)
            EXPECT_TRUE(told.emplace(checked.finding.rule, checked.finding.where).second)
                << name << ": " << checked.finding.rule << " at " << checked.finding.where;
    }
}

TEST(CheckTrain, FailsAnUndercutGear) {
    Train train = sized_train("a 9 x b 40");
    EXPECT_TRUE(failing(check_train(train, {})).contains("undercut"));
    train.gears[0].shift = Ratio(1, 2);
    EXPECT_FALSE(failing(check_train(train, {})).contains("undercut"));
}

// (21 + 69) / 4 is not whole.
TEST(CheckTrain, FailsCopiesThatDoNotAssemble) {
    Train train = capstan();
    set_copies(train, "planet", 4);
    const TrainChecks checks = check_train(train, {});
    EXPECT_EQ(failing(checks), (Rules{"assembly condition", "teeth meet gaps all round", "proof of mesh"}));
    EXPECT_EQ(found(checks, "teeth meet gaps all round").at(0).mend,
              "place the copy at the nearest angle that suits all its meshes");
}

// (S + P) sin(180 / n) > P + 2 (standard condition, from memory): 20/40 has room for four planets.
TEST(CheckTrain, FailsNeighboursThatCollide) {
    EXPECT_EQ(found(check_train(simple_set(20, 40, 100, 4), {}), "neighbour clearance").at(0).verdict, Verdict::holds);
    EXPECT_TRUE(failing(check_train(simple_set(20, 40, 100, 5), {})).contains("neighbour clearance"));
}

TEST(CheckTrain, TellsOnceThatCentreDistancesDiffer) {
    Train train = capstan();
    train.gears[2].teeth = 71;
    const TrainChecks checks = check_train(train, {});
    ASSERT_EQ(found(checks, "centre distances agree").size(), 1U);
    EXPECT_EQ(found(checks, "centre distances agree")[0].verdict, Verdict::fails);
    CheckOptions match;
    match.match_shifts = true;
    const TrainChecks matched = check_train(train, match);
    EXPECT_EQ(found(matched, "centre distances agree").at(0).verdict, Verdict::holds);
    ASSERT_TRUE(matched.shifts);
    EXPECT_EQ(matched.shifts->size(), 1U);
}

TEST(CheckTrain, TellsOnceThatNoOperatingAngleExists) {
    const TrainChecks checks = check_train(sized_train("planet 40 in ring 40 (planet on arm)"), {});
    ASSERT_EQ(found(checks, "operating angle").size(), 1U);
    EXPECT_EQ(found(checks, "operating angle")[0].verdict, Verdict::fails);
    EXPECT_EQ(found(checks, "operating angle")[0].limit, 1.0);
}

// What cannot be worked out is a row; motion and counts are looked at all the same.
TEST(CheckTrain, FailsTeethThatCannotBeWorkedOut) {
    Train bare = capstan();
    bare.teeth = {};
    const TrainChecks without_size = check_train(bare, {});
    EXPECT_EQ(failing(without_size), Rules{"module given"});
    EXPECT_EQ(found(without_size, "drivers as many as the freedom").at(0).verdict, Verdict::holds);
    EXPECT_EQ(found(without_size, "hunting tooth").size(), 2U);

    Train mixed = capstan();
    mixed.gears[0].spec.module_mm = Ratio(2);
    const TrainChecks two_modules = check_train(mixed, {});
    EXPECT_EQ(failing(two_modules), Rules{"same module in mesh"});
    EXPECT_EQ(found(two_modules, "same module in mesh")[0].figure, 2.0);
    EXPECT_EQ(found(two_modules, "same module in mesh")[0].limit, 3.0);

    CheckOptions match;
    match.match_shifts = true;
    EXPECT_EQ(failing(check_train(bare, match)), Rules{"module given"});
    // Where only the matching cannot be done, the train as it is has been looked at.
    Train apart = simple_set(20, 20, 90, 3);
    const TrainChecks no_match = check_train(apart, match);
    EXPECT_TRUE(failing(no_match).contains("shift that matches"));
    EXPECT_TRUE(failing(no_match).contains("centre distances agree"));
    EXPECT_FALSE(no_match.shifts);
}

TEST(CheckTrain, FailsEverySettingThatDoesNotMove) {
    Train train = capstan();
    const std::vector<std::pair<const char*, const char*>> settings = {
        {"free", "drive sun 30"},
        {"locked", "hold ring, carrier; drive sun 30"},
        {"conflicting", "hold ring; drive sun 30, carrier 8"}};
    for (const auto& [name, text] : settings) {
        train.settings.push_back(setting_from(train, text));
        train.settings.back().name = name;
    }
    const std::vector<Finding> mobility = found(check_train(train, {}), "drivers as many as the freedom");
    ASSERT_EQ(mobility.size(), 4U);
    EXPECT_EQ(mobility[0].verdict, Verdict::holds);
    for (const std::size_t s : {1U, 2U, 3U}) EXPECT_EQ(mobility[s].verdict, Verdict::fails) << mobility[s].where;
    EXPECT_NE(mobility[1].mend.find("Drive or hold one more member"), std::string::npos) << mobility[1].mend;
    EXPECT_EQ(mobility[2].mend, "Let go of one of these: the hold on ring; or the hold on carrier");
    // 30 x 21 / 90 = 7.
    EXPECT_NE(mobility[3].mend.find("7 rpm"), std::string::npos) << mobility[3].mend;

    CheckOptions one;
    one.setting = train.settings[0];
    EXPECT_TRUE(passes(check_train(train, one)));
    one.setting = train.settings[2];
    EXPECT_EQ(failing(check_train(train, one)), Rules{"drivers as many as the freedom"});
}

// 360 : -241.5 by the design's example; tooth counts alone say -315.
TEST(CheckTrain, JudgesTheCouplingsTyped) {
    Train train = capstan();
    const std::array<std::string, 2> planet = {"sun on frame", "planet on carrier"};
    const std::array<std::string, 2> carrier = {"sun on frame", "carrier on frame"};
    train.couplings = {{planet, {{360, Ratio(-483, 2)}}},
                       {planet, {{360, -315}}},
                       {carrier, {{100, Ratio(2333, 100)}}},
                       {{"ring on frame", "carrier on frame"}, std::nullopt},
                       {carrier, std::nullopt}};
    const TrainChecks checks = check_train(train, {});
    EXPECT_EQ(failing(checks), (Rules{"typed coupling", "coupling exists"}));
    const std::vector<Finding> typed = found(checks, "typed coupling");
    ASSERT_EQ(typed.size(), 3U);
    EXPECT_EQ(typed[0].verdict, Verdict::holds);
    EXPECT_EQ(typed[1].verdict, Verdict::fails);
    EXPECT_EQ(typed[1].where, "sun on frame to planet on carrier, typed 360 : -315");
    EXPECT_EQ(typed[1].figure, 73.5);
    EXPECT_EQ(typed[1].mend.rfind("Type 360 : -241.5 instead. This is the bare tooth ratio", 0), 0U) << typed[1].mend;
    EXPECT_EQ(typed[2].verdict, Verdict::caution);
    EXPECT_NE(typed[2].mend.find("drifts by 12 deg per 1000 turns"), std::string::npos) << typed[2].mend;
    const std::vector<Finding> exists = found(checks, "coupling exists");
    ASSERT_EQ(exists.size(), 2U);
    EXPECT_EQ(exists[0].verdict, Verdict::fails);
    EXPECT_NE(exists[0].mend.find("couple it from a joint that turns"), std::string::npos) << exists[0].mend;
    EXPECT_EQ(exists[1].verdict, Verdict::holds);
}

// Nothing says what is held: 20 teeth on 30 have a ratio all the same, a simple set with two freedoms has none.
TEST(CheckTrain, JudgesCouplingsWithoutASetting) {
    Train pair = sized_train("a 20 x b 30");
    pair.couplings = {{{"a on frame", "b on frame"}, {{360, -240}}}, {{"a on frame", "b on frame"}, {{360, 240}}}};
    const std::vector<Finding> typed = found(check_train(pair, {}), "typed coupling");
    ASSERT_EQ(typed.size(), 2U);
    EXPECT_EQ(typed[0].verdict, Verdict::holds);
    EXPECT_EQ(typed[1].verdict, Verdict::fails);
    Train set = capstan();
    set.settings.clear();
    set.couplings = {{{"sun on frame", "carrier on frame"}, {{360, 84}}}};
    const std::vector<Finding> exists = found(check_train(set, {}), "coupling exists");
    ASSERT_EQ(exists.size(), 1U);
    EXPECT_EQ(exists[0].verdict, Verdict::fails);
    EXPECT_NE(exists[0].mend.find("holding planet or ring would"), std::string::npos) << exists[0].mend;
}

// A bare simple set has freedom 2 (Gruebler and Kutzbach; from memory).
TEST(CheckTrain, SaysHowToMendWhateverFails) {
    Train train = capstan();
    train.settings = {setting_from(train, "")};
    train.settings[0].name = "idle";
    const std::vector<Finding> mobility = found(check_train(train, {}), "drivers as many as the freedom");
    ASSERT_EQ(mobility.size(), 1U);
    EXPECT_EQ(mobility[0].figure, 0.0);
    EXPECT_EQ(mobility[0].limit, 2.0);
    EXPECT_FALSE(mobility[0].mend.empty());
}

// 0, 92 and 240 degrees are multiples of 360 / 90: they assemble, and leave a load.
TEST(CheckTrain, WarnsOfCopiesThatDoNotBalance) {
    Train train = capstan();
    set_copies(train, "planet", 3, {0, 92, 240});
    const TrainChecks checks = check_train(train, {});
    EXPECT_TRUE(passes(checks));
    EXPECT_EQ(found(checks, "balance of the copies").at(0).verdict, Verdict::caution);
    EXPECT_EQ(found(checks, "teeth meet gaps all round").at(0).verdict, Verdict::holds);
}

// Each scene is sound but for what its own notes say: a notebook of wrong couplings, five planets that do not fit, a
// setting that is locked on purpose.
TEST(CheckTrain, KnowsWhatIsWrongWithShippedScenes) {
    const std::vector<std::pair<std::string, Rules>> wrong = {
        {"dredger_notebook", {"typed coupling"}},
        {"misfit_mooring", {"assembly condition", "teeth meet gaps all round", "proof of mesh"}},
        {"stuck_sluice", {"drivers as many as the freedom"}}};
    for (const std::string& name : shipped_names()) {
        const auto known = std::ranges::find(wrong, name, &std::pair<std::string, Rules>::first);
        EXPECT_EQ(failing(check_train(shipped_train(name), {})), known == wrong.end() ? Rules{} : known->second)
            << name;
    }
}

// The keys are read from the design's section 5 (check).
TEST(CheckSheet, HasTheKeysOfTheContract) {
    for (const std::string name : {"harbour_capstan", "dredger_notebook", "misfit_mooring"}) {
        const Train train = shipped_train(name);
        const Json json = Json::parse(check_sheet(check_train(train, {}), Format::json));
        EXPECT_EQ(json.at("couplet"), 1);
        EXPECT_EQ(json.at("scene"), train.title);
        EXPECT_EQ(json.at("outcome"), name == "harbour_capstan" ? "holds" : "fails");
        ASSERT_FALSE(json.at("rows").empty());
        for (const Json& row : json.at("rows")) {
            for (const char* key : {"rule", "where", "source"}) EXPECT_FALSE(row.at(key).get<std::string>().empty());
            for (const char* key : {"figure", "limit"}) EXPECT_TRUE(row.at(key).is_number()) << row.dump();
            EXPECT_TRUE((std::set<std::string>{"holds", "fails", "caution"}).contains(row.at("verdict")));
            EXPECT_TRUE(row.at("mend").is_string());
            EXPECT_TRUE((std::set<std::string>{"size", "place", "couple", "find"}).contains(row.at("step")));
        }
    }
}

TEST(CheckSheet, SaysTheVerdictFirst) {
    Train train = capstan();
    set_copies(train, "planet", 4);
    const TrainChecks checks = check_train(train, {});
    const std::string text = check_sheet(checks, Format::text);
    const std::size_t holds = static_cast<std::size_t>(
        std::ranges::count(checks.rules, Verdict::holds, [](const CheckedRule& r) { return r.finding.verdict; }));
    EXPECT_EQ(text.rfind("Capstan\n=======\n\n" + std::to_string(holds) + " rules hold, ", 0), 0U) << text;
    const std::size_t fails = text.find("* FAILS: ");
    const std::size_t caution = text.find("* Caution: ");
    const std::size_t table = text.find("What holds\n");
    const std::size_t end = text.find("Kinematics only");
    ASSERT_NE(end, std::string::npos);
    EXPECT_LT(fails, caution);
    EXPECT_LT(caution, table);
    EXPECT_LT(table, end);
    EXPECT_EQ(check_sheet(checks, Format::md).rfind("# Capstan\n", 0), 0U);
    const std::string csv = check_sheet(checks, Format::csv);
    EXPECT_EQ(csv.rfind("step,rule,where,figure,limit,unit,verdict,source,mend\r\n", 0), 0U);
    EXPECT_EQ(static_cast<std::size_t>(std::ranges::count(csv, '\n')), checks.rules.size() + 1);
}

}  // namespace
}  // namespace couplet
