// Rates of gear trains that were published elsewhere, or that follow from published formulas.
//
// Each row says where its answer comes from and how that is known: read (looked up in the place named), from memory
// (recalled from it, not looked up), or derived (our tooth counts through the published formula). "Formula read" and
// "problem read" mean that only that was read and the answer is ours, by a second program. Rates are against the frame
// unless they say "on"; counter-clockwise is positive.
//
// Waiting for crossing axes: the bevel differential (side wheels 24 and 24, bevel planet 15: the carrier is the mean of
// the sides).
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "couple/coupling.hpp"
#include "exact/decimal.hpp"
#include "support/outcome_printer.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

struct PublishedRates {
    const char* name;
    const char* meshes;
    const char* setting;
    // "carrier 5/16, planet on carrier -55/48"
    const char* rates;
    const char* source;
};

void PrintTo(const PublishedRates& row, std::ostream* out) {
    *out << row.name;
}

struct ExpectedRate {
    std::string member;
    std::string against = "frame";
    Ratio turns;
};

std::vector<ExpectedRate> expected_rates(const std::string& text) {
    std::vector<ExpectedRate> expected;
    std::istringstream entries(text);
    for (std::string entry; std::getline(entries, entry, ',');) {
        ExpectedRate& rate = expected.emplace_back();
        const std::size_t first = entry.find_first_not_of(' ');
        const std::size_t value = entry.find_last_of(' ');
        rate.member = entry.substr(first, value - first);
        rate.turns = parse_ratio(entry.substr(value + 1)).value();
        const std::size_t on = rate.member.find(" on ");
        if (on == std::string::npos) continue;
        rate.against = rate.member.substr(on + 4);
        rate.member.resize(on);
    }
    return expected;
}

class Published : public testing::TestWithParam<PublishedRates> {};

TEST_P(Published, RatesAreMet) {
    const PublishedRates& row = GetParam();
    SCOPED_TRACE(row.source);
    const SolvedTrain train = solved(row.meshes, row.setting);
    ASSERT_EQ(train.motion.outcome, Outcome::moves);
    for (const ExpectedRate& rate : expected_rates(row.rates))
        EXPECT_EQ(train.turns(rate.member, rate.against), rate.turns) << rate.member << " on " << rate.against;
}

std::string name_of_row(const testing::TestParamInfo<PublishedRates>& info) {
    return info.param.name;
}

constexpr const char* kSet30 = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";
constexpr const char* kWillis =
    "encyclopaedia article 'Epicyclic gearing': Ns ws + Nr wr = (Ns + Nr) wc, Np wp - (Ns + Np) wc = -Ns ws; formulas "
    "read, tooth counts and values ours";

INSTANTIATE_TEST_SUITE_P(
    SimpleSets, Published,
    testing::Values(
        // sun : carrier = 16/5
        PublishedRates{"SimpleSetWithItsRingHeld", kSet30, "hold ring; drive sun 1",
                       "carrier 5/16, planet on carrier -55/48, planet -5/6", kWillis},
        PublishedRates{"SimpleSetWithItsSunHeld", kSet30, "hold sun; drive carrier 1",
                       "ring 16/11, planet on carrier 5/3", kWillis},
        PublishedRates{"SimpleSetWithItsCarrierHeld", kSet30, "hold carrier; drive ring 1", "sun -11/5", kWillis},
        PublishedRates{"ExamQuestionOfTwentyFortyHundred",
                       "sun 20 x planet 40; planet 40 in ring 100 (planet on carrier)", "hold ring; drive sun 60",
                       "carrier 10, planet on carrier -25, planet -15",
                       "exam question, qna.carrieradda.com/4710: carrier 10 rpm read; planet values ours"},
        PublishedRates{"WorkedExampleOfSunThirtyTwo", "sun 32 x planet 20; planet 20 in ring 72 (planet on arm)",
                       "hold ring; drive arm 18", "sun 58.5, planet -46.8, planet on arm -64.8",
                       "'Epicyclic gears worked examples', problem 1, studylib.net/doc/26184123: 58.5 and 46.8 read"},
        PublishedRates{"TwoInputsByTheFormulaMethod", "sun 40 x planet 20; planet 20 in ring 80 (planet on arm)",
                       "drive sun -100, arm -200", "ring -250, planet on arm -200, planet -400",
                       "Norton, Design of Machinery, epicyclic example by the formula method (ring -250 rpm); from "
                       "memory"},
        PublishedRates{
            "PlanetaryExampleTwentyThirtyEighty", "sun 20 x planet 30; planet 30 in ring 80 (planet on arm)",
            "hold ring; drive sun -100", "arm -20, planet 100/3, planet on arm 160/3",
            "Shigley, Mechanical Engineering Design, planetary example (20 and 33 1/3 rev/min); from memory"},
        PublishedRates{"QuarterSpeedWithTheRingHeld", "sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)",
                       "hold ring; drive sun 1", "carrier 1/4, planet -1/2",
                       "i = 1 + R/S: Willis, Principles of Mechanism (1841), any text; from memory"},
        PublishedRates{"StarWithTheCarrierHeld", "sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)",
                       "hold carrier; drive sun 1", "ring -1/3, planet -1",
                       "-S/R: Willis, Principles of Mechanism (1841), any text; from memory"},
        PublishedRates{"SunHeldAndRingDriven", "sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)",
                       "hold sun; drive ring 1", "carrier 3/4",
                       "R/(R + S): Willis, Principles of Mechanism (1841), any text; from memory"},
        PublishedRates{"DifferentialTurningAsOne", "sun 24 x planet 18; planet 18 in ring 60 (planet on carrier)",
                       "drive sun 1, carrier 1", "ring 1, planet 1",
                       "kinematic inversion, common practice; from memory"},
        PublishedRates{"TextExampleOfFortyTwentyEighty", "sun 40 x planet 20; planet 20 in ring 80 (planet on carrier)",
                       "hold ring; drive sun -100", "carrier -100/3",
                       "type of example in Norton, Design of Machinery, ch. 9; from memory, tooth counts ours"},
        PublishedRates{"TwoDriversByTheTabularMethod", "sun 40 x planet 20; planet 20 in ring 80 (planet on carrier)",
                       "drive sun 200, carrier 80", "ring 20", "tabular method; from memory"}),
    name_of_row);

constexpr const char* kFerguson =
    "Ferguson's paradox, page on it (fixed 32, 31 and 33, thick 24: counts and 'one each way, one not at all' read) "
    "and "
    "Dudeney's puzzle answer (issuhub.com/view/index/3801?pageIndex=315) for the sense; values ours";
constexpr const char* kOrrery =
    "web page on Ferguson's orrery: wheel counts, 'B rotates twice', senses of nodes and apogee read; values ours";
constexpr const char* kStrainWave =
    "airobotsight.com 'high precision strain wave gear design': i = -Zfs/(Zcs - Zfs) and Zcs = 202 read; 200 and both "
    "values from memory";
constexpr const char* kCycloidal = "encyclopaedia article 'Cycloidal drive': r = (P - L)/L; from memory";

INSTANTIATE_TEST_SUITE_P(
    Paradoxes, Published,
    testing::Values(
        PublishedRates{
            "FergusonsParadoxOfHundred",
            "fixed 100 x thick 20; thick 20 x w99 99; thick 20 x w100 100; thick 20 x w101 101 (thick on arm)",
            "hold fixed; drive arm 1", "w99 -1/99, w100 0, w101 1/101",
            "James Ferguson, 1764, in encyclopaedias; Norton, Design of Machinery, Ferguson's paradox "
            "example; from memory"},
        // Printed -1.01, 0, 0.99.
        PublishedRates{
            "FergusonsParadoxAtHundredTurns",
            "fixed 100 x thick 20; thick 20 x w99 99; thick 20 x w100 100; thick 20 x w101 101 (thick on arm)",
            "hold fixed; drive arm 100", "w99 -100/99, w100 0, w101 100/101",
            "Norton, Design of Machinery, Ferguson's paradox example; from memory"},
        PublishedRates{"FergusonsParadoxOfThirtyTwo",
                       "fixed 32 x thick 24; thick 24 x w31 31; thick 24 x w32 32; thick 24 x w33 33 (thick on arm)",
                       "hold fixed; drive arm 1", "w31 -1/31, w32 0, w33 1/33", kFerguson},
        PublishedRates{"FergusonsParadoxWithAnotherThickWheel",
                       "fixed 32 x thick 17; thick 17 x w31 31; thick 17 x w32 32; thick 17 x w33 33 (thick on arm)",
                       "hold fixed; drive arm 1", "w31 -1/31, w32 0, w33 1/33", kFerguson},
        // Periods of 18.5 and 8.8 turns of the arm.
        PublishedRates{
            "FergusonsOrrery",
            "a 39 x b 39; b 39 x c39 39; b 39 x c37 37; b 39 x c44 44 (b on arm, c39 on arm, c37 on arm, c44 "
            "on arm)",
            "hold a; drive arm 1", "c39 0, c37 -2/37, c44 5/44, b 2", kOrrery},
        PublishedRates{"SunAndPlanetOfEqualWheels", "sun 30 x planet 30 (planet on arm)", "hold planet; drive arm 1",
                       "sun 2, planet on arm -1",
                       "Watt's sun and planet: Lardner, The Steam Engine, ch. VII (textbase.scriptorium.ro/lardner/"
                       "the_steam_engine/chap_vii/114), two revolutions of the sun to one orbit; read"},
        PublishedRates{
            "SunAndPlanetOfFortyOnTwentyFive", "sun 25 x planet 40 (planet on arm)", "hold planet; drive arm 1",
            "sun 13/5, planet on arm -1",
            "Watt's sun and planet: Lardner, The Steam Engine, ch. VII; principle read, counts and value ours"},
        PublishedRates{"SunAndPlanetOfTheBeamEngine", "crankshaft 40 x rod gear 40 (rod gear on link)",
                       "hold rod gear; drive link 1", "crankshaft 2",
                       "Watt's sun and planet, 1781; common knowledge, from memory"},
        PublishedRates{"TusiCouple", "planet 26 in ring 52 (planet on arm)", "hold ring; drive arm 1",
                       "planet -1, planet on arm -2",
                       "Cardan circles, White's engine of 1801: standard theorem of the hypocycloid of ratio 2; from "
                       "memory"},
        // generator : flex = -100
        PublishedRates{"StrainWaveWithItsSplineHeld", "flex 200 in circular 202 (flex on generator)",
                       "hold circular; drive generator 1", "flex -1/100", kStrainWave},
        // generator : circular = 101
        PublishedRates{"StrainWaveWithItsFlexibleWheelHeld", "flex 200 in circular 202 (flex on generator)",
                       "hold flex; drive generator 1", "circular 1/101", kStrainWave},
        PublishedRates{"CycloidalReducerOfTenLobes", "disc 10 in pins 11 (disc on eccentric)",
                       "hold pins; drive eccentric 1", "disc -1/10", kCycloidal},
        PublishedRates{"CycloidalReducerOfTwentyNineLobes", "disc 29 in pins 30 (disc on eccentric)",
                       "hold pins; drive eccentric 1", "disc -1/29", kCycloidal},
        PublishedRates{"CycloidalReducerOfThirtyNineLobes", "disc 39 in ring pins 40 (disc on crank)",
                       "hold ring pins; drive crank 1", "disc -1/39", "i = -N/(P - N), common practice; from memory"},
        PublishedRates{"TourbillonPinion", "fixed 80 x pinion 8 (pinion on carriage)", "hold fixed; drive carriage 1",
                       "pinion on carriage 10, pinion 11",
                       "watchmaking texts, 1 + fixed/pinion; from memory, counts ours"}),
    name_of_row);

constexpr const char* kSimpson36 =
    "sun 36 x planet1 22; planet1 22 in ring1 80; sun 36 x planet2 22; planet2 22 in ring2 80 (planet1 on carrier1, "
    "planet2 on carrier2)";
constexpr const char* kSimpson36Source =
    "published three-speed ratios 2.45 / 1.45 / 1.00 / -2.2 (texts on automatic transmissions); from memory, counts "
    "ours with S/R = 9/20";
constexpr const char* kSimpson24 =
    "sun 24 x planet1 22; planet1 22 in ring1 69; sun 24 x planet2 22; planet2 22 in ring2 69 (planet1 on carrier1, "
    "planet2 on carrier2)";
constexpr const char* kSimpson24Source =
    "first = 2 + S/R, second = 1 + S/R, reverse = -R/S: transmission texts; from memory";
constexpr const char* kRavigneaux31 =
    "small 31 x short 20; short 20 x long 23; long 23 in ring 85; large 38 x long 23 (short on carrier, long on "
    "carrier)";
constexpr const char* kRavigneaux31Source =
    "published six-speed arrangement in which a simple set feeds a Ravigneaux set (31/38/85); from memory, planet "
    "counts ours";
constexpr const char* kRavigneaux24 =
    "small 24 x short 20; short 20 x long 22; long 22 x large 30; long 22 in ring 74 (short on carrier, long on "
    "carrier)";

INSTANTIATE_TEST_SUITE_P(
    ChangeSpeedTrains, Published,
    testing::Values(
        // input : output 49/20, 29/20, 1, -20/9
        PublishedRates{"Simpson36First", kSimpson36, "hold carrier2; tie carrier1=ring2; drive ring1 1",
                       "carrier1 20/49", kSimpson36Source},
        PublishedRates{"Simpson36Second", kSimpson36, "hold sun; tie carrier1=ring2; drive ring1 1", "carrier1 20/29",
                       kSimpson36Source},
        PublishedRates{"Simpson36Third", kSimpson36, "tie carrier1=ring2, ring1=sun; drive ring1 1", "carrier1 1",
                       kSimpson36Source},
        PublishedRates{"Simpson36Reverse", kSimpson36, "hold carrier2; tie carrier1=ring2; drive sun 1",
                       "carrier1 -9/20", kSimpson36Source},
        PublishedRates{"Simpson24First", kSimpson24, "hold carrier2; tie carrier1=ring2; drive ring1 1",
                       "carrier1 23/54", kSimpson24Source},
        PublishedRates{"Simpson24Second", kSimpson24, "hold sun; tie carrier1=ring2; drive ring1 1", "carrier1 23/31",
                       kSimpson24Source},
        PublishedRates{"Simpson24Reverse", kSimpson24, "hold carrier2; tie carrier1=ring2; drive sun 1",
                       "carrier1 -8/23", kSimpson24Source},
        // input : output 85/31, 1955/1271, 1, 85/123, -85/38
        PublishedRates{"Ravigneaux31First", kRavigneaux31, "hold carrier; drive small 1", "ring 31/85",
                       kRavigneaux31Source},
        PublishedRates{"Ravigneaux31Second", kRavigneaux31, "hold large; drive small 1", "ring 1271/1955",
                       kRavigneaux31Source},
        PublishedRates{"Ravigneaux31ThirdBySuns", kRavigneaux31, "tie small=large; drive small 1", "ring 1",
                       kRavigneaux31Source},
        PublishedRates{"Ravigneaux31ThirdBySmallSunAndCarrier", kRavigneaux31, "tie small=carrier; drive small 1",
                       "ring 1", kRavigneaux31Source},
        PublishedRates{"Ravigneaux31ThirdByLargeSunAndRing", kRavigneaux31, "tie large=ring; drive small 1",
                       "ring 1, carrier 1", kRavigneaux31Source},
        PublishedRates{"Ravigneaux31Fourth", kRavigneaux31, "hold large; drive carrier 1", "ring 123/85",
                       kRavigneaux31Source},
        PublishedRates{"Ravigneaux31Reverse", kRavigneaux31, "hold carrier; drive large 1", "ring -38/85",
                       kRavigneaux31Source},
        PublishedRates{"Ravigneaux24First", kRavigneaux24, "hold carrier; drive small 1", "ring 12/37",
                       "R/S of the small sun; from memory"},
        PublishedRates{"Ravigneaux24Second", kRavigneaux24, "hold large; drive small 1", "ring 208/333",
                       "i = (R/Ss)(Ss + Sl)/(R + Sl); from memory"},
        PublishedRates{"Ravigneaux24Reverse", kRavigneaux24, "hold carrier; drive large 1", "ring -15/37",
                       "-R/S of the large sun; from memory"},
        PublishedRates{"Ravigneaux24Top", kRavigneaux24, "hold large; drive carrier 1", "ring 52/37",
                       "1 + Sl/R; from memory"}),
    name_of_row);

INSTANTIATE_TEST_SUITE_P(
    CompoundTrains, Published,
    testing::Values(
        // sun : ring2 = 536/7
        PublishedRates{"WolfromOfSunTwentyOne",
                       "sun 21 x step 24; step 24 in ring1 69; step 22 in ring2 67 (step on carrier)",
                       "hold ring1; drive sun 1", "ring2 7/536, carrier 7/30, step on carrier -161/240",
                       "(1 + R1/S)/(1 - R1 P2/(P1 R2)): Mueller, Epicyclic Drive Trains; derived, counts ours"},
        PublishedRates{"WolfromOfSunTwelve",
                       "sun 12 x step 39; step 39 in ring fixed 90; step 36 in ring out 87 (step on carrier)",
                       "hold ring fixed; drive sun 1", "ring out 2/377",
                       "i = (1 + R1/S)/(1 - R1 P2/(P1 R2)); from memory"},
        PublishedRates{"SteppedPlanets", "sun 18 x step 36; step 18 in ring 72 (step on carrier)",
                       "hold ring; drive sun 1", "carrier 1/9", "i = 1 + (P1 R)/(S P2), Levai's types; from memory"},
        PublishedRates{"PairedPlanetsThirtyNinety",
                       "sun 30 x inner 18; inner 18 x outer 18; outer 18 in ring 90 (inner on carrier, outer on "
                       "carrier)",
                       "hold ring; drive sun 1", "carrier -1/2", "i = 1 - R/S, double planet; from memory"},
        PublishedRates{"PairedPlanetsThirtySeventyTwo",
                       "sun 30 x inner 14; inner 14 x outer 15; outer 15 in ring 72 (inner on carrier, outer on "
                       "carrier)",
                       "hold ring; drive sun 1", "carrier -5/7, inner on carrier -180/49, outer on carrier 24/7",
                       "Mueller, Epicyclic Drive Trains, set of positive ratio, i0 = R/S; derived, counts ours"},
        // driver : driven = 80/17
        PublishedRates{"CompoundPlanetOnADrivingArm", "e 21 x planet 30; d 24 x planet 27 (planet on driver)",
                       "hold e; drive driver 1", "d 17/80",
                       "problem read at adapala-academy.com/forum 3933; answer ours"},
        // Velocity ratio -2.64.
        PublishedRates{"TwoSunsAndACompoundPlanet", "a 28 x planet 22; d 24 x planet 26 (planet on arm)",
                       "hold a; drive arm 1", "d -25/66",
                       "problem read at holooly.com (fig. 15.29); answer ours; its torques are in torques_test.cpp"},
        // 6 x 17/4 = 51/2
        PublishedRates{
            "TwoStagesInSeries",
            "sun1 20 x planet1 40; planet1 40 in ring1 100; carrier1 24 x planet2 27; planet2 27 in ring2 78 "
            "(planet1 on carrier1, planet2 on carrier2)",
            "hold ring1, ring2; drive sun1 1", "carrier1 1/6, carrier2 2/51, planet2 on carrier2 -52/459",
            "product of the stages' ratios; derived, counts ours"},
        PublishedRates{"PlanetOnAPlanet", "sun 30 x a 20; k 24 x b 12 (a on c1, k on c1, b on a)",
                       "hold sun; tie k=c1; drive c1 1", "a on c1 3/2, a 5/2, b on a 3, b 11/2",
                       "Willis's formula superposed twice; derived, counts ours"}),
    name_of_row);

constexpr const char* kAntikythera =
    "Freeth et al., Nature 444 (2006) 587; Price, Gears from the Greeks, 1974; tooth counts from memory";
constexpr const char* kOrreryBlog = "wooden orrery, oceananinchdeep.blogspot.com, Feb 2010; counts and days read";
constexpr const char* kClock = "clock repair texts (Britten); from memory";

INSTANTIATE_TEST_SUITE_P(
    HistoricalTrains, Published,
    testing::Values(
        PublishedRates{"AntikytheraMeanMoon", "b2 64 x c1 38; c1 48 x d1 24; d1 127 x e2 32", "drive b2 1",
                       "e2 -254/19", kAntikythera},
        // 5 turns in 19 years; the Games dial and the Callippic dial go on from it.
        PublishedRates{
            "AntikytheraMetonicDial",
            "year 64 x c 38; c 53 x d 96; d 15 x metonic 53; metonic 57 x games 60; metonic 15 x q 60; q 12 x "
            "callippic 60",
            "drive year 1", "metonic -5/19, games 1/4, callippic -1/76", kAntikythera},
        // 365.2425 days x 47/25 = 686.66 days; x 13/54 = 87.93 days.
        PublishedRates{"WoodenOrreryMarsAndMercury", "year 25 x mars 47; year 54 x mercury 13", "drive year 1",
                       "mars -25/47, mercury -54/13", kOrreryBlog},
        // 60 turns an hour; the hour hand behind the motion work 12/36, 10/40.
        PublishedRates{"LongCaseClock",
                       "centre 64 x third 8; third 60 x escape 8; centre 12 x minute 36; minute 10 x hour 40",
                       "drive centre 1", "escape 60, hour 1/12", kClock}),
    name_of_row);

// Exam question, qna.carrieradda.com/4710: carrier 10 rpm read, planet values ours. The planet's joint sits on the
// carrier, so what is typed is 12 : -5 and not the bare tooth ratio 2 : -1.
TEST(PublishedCoupling, OfSunAndPlanetCountsTheCarriersOwnMotion) {
    const Train train = train_from("sun 20 x planet 40; planet 40 in ring 100 (planet on carrier)");
    const CouplingSheet sheet = couple(train, setting_from(train, "hold ring; drive sun 60"), {});
    const MemberIndex planet = member_named(train, "planet");
    const auto coupling = std::ranges::find_if(
        sheet.couplings, [&](const Coupling& candidate) { return candidate.second.turns == planet; });
    ASSERT_NE(coupling, sheet.couplings.end());
    EXPECT_EQ(coupling->first.turns, member_named(train, "sun"));
    EXPECT_EQ(coupling->second.against, member_named(train, "carrier"));
    EXPECT_EQ(coupling->second_per_first, Ratio(-5, 12));
    EXPECT_EQ(coupling->whole_degrees, (DegreePair{12, -5}));
    ASSERT_TRUE(coupling->correction.has_value());
    EXPECT_EQ(coupling->correction->bare_second_per_first, Ratio(-1, 2));
}

// Gruebler and Kutzbach: a bare simple set has freedom 2; from memory.
TEST(PublishedOutcomes, OfABareSimpleSet) {
    EXPECT_EQ(solved(kSet30, "").motion.freedom, 2);

    const Motion one_driver = solved(kSet30, "drive sun 1").motion;
    EXPECT_EQ(one_driver.outcome, Outcome::free);
    EXPECT_EQ(one_driver.missing_drivers, 1);

    EXPECT_EQ(solved(kSet30, "hold ring, carrier; drive sun 1").motion.outcome, Outcome::locked);

    const SolvedTrain as_one = solved(kSet30, "drive sun 1, carrier 1");
    EXPECT_EQ(as_one.motion.outcome, Outcome::moves);
    EXPECT_EQ(as_one.turns("ring"), Ratio(1));
    EXPECT_EQ(as_one.turns("planet", "carrier"), Ratio(0));
}

// Norton, Design of Machinery, the two-input example: freedom 2; from memory.
TEST(PublishedOutcomes, OfTheTwoInputExample) {
    EXPECT_EQ(solved("sun 40 x planet 20; planet 20 in ring 80 (planet on arm)", "").motion.freedom, 2);
}

}  // namespace
}  // namespace couplet
