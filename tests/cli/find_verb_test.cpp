#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>

#include "cli/run_couplet.hpp"
#include "exact/decimal.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class FindVerb : public CoupletRun {
  protected:
    // Lines of sh in the test's folder, where `couplet` is the program.
    [[nodiscard]] int shell(const std::string& script) const {
        write(".script", script);
        const std::string command = "cd '" + folder_.string() + "' && PATH='" +
                                    fs::path(COUPLET_PROGRAM).parent_path().string() +
                                    "':\"$PATH\" sh .script >.out 2>.err; status=$?; rm .script; exit $status";
        const int raw = std::system(command.c_str());  // NOLINT(cert-env33-c): the test is of a command line
        return WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
    }
    [[nodiscard]] std::vector<Json> rows(const std::string& arguments) const {
        return json("find --top 100000 " + arguments).at("rows").get<std::vector<Json>>();
    }
    // Nothing else is in the folder afterwards.
    void expect_refused_and_nothing_written(const std::string& arguments, const std::string& message) const {
        const std::size_t before = files();
        expect_refused("find " + arguments, "couplet: " + message);
        EXPECT_EQ(files(), before) << arguments;
    }
};

Ratio exact(const Json& pair) {
    return *parse_ratio(pair.at("exact").get<std::string>());
}

double number(const Json& row, const char* key) {
    return row.at(key).get<double>();
}

int all_teeth(const Json& row) {
    int all = 0;
    for (const auto& [name, teeth] : row.at("teeth").items()) all += teeth.get<int>();
    return all;
}

// The design's example, section 5: 21, 24, 69 of module 3 make 1 + 69/21 = 30/7, and 90 teeth go into 3 copies.
TEST_F(FindVerb, HasTheKeysOfTheContract) {
    const Json sheet = json("find --ratio 30/7 --tolerance 0 --teeth sun=21 --teeth planet=24 --module 3");
    EXPECT_EQ(sheet.at("couplet"), 1);
    EXPECT_TRUE(sheet.at("scene").is_string());
    EXPECT_EQ(sheet.at("outcome"), "found");
    EXPECT_EQ(sheet.at("target").at("exact"), "30/7");
    EXPECT_DOUBLE_EQ(number(sheet.at("target"), "value"), 30.0 / 7.0);
    EXPECT_EQ(sheet.at("examined"), 1);
    EXPECT_TRUE(sheet.at("rejected").is_object());
    ASSERT_EQ(sheet.at("rows").size(), 1U);
    const Json& row = sheet.at("rows").at(0);
    EXPECT_EQ(row.at("teeth"), (Json{{"sun", 21}, {"planet", 24}, {"ring", 69}}));
    EXPECT_EQ(row.at("copies"), 3);
    EXPECT_EQ(row.at("ratio").at("exact"), "30/7");
    EXPECT_EQ(row.at("error_ppm"), 0.0);
    EXPECT_EQ(row.at("ring_diameter_mm"), 207.0);
}

TEST_F(FindVerb, AccountsForEveryCandidate) {
    const Json sheet = json("find --ratio 4 --teeth 16..40 --copies 2..5 --tolerance 0.01 --top 100000");
    std::int64_t accounted = static_cast<std::int64_t>(sheet.at("rows").size());
    EXPECT_GT(accounted, 0);
    for (const auto& [rule, count] : sheet.at("rejected").items()) accounted += count.get<std::int64_t>();
    EXPECT_EQ(sheet.at("examined"), accounted);
    EXPECT_EQ(accounted, 25 * 25 * 4) << "suns, planets and numbers of copies";
}

TEST_F(FindVerb, PrintsEveryFormatAndWritesToAFile) {
    const std::string wish = "find --ratio 4 --teeth 18..26";
    EXPECT_EQ(run(wish).out.rfind("Tooth counts for 4 to 1\n=======================\n", 0), 0U);
    EXPECT_EQ(run(wish + " --format md").out.rfind("# Tooth counts for 4 to 1\n", 0), 0U);
    EXPECT_EQ(run(wish + " --format csv").out.rfind("unbeaten,sun (teeth),planet (teeth),ring (teeth),copies,", 0), 0U);
    EXPECT_EQ(run(wish).status, 0);
    EXPECT_EQ(run(wish + " -o found.txt").out, "");
    EXPECT_EQ(read("found.txt"), run(wish).out);
}

TEST_F(FindVerb, TakesARatioAsAFractionOrADecimal) {
    for (const char* ratio : {"4.3", "43/10", "+43e-1"})
        EXPECT_EQ(json(std::string("find --teeth 18..30 --ratio ") + ratio).at("target").at("exact"), "43/10") << ratio;
}

// With the carrier held the ring turns against the sun: -54/18.
TEST_F(FindVerb, TakesANegativeRatioEitherWay) {
    const std::string rest = " --hold carrier --teeth 18..20 --tolerance 0";
    const Json found = json("find --ratio=-3" + rest);
    EXPECT_EQ(found.at("target").at("exact"), "-3");
    ASSERT_FALSE(found.at("rows").empty());
    EXPECT_EQ(found.at("rows").at(0).at("teeth"), (Json{{"sun", 18}, {"planet", 18}, {"ring", 54}}));
    EXPECT_EQ(found.at("rows").at(0).at("ratio").at("exact"), "-3");
    EXPECT_EQ(run("find --ratio -3" + rest).out, run("find --ratio=-3" + rest).out);
}

// What is not said is as usual (ring held, sun driven, carrier out) where that is left, else what is left.
TEST_F(FindVerb, CompletesHeldMemberDriverAndOutput) {
    struct Case {
        const char* said;
        const char* held;
        const char* driver;
        const char* output;
    };
    for (const Case& one :
         {Case{"", "ring", "sun", "carrier"}, Case{"--hold sun", "sun", "ring", "carrier"},
          Case{"--hold carrier", "carrier", "sun", "ring"}, Case{"--drive carrier", "ring", "carrier", "sun"},
          Case{"--drive ring", "sun", "ring", "carrier"}, Case{"--out ring", "carrier", "sun", "ring"},
          Case{"--out sun", "ring", "carrier", "sun"}, Case{"--hold carrier --drive ring", "carrier", "ring", "sun"},
          Case{"--hold sun --drive carrier --out ring", "sun", "carrier", "ring"}}) {
        // Of a carrier held the ratio is below 0.
        const std::string ratio = std::string(one.held) == "carrier" ? "-1.5" : "1.5";
        const Json wish = json("find --teeth 18..20 --tolerance 30 --ratio " + ratio + " " + one.said).at("wish");
        EXPECT_EQ(wish.at("held"), one.held) << one.said;
        EXPECT_EQ(wish.at("driver"), one.driver) << one.said;
        EXPECT_EQ(wish.at("output"), one.output) << one.said;
    }
    const Json pairs = json("find --arrangement pairs --ratio 2 --teeth 18..24 --out 'shaft 3'").at("wish");
    EXPECT_EQ(pairs.at("driver"), "shaft 1");
}

// As many counts as train/arrangement.hpp names for each.
TEST_F(FindVerb, SearchesEveryArrangement) {
    struct Case {
        const char* arrangement;
        const char* ratio;
        std::size_t counts;
    };
    for (const Case& one :
         {Case{"simple", "4", 3}, Case{"stepped", "4", 4}, Case{"paired", "-4", 4}, Case{"two-rings", "120", 5},
          Case{"in-series", "16", 6}, Case{"pairs", "2", 4}, Case{"pairs --pairs 1", "-2", 2},
          Case{"pairs --pairs 3", "-2", 6}, Case{"reverted", "2", 4}}) {
        const Json sheet = json(std::string("find --teeth 18..24 --nearest 5 --arrangement ") + one.arrangement +
                                " --ratio " + one.ratio);
        ASSERT_FALSE(sheet.at("rows").empty()) << one.arrangement;
        EXPECT_EQ(sheet.at("rows").at(0).at("teeth").size(), one.counts) << one.arrangement;
    }
}

TEST_F(FindVerb, SetsTeethByNameByAPartOfANameOrOfAllButRings) {
    const auto ranges = [&](const std::string& arguments) {
        return json("find --nearest 1 " + arguments).at("wish").at("teeth");
    };
    const Json range = Json::array({18, 24});
    Json teeth = ranges("--ratio 4 --teeth sun=18..24");
    EXPECT_EQ(teeth.at("sun"), range);
    EXPECT_EQ(teeth.at("planet"), Json::array({12, 100}));
    teeth = ranges("--ratio 4 --teeth sun=21");
    EXPECT_EQ(teeth.at("sun"), Json::array({21, 21}));
    teeth = ranges("--ratio 4 --teeth 18..24");
    EXPECT_EQ(teeth.at("sun"), range);
    EXPECT_EQ(teeth.at("planet"), range);
    EXPECT_GT(teeth.at("ring").at(1).get<int>(), 10000) << "whatever fits";
    teeth = ranges("--ratio 4 --teeth 20..30 --teeth planet=18..24 --teeth ring=54..80");
    EXPECT_EQ(teeth, (Json{{"sun", {20, 30}}, {"planet", {18, 24}}, {"ring", {54, 80}}}));
    teeth = ranges("--arrangement stepped --ratio 4 --teeth 20..22 --teeth planet=18..24");
    EXPECT_EQ(teeth.at("planet's first gear"), range);
    EXPECT_EQ(teeth.at("planet's second gear"), range);
    EXPECT_EQ(teeth.at("sun"), Json::array({20, 22}));
    teeth = ranges("--arrangement pairs --ratio 2 --teeth driven=30..40 --teeth driving=18..24");
    EXPECT_EQ(teeth.at("pair 1, driving"), range);
    EXPECT_EQ(teeth.at("pair 2, driving"), range);
    EXPECT_EQ(teeth.at("pair 2, driven"), Json::array({30, 40}));
    for (const Json& row : rows("--ratio 4 --teeth sun=18..24 --teeth planet=20..22 --tolerance 0.2"))
        EXPECT_TRUE(row.at("teeth").at("sun") <= 24 && row.at("teeth").at("planet") >= 20 &&
                    row.at("teeth").at("planet") <= 22);
}

TEST_F(FindVerb, TriesOneNumberOfCopiesOrARange) {
    const auto copies = [&](const std::string& arguments) {
        std::set<int> seen;
        for (const Json& row : rows("--ratio 4 --teeth 18..30 --tolerance 0.01 " + arguments))
            seen.insert(row.at("copies").get<int>());
        return seen;
    };
    EXPECT_EQ(copies(""), (std::set<int>{3}));
    EXPECT_EQ(copies("--copies 4"), (std::set<int>{4}));
    EXPECT_EQ(copies("--copies 2..4"), (std::set<int>{2, 3, 4}));
}

TEST_F(FindVerb, KeepsTheToleranceOrTheNearest) {
    const std::string wish = "--ratio 4 --teeth 18..60 ";
    for (const Json& row : rows(wish + "--tolerance 0")) EXPECT_EQ(row.at("ratio").at("exact"), "4");
    const std::vector<Json> within = rows(wish + "--tolerance 0.01");
    EXPECT_GT(within.size(), rows(wish + "--tolerance 0").size());
    for (const Json& row : within) EXPECT_LE((exact(row.at("ratio")) / Ratio(4) - Ratio(1)).magnitude(), Ratio(1, 100));
    EXPECT_EQ(rows(wish).size(), 100U);
    const std::vector<Json> nearest = rows(wish + "--nearest 7");
    ASSERT_EQ(nearest.size(), 7U);
    // Those of all that are within a wide tolerance.
    const std::vector<Json> all = rows(wish + "--tolerance 0.5");
    for (std::size_t row = 0; row < nearest.size(); ++row) EXPECT_EQ(nearest[row].at("teeth"), all[row].at("teeth"));
}

TEST_F(FindVerb, KeepsEveryOtherLimit) {
    const std::string wish = "--ratio 4 --teeth 18..40 --tolerance 0.05 ";
    const std::vector<Json> free = rows(wish);
    // Without the limit something is beyond it.
    const auto any = [&](auto beyond) { return std::ranges::any_of(free, beyond); };
    const auto is_wide = [](const Json& row) { return number(row, "ring_diameter_mm") > 150.0; };
    ASSERT_TRUE(any(is_wide));
    const std::vector<Json> narrow = rows(wish + "--ring-diameter 150");
    EXPECT_FALSE(narrow.empty());
    EXPECT_TRUE(std::ranges::none_of(narrow, is_wide));
    const auto does_not_hunt = [](const Json& row) { return !row.at("hunting").get<bool>(); };
    ASSERT_TRUE(any(does_not_hunt));
    const std::vector<Json> hunting = rows(wish + "--hunting required");
    EXPECT_FALSE(hunting.empty());
    EXPECT_TRUE(std::ranges::none_of(hunting, does_not_hunt));
    // Twice the module, twice the ring.
    const std::vector<Json> doubled = rows(wish + "--module 4");
    ASSERT_EQ(doubled.size(), free.size());
    EXPECT_EQ(number(doubled[0], "ring_diameter_mm"), 2.0 * number(free[0], "ring_diameter_mm"));
    // 12 teeth are undercut unless a shift mends it; 20 + 60 teeth do not go into 3 at equal angles.
    const std::string undercut = "--ratio 4 --teeth 12 --tolerance 0 ";
    EXPECT_TRUE(rows(undercut).empty());
    ASSERT_EQ(rows(undercut + "--shift allowed").size(), 1U);
    EXPECT_GT(exact(rows(undercut + "--shift allowed")[0].at("shifts").at("sun")), Ratio(0));
    const std::string misfit = "--ratio 4 --teeth 20 --tolerance 0 ";
    EXPECT_TRUE(rows(misfit).empty());
    ASSERT_EQ(rows(misfit + "--spacing free").size(), 1U);
    EXPECT_EQ(rows(misfit + "--spacing free")[0].at("places_deg").at(0).size(), 3U);
}

TEST_F(FindVerb, RanksByEveryKey) {
    const std::string wish = "--ratio 4.1 --teeth 18..40 --copies 3..4 --tolerance 0.05 --spacing free --sort ";
    const std::map<std::string, std::function<double(const Json&)>> figures = {
        {"error", [](const Json& row) { return std::abs(number(row, "error_ppm")); }},
        {"size", [](const Json& row) { return number(row, "ring_diameter_mm"); }},
        {"contact", [](const Json& row) { return -number(row, "contact_ratio"); }},
        {"hunting", [](const Json& row) { return row.at("hunting").get<bool>() ? 0.0 : 1.0; }},
        // Copies are fewer than 1000 and residuals of a few digits: both in one number.
        {"balance",
         [](const Json& row) {
             return 1e6 * number(row.at("balance"), "residual") + row.at("balance").at("in_step").get<double>() * 1e-3;
         }},
        {"teeth", [](const Json& row) { return static_cast<double>(all_teeth(row)); }}};
    std::set<std::string> orders;
    for (const auto& [key, figure] : figures) {
        const std::vector<Json> ranked = rows(wish + key);
        ASSERT_GT(ranked.size(), 20U);
        for (std::size_t next = 1; next < ranked.size(); ++next)
            EXPECT_LE(figure(ranked[next - 1]), figure(ranked[next])) << key;
        EXPECT_LT(figure(ranked.front()), figure(ranked.back())) << key << " tells nothing here";
        orders.insert(Json(ranked).dump());
    }
    EXPECT_EQ(orders.size(), figures.size());
    EXPECT_EQ(Json(rows(wish + "error")), Json(rows("--ratio 4.1 --teeth 18..40 --copies 3..4 --tolerance 0.05 "
                                                    "--spacing free")));
}

TEST_F(FindVerb, ShowsTheTopRowsAndTellsHowManyThereAre) {
    const Json all = json("find --ratio 4 --teeth 18..40 --top 1000");
    EXPECT_EQ(all.at("rows").size(), 100U);
    EXPECT_EQ(json("find --ratio 4 --teeth 18..40").at("rows").size(), 20U);
    const Json top = json("find --ratio 4 --teeth 18..40 --top 3");
    ASSERT_EQ(top.at("rows").size(), 3U);
    EXPECT_EQ(top.at("rows_found"), 100);
    for (std::size_t row = 0; row < 3; ++row) EXPECT_EQ(top.at("rows").at(row), all.at("rows").at(row));
}

TEST_F(FindVerb, GivesEachRatioItsSmallestTrain) {
    const std::string wish = "--ratio 4 --teeth 18..40 --tolerance 0.03 ";
    std::map<Ratio, int> fewest;
    for (const Json& row : rows(wish)) {
        const auto [known, is_new] = fewest.emplace(exact(row.at("ratio")), all_teeth(row));
        known->second = std::min(known->second, all_teeth(row));
    }
    const std::vector<Json> each = rows(wish + "--each ratio");
    EXPECT_EQ(each.size(), fewest.size());
    EXPECT_LT(each.size(), rows(wish).size());
    for (const Json& row : each) EXPECT_EQ(fewest[exact(row.at("ratio"))], all_teeth(row));
}

// At 60 rpm the driver turns once a second, and a year of 365.2425 days (the calendar's mean) has 31,556,952 seconds.
// 19, 20, 59 makes 1 + 59/19 = 78/19, so that the carrier turns 31,556,952 x 19/78 = 7,686,949.846 times where 4 to 1
// would turn it 7,889,238 times.
TEST_F(FindVerb, TellsTheDriftOfAYear) {
    const std::string wish = "--ratio 4 --teeth sun=19 --teeth planet=20 --copies 1 ";
    ASSERT_EQ(rows(wish).size(), 1U);
    EXPECT_FALSE(rows(wish)[0].contains("drift_turns_a_year"));
    const Json drift = rows(wish + "--rpm 60")[0].at("drift_turns_a_year");
    EXPECT_NEAR(drift.at("value").get<double>(), 7686949.846154 - 7889238.0, 1e-5);
    EXPECT_EQ(exact(drift), Ratio(31556952) * (Ratio(19, 78) - Ratio(1, 4)));
    EXPECT_EQ(exact(rows(wish + "--rpm=-30")[0].at("drift_turns_a_year")), exact(drift) * Ratio(-1, 2));
    EXPECT_NE(run("find " + wish + "--rpm 60").out.find("drift"), std::string::npos);
    EXPECT_NE(run("find " + wish + "--rpm 60 --format csv").out.find("drift (turns a year)"), std::string::npos);
}

// Each scene is read back by the program's other verbs: it has sizes that keep the rules, and its solver, which knows
// nothing of the search, gives the ratio.
TEST_F(FindVerb, SavesScenesThatKeepTheRulesAndTheRatio) {
    struct Case {
        const char* wish;
        const char* output;
        const char* first;
    };
    for (const Case& one :
         {Case{"--ratio 4 --teeth 12..20 --shift allowed --top 4", "carrier", nullptr},
          Case{"--ratio 4 --teeth 18 --tolerance 0", "carrier", "simple_18_18_54_x3.toml"},
          Case{"--ratio 4 --teeth 20 --tolerance 0 --spacing free", "carrier", "simple_20_20_60_x3.toml"},
          Case{"--ratio=-3 --hold carrier --teeth 18..20 --top 3", "ring", nullptr},
          Case{"--ratio 120 --arrangement two-rings --teeth 18..24 --top 3", "output ring", nullptr},
          Case{"--ratio 16 --arrangement in-series --teeth 18..20 --top 3", "carrier 2", nullptr},
          Case{"--ratio=-4 --arrangement paired --teeth 18..22 --top 3", "carrier", nullptr},
          Case{"--ratio 5 --arrangement stepped --teeth 18..24 --top 3", "carrier", nullptr},
          Case{"--ratio 4 --arrangement pairs --teeth 20..40 --tolerance 0 --top 3", "shaft 3",
               "pairs_20_40_20_40.toml"},
          Case{"--ratio 2 --arrangement reverted --teeth 18..30 --top 3", "output shaft", nullptr}}) {
        SCOPED_TRACE(one.wish);
        fs::remove_all(folder_ / "found");
        const Json sheet = json(std::string("find --save found ") + one.wish);
        std::multiset<Ratio> wanted;
        for (const Json& row : sheet.at("rows")) wanted.insert(exact(row.at("ratio")));
        EXPECT_FALSE(wanted.empty());
        std::multiset<Ratio> made;
        for (const auto& entry : fs::directory_iterator(folder_ / "found")) {
            const std::string path = "'" + entry.path().string() + "'";
            EXPECT_EQ(run("size " + path).status, 0) << path;
            EXPECT_EQ(run("place " + path).status, 0) << path;
            const Json moving = json("couple " + path);
            for (const Json& member : moving.at("members"))
                if (member.at("name") == one.output) made.insert(Ratio(1) / exact(member.at("turns")));
        }
        EXPECT_TRUE(made == wanted);
        EXPECT_TRUE(one.first == nullptr || fs::exists(folder_ / "found" / one.first));
    }
}

TEST_F(FindVerb, SavesAllOrNothing) {
    const std::string wish = "--ratio 4 --teeth 18..24 --tolerance 0 --save found";
    EXPECT_EQ(run("find " + wish).status, 0);
    const fs::path kept = folder_ / "found" / "simple_21_21_63_x3.toml";
    ASSERT_TRUE(fs::exists(kept));
    ASSERT_TRUE(fs::remove(folder_ / "found" / "simple_18_18_54_x3.toml"));
    std::ofstream(kept, std::ios::app) << "# mine\n";
    const std::string mine = file_text(kept);
    expect_refused_and_nothing_written(
        wish + " --scatter picture.svg -o sheet.txt",
        "found/simple_21_21_63_x3.toml is there already; save into another folder, or remove it");
    EXPECT_FALSE(fs::exists(folder_ / "found" / "simple_18_18_54_x3.toml"));
    EXPECT_EQ(file_text(kept), mine);
    write("file", "");
    expect_refused_and_nothing_written("--ratio 4 --teeth 18 --save file/x",
                                       "--save file/x: no such folder can be made; Not a directory");
}

TEST_F(FindVerb, DrawsAScatter) {
    const std::string wish = "find --ratio 4 --teeth 18..30 --top 2";
    EXPECT_EQ(run(wish + " --scatter picture.svg").out, run(wish).out);
    const std::string svg = read("picture.svg");
    EXPECT_EQ(svg.rfind("<?xml", 0), 0U);
    std::size_t dots = 0;
    for (std::size_t at = svg.find("<circle"); at != std::string::npos; at = svg.find("<circle", at + 1)) ++dots;
    EXPECT_GE(dots, json(wish).at("rows_found").get<std::size_t>()) << "of all rows, not of those shown";
}

using Options = std::map<std::string, std::string>;

std::string text_of(const Options& options) {
    std::string text = "find";
    for (const auto& [option, value] : options) text += " " + option.substr(0, option.find('#')) + "=" + value;
    return text;
}

// The wish with one limit as far out as the row needs it.
Options loosened(Options options, const std::string& limit, const Json& row) {
    if (limit == "tolerance") {
        const Ratio error = exact(row.at("ratio")) / *parse_ratio(options["--ratio"]) - Ratio(1);
        options["--tolerance"] = error.magnitude().to_string();
    } else if (limit == "tooth ranges") {
        for (const char* name : {"sun", "planet"}) {
            const std::string teeth = std::to_string(row.at("teeth").at(name).get<int>());
            options["--teeth#" + std::string(name)] = std::string(name) + "=" + teeth;
        }
    } else if (limit == "copies") {
        options["--copies"] = std::to_string(row.at("copies").get<int>());
    } else if (limit == "ring diameter") {
        options["--ring-diameter"] = std::to_string(number(row, "ring_diameter_mm"));
    } else if (limit == "hunting") {
        options["--hunting"] = "any";
    } else if (limit == "shift") {
        options["--shift"] = "allowed";
    } else if (limit == "spacing") {
        options["--spacing"] = "free";
    } else if (limit == "sense") {
        options["--ratio"] = (-*parse_ratio(options["--ratio"])).to_string();
    } else {
        ADD_FAILURE() << limit;
    }
    return options;
}

// Whatever is said to give a train gives it when it is asked for.
TEST_F(FindVerb, NamesLooseningsThatAreTrueWhereNothingIsFound) {
    std::set<std::string> limits;
    for (const Options& wish :
         {Options{{"--ratio", "4"}, {"--tolerance", "0"}, {"--teeth", "20"}},
          Options{{"--ratio", "401/100"}, {"--tolerance", "0"}, {"--teeth", "20..24"}},
          Options{{"--ratio", "4"}, {"--tolerance", "0"}, {"--teeth", "18..30"}, {"--ring-diameter", "100"}},
          Options{{"--ratio", "4"}, {"--tolerance", "0"}, {"--teeth", "21"}, {"--hunting", "required"}},
          Options{{"--ratio", "4"}, {"--tolerance", "0"}, {"--teeth", "12"}},
          Options{{"--ratio", "2"}, {"--arrangement", "pairs"}, {"--pairs", "1"}, {"--teeth", "20..40"}}}) {
        const std::string asked = text_of(wish);
        const Result text = run(asked);
        EXPECT_EQ(text.status, 1) << asked;
        EXPECT_NE(text.out.find("What would give a train, the least change first:"), std::string::npos);
        const Json sheet = json(asked);
        EXPECT_EQ(sheet.at("outcome"), "nothing found");
        EXPECT_TRUE(sheet.at("rows").empty());
        for (const Json& loosening : sheet.at("loosenings")) {
            const std::string limit = loosening.at("limit");
            limits.insert(limit);
            const Json& row = loosening.at("row");
            const std::string looser = text_of(loosened(wish, limit, row));
            const std::vector<Json> found = json(looser + " --top 100000").at("rows").get<std::vector<Json>>();
            EXPECT_TRUE(std::ranges::any_of(found, [&](const Json& one) {
                return one.at("teeth") == row.at("teeth") && one.at("copies") == row.at("copies");
            })) << looser;
        }
    }
    EXPECT_EQ(limits, (std::set<std::string>{"tolerance", "tooth ranges", "copies", "ring diameter", "hunting", "shift",
                                             "spacing", "sense"}));
}

// As README.md says it.
constexpr const char* kSlices = R"(seq 8 | parallel couplet find WISH --slice {}/8 --format json -o part_{}.json)";

std::string slices_of(const std::string& wish) {
    std::string script = kSlices;
    return script.replace(script.find("WISH"), 4, wish);
}

TEST_F(FindVerb, JoinsSlicesToTheWholeByteForByte) {
    for (const char* wish : {"--ratio 4 --teeth 16..50 --copies 2..5 --tolerance 0.01",
                             "--ratio 120 --arrangement two-rings --teeth 18..30 --tolerance 0.3",
                             "--ratio 3 --arrangement pairs --teeth 18..40 --tolerance 0.001 --each ratio",
                             "--ratio 4 --teeth 12..16 --shift allowed --spacing free --tolerance 0.2",
                             "--ratio 4 --teeth 20 --tolerance 0"}) {
        SCOPED_TRACE(wish);
        (void)shell("rm -f part_*.json; " + slices_of(wish));
        EXPECT_EQ(read(".out"), "");
        ASSERT_EQ(files(), 8U) << read(".err");
        for (const char* show : {"--format json", "--format text --sort size --rpm 30", "--format csv --top 1000"}) {
            const Result joined = run(std::string("find --join part_*.json ") + show);
            const Result whole = run(std::string("find ") + wish + " " + show);
            EXPECT_TRUE(joined.out == whole.out) << show;
            EXPECT_EQ(joined.status, whole.status);
            EXPECT_EQ(joined.err, "");
        }
    }
}

TEST_F(FindVerb, JoinsTheNearestToTheSameRows) {
    const std::string wish = "--ratio 4.3 --teeth 18..60 --nearest 40";
    ASSERT_EQ(shell(slices_of(wish)), 0) << read(".err");
    EXPECT_EQ(json("find --join part_*.json").at("rows"), json("find " + wish).at("rows"));
}

TEST_F(FindVerb, SavesAndDrawsWhatIsJoined) {
    const std::string wish = "--ratio 4 --teeth 18..24 --tolerance 0";
    ASSERT_EQ(shell(slices_of(wish)), 0) << read(".err");
    EXPECT_EQ(run("find --join part_*.json --save joined --scatter joined.svg").status, 0);
    EXPECT_EQ(run("find " + wish + " --save whole --scatter whole.svg").status, 0);
    EXPECT_TRUE(read("joined.svg") == read("whole.svg"));
    EXPECT_EQ(read("joined/simple_18_18_54_x3.toml"), read("whole/simple_18_18_54_x3.toml"));
}

TEST_F(FindVerb, RefusesSlicesThatAreNotAllOfOneSearch) {
    const std::string wish = "find --ratio 4 --teeth 18..24 --tolerance 0 --format json";
    for (const std::string part : {"1", "2", "3"})
        ASSERT_EQ(run(wish + " --slice " + part + "/3 -o " + part + ".json").status, 0);
    ASSERT_EQ(run(wish + " --slice 3/4 -o of_four.json").status, 0);
    ASSERT_EQ(run(wish + " --module 3 --slice 3/3 -o foreign.json").status, 0);
    EXPECT_EQ(run("find --join 3.json 1.json 2.json").status, 0) << "in any order";
    expect_refused_and_nothing_written("--join 1.json 3.json -o all.txt",
                                       "slice 2 of 3 is missing; run it with --slice 2/3");
    expect_refused_and_nothing_written("--join 1.json 2.json 3.json 2.json",
                                       "2.json is slice 2 of 3 once more; give each once");
    expect_refused_and_nothing_written("--join 1.json 2.json of_four.json",
                                       "of_four.json is of another search than 1.json; join slices of one");
    expect_refused_and_nothing_written("--join 1.json 2.json foreign.json",
                                       "foreign.json is of another search than 1.json; join slices of one");
    write("broken.json", read("1.json").substr(0, 100));
    expect_refused_and_nothing_written("--join broken.json",
                                       "broken.json: it is no result of a search; write it with --format json");
    Json beyond = Json::parse(read("1.json"));
    beyond["slice"]["index"] = 4;
    write("beyond.json", beyond.dump());
    expect_refused_and_nothing_written("--join beyond.json", "beyond.json: there is no slice 4 of 3");
    ASSERT_EQ(run("find --ratio 4 --teeth 18..40 --top 2 --format json -o two.json").status, 0);
    expect_refused_and_nothing_written("--join two.json",
                                       "two.json: it shows some of the rows only; write it with --slice");
    EXPECT_EQ(run("find --join absent.json").status, 2);
}

TEST_F(FindVerb, RefusesToJoinWithAWishOfItsOwn) {
    ASSERT_EQ(run("find --ratio 4 --teeth 18 --slice 1/1 --format json -o 1.json").status, 0);
    for (const char* more : {"--ratio 4", "--teeth 18", "--copies 4", "--slice 1/1", "--tolerance 0", "--each ratio"})
        expect_refused_and_nothing_written(std::string("--join 1.json ") + more,
                                           "--join takes what to look for from its files; leave --slice and all "
                                           "options that say what to look for away");
}

TEST_F(FindVerb, PrintsTheSameWithAnyNumberOfThreads) {
    for (const char* wish :
         {"--ratio 4.3 --copies 2..5 --format json", "--ratio 4.3 --tolerance 0.001 --each ratio --format json",
          "--ratio 3.14159265 --arrangement pairs --teeth 18..50 --nearest 30",
          "--ratio 4 --teeth 12..16 --shift allowed --spacing free --copies 3..5 --format csv"}) {
        const Result one = run(std::string("find --threads 1 ") + wish);
        EXPECT_EQ(one.status, 0) << wish;
        EXPECT_TRUE(run(std::string("find --threads 4 ") + wish).out == one.out) << wish;
        EXPECT_TRUE(run(std::string("find ") + wish).out == one.out) << wish;
    }
}

// Begins the search, waits until it listens (the second bit of the signals that it catches; see proc(5)), interrupts it
// and waits for its end.
std::string interrupted(const std::string& arguments) {
    return "couplet find " + arguments +
           " & pid=$!\n"
           "until [ \"$(cat /proc/$pid/comm)\" = couplet ] && grep -q 'SigCgt:.*[2367abef]$' /proc/$pid/status; do "
           "sleep 0.01; done\n"
           "kill -INT $pid\n"
           "wait $pid\n";
}

// A search of minutes, whose first candidates are rows: by the first look at the interrupt there are some.
constexpr const char* kLong =
    "--ratio 5.1234567 --arrangement in-series --teeth 18..60 --shift allowed --spacing free --nearest 10000";

TEST_F(FindVerb, InterruptedGivesWhatItHasFound) {
    for (const char* threads : {"1", "3"}) {
        EXPECT_EQ(shell(interrupted(std::string(kLong) + " --threads " + threads)), 0);
        EXPECT_NE(read(".out").find("PARTIAL: the search was stopped before its end"), std::string::npos);
        EXPECT_NE(read(".out").find("Found: "), std::string::npos);
        EXPECT_EQ(read(".err"), "couplet: the search was stopped before its end; what is shown is partial\n");
    }
}

TEST_F(FindVerb, InterruptedGivesAPartialSlice) {
    EXPECT_EQ(shell(interrupted(std::string(kLong) + " --slice 1/80 --format json -o part.json")), 0);
    const Json part = Json::parse(read("part.json"));
    EXPECT_EQ(part.at("partial"), true);
    EXPECT_FALSE(part.at("rows").empty());
}

TEST_F(FindVerb, RefusesWhatIsNoWish) {
    struct Case {
        const char* arguments;
        const char* message;
    };
    for (const Case& one : std::initializer_list<Case>{
             {"", "there is no ratio to look for; give one with --ratio, like --ratio 30/7 or --ratio=-4.3"},
             {"--ratio four", "--ratio 'four' is not a number; write it like 6, 43/10 or 4.3"},
             {"--ratio 4/0", "--ratio '4/0' is not a number; write it like 6, 43/10 or 4.3"},
             {"--ratio 0", "--ratio 0 is no ratio; the output would never turn"},
             {"--ratio 4 --arrangement pair", "--arrangement has no 'pair'; did you mean 'pairs'?"},
             {"--ratio 4 --arrangement pairs --pairs 5", "--pairs '5' is no count; it goes from 1 to 4"},
             {"--ratio 4 --hold nobody",
              "--hold 'nobody' is no choice of this arrangement; it has 'sun', 'carrier' and 'ring'"},
             {"--ratio 4 --out rinng", "--out 'rinng' is no choice of this arrangement; did you mean 'ring'?"},
             {"--ratio 4 --arrangement pairs --hold ring",
              "--hold 'ring' is no choice of this arrangement; it has 'frame'"},
             {"--ratio 4 --hold sun --drive sun",
              "--drive 'sun' has another part already; held member, driver and output are three"},
             {"--ratio 4 --tolerance=-0.1", "--tolerance is below 0; 0 asks for the exact ratio"},
             {"--ratio 4 --tolerance x", "--tolerance 'x' is not a number; write it like 0 or 0.001"},
             {"--ratio 4 --nearest 0", "--nearest '0' is no count; it goes from 1 to 10000"},
             {"--ratio 4 --teeth sum=18..20", "--teeth: this arrangement has no 'sum'; did you mean 'sun'?"},
             {"--ratio 4 --teeth =18..20",
              "--teeth: this arrangement has no ''; its counts are 'sun', 'planet' and 'ring'"},
             {"--ratio 4 --teeth sun=2..20", "--teeth 'sun=2..20' begins too low; a gear has 3 teeth or more"},
             {"--ratio 4 --teeth sun=20..18", "--teeth '20..18' begins above its end; write it like sun=18..60"},
             {"--ratio 4 --teeth sun=18..20000",
              "--teeth '20000' is no count; it goes from 1 to 10000, like sun=18..60"},
             {"--ratio 4 --teeth sun=18.5", "--teeth '18.5' is no count; it goes from 1 to 10000, like sun=18..60"},
             {"--ratio 4 --teeth sun=", "--teeth '' is not a number; write it like sun=18..60"},
             {"--ratio 4 --copies 0", "--copies '0' is no count; it goes from 1 to 63, like 2..6"},
             {"--ratio 4 --copies 2..64", "--copies '64' is no count; it goes from 1 to 63, like 2..6"},
             {"--ratio 4 --copies 5..2", "--copies '5..2' begins above its end; write it like 2..6"},
             {"--ratio 4 --ring-diameter 0", "--ring-diameter must be above 0; write it like 180 (mm)"},
             {"--ratio 4 --ring-diameter wide", "--ring-diameter 'wide' is not a number; write it like 180 (mm)"},
             {"--ratio 4 --arrangement reverted --ring-diameter 200",
              "--ring-diameter limits a ring, and 'reverted' has none; limit its gears with --teeth"},
             {"--ratio 4 --pairs 3", "--pairs is for --arrangement pairs, not for 'simple'"},
             {"--ratio 4 --nearest 5 --tolerance 0",
              "--tolerance gives all trains within it, --nearest the nearest ones; leave one away"},
             {"--ratio 4 --arrangement pairs --copies 4",
              "--copies is about planets, and 'pairs' has none; leave it away"},
             {"--ratio 4 --arrangement reverted --spacing free",
              "--spacing is about planets, and 'reverted' has none; leave it away"},
             {"--ratio 4 --module 0", "--module must be above 0; write it like 2.5 (mm)"},
             {"--ratio 4 --shift some", "--shift has no 'some'; it takes one of 'none' and 'allowed'"},
             {"--ratio 4 --hunting none", "--hunting has no 'none'; it takes one of 'any' and 'required'"},
             {"--ratio 4 --spacing wide", "--spacing has no 'wide'; it takes one of 'equal' and 'free'"},
             {"--ratio 4 --each gear", "--each has no 'gear'; it takes one of 'train' and 'ratio'"},
             {"--ratio 4 --sort weight",
              "--sort has no 'weight'; it takes one of 'error', 'size', 'contact', 'hunting', 'balance' and 'teeth'"},
             {"--ratio 4 --top 0", "--top '0' is no count; it goes from 1 to 100000"},
             {"--ratio 4 --rpm fast", "--rpm 'fast' is not a number; write it like 30"},
             {"--ratio 4 --threads 0", "--threads '0' is no count; it goes from 1 to 1024"},
             {"--ratio 4 --slice 1 --format json", "--slice '1' is no slice; write the third of eight as 3/8"},
             {"--ratio 4 --slice 9/8 --format json", "--slice '9' is no count; it goes from 1 to 8"},
             {"--ratio 4 --slice 1/8", "--slice needs --format json, which --join reads"},
             {"--ratio 4 --slice 1/8 --format json --save found",
              "--save and --scatter show a whole search; use them with --join"},
             {"--ratio 4 --format xml", "unknown format 'xml'; the formats are 'text', 'json', 'csv' and 'md'"},
             {"--ratio 4 -o same --scatter same", "-o and --scatter name the same file; give each a file of its own"},
             {"--ratio 4 --rate 4", "unknown option '--rate'; did you mean '--ratio'?"},
             {"--ratio 4 scene.toml", "'scene.toml' is one argument too many; a verb takes one scene"},
             {"--ratio 4 --teeth", "--teeth: 1 required WHICH=A..B missing; --help tells what each option takes"},
             {"--ratio 3000000 --arrangement pairs --pairs 4 --teeth 12..10000",
              "these ranges hold too many choices of driving gears: narrow them"}}) {
        expect_refused_and_nothing_written(one.arguments, one.message);
    }
}

TEST_F(FindVerb, HelpNamesEveryOption) {
    const std::string help = run("find --help").out;
    for (const char* option :
         {"--ratio",   "--arrangement", "--pairs",  "--hold",    "--drive",         "--out",    "--tolerance",
          "--nearest", "--teeth",       "--copies", "--spacing", "--ring-diameter", "--module", "--shift",
          "--hunting", "--each",        "--sort",   "--top",     "--rpm",           "--save",   "--scatter",
          "--threads", "--slice",       "--join",   "--format",  "--output"})
        EXPECT_NE(help.find(option), std::string::npos) << option;
}

}  // namespace
}  // namespace couplet
