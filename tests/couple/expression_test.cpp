#include "couple/expression.hpp"

#include <gtest/gtest.h>

#include "couple/coupling.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

std::string expression_of(const char* meshes, const char* setting, const std::string& second) {
    const Train train = train_from(meshes);
    const CouplingSheet sheet = couple(train, setting_from(train, setting), {});
    for (const Coupling& coupling : sheet.couplings)
        if (coupling.second.name == second) return coupling.expression;
    return "no such coupling";
}

constexpr const char* kCapstan = "crank 21 x planet 24; planet 24 in ring 69 (planet on drum)";

TEST(Expression, OfASimpleSetIsTheOneOnPaper) {
    EXPECT_EQ(expression_of(kCapstan, "hold ring; drive crank 30", "planet on drum"), "-360 * 21/24 * 69/(21+69)");
    EXPECT_EQ(expression_of(kCapstan, "hold ring; drive crank 30", "drum on frame"), "360 * 21/(21+69)");
    EXPECT_EQ(expression_of(kCapstan, "hold drum; drive crank 30", "ring on frame"), "-360 * 21/69");
    EXPECT_EQ(expression_of(kCapstan, "hold ring; drive crank 30", "ring on frame"), "0");
}

TEST(Expression, PlanetCountsCancelBetweenPairedPlanets) {
    EXPECT_EQ(expression_of("sun 30 x inner 14; inner 14 x outer 15; outer 15 in ring 72 (inner on carrier, outer on "
                            "carrier)",
                            "hold ring; drive sun 1", "carrier on frame"),
              "360 * 30/(30-72)");
}

TEST(Expression, OfSteppedPlanetsKeepsTheProducts) {
    EXPECT_EQ(expression_of("sun 18 x step 36; step 16 in ring 70 (step on carrier)", "hold ring; drive sun 1",
                            "carrier on frame"),
              "360 * 18/(18*16+36*70) * 16");
}

TEST(Expression, WritesAFractionForAnyAngle) {
    EXPECT_EQ(fraction_expression(Ratio(-161, 240), 360), "-360 * 161/240");
    EXPECT_EQ(fraction_expression(Ratio(-4), Ratio(-1, 3)), "1/3 * 4");
    EXPECT_EQ(fraction_expression(0, 360), "0");
}

TEST(Expression, EvaluatesWithTheUsualPrecedence) {
    EXPECT_EQ(evaluate_expression("-360 * 21/24 * 69/(21+69)"), Ratio(-483, 2));
    EXPECT_EQ(evaluate_expression("1+2*3-4/8"), Ratio(13, 2));
    EXPECT_EQ(evaluate_expression(" ( -2 - 3 ) * 2.5 "), Ratio(-25, 2));
    EXPECT_EQ(evaluate_expression("360/24/(21+69)"), Ratio(1, 6));
}

TEST(Expression, RefusesOtherTexts) {
    for (const char* text : {"", "1+", "(1", "1)", "1/0", "1/(2-2)", "2**3", "sin(1)", "1 2", "*3", "1..2"})
        EXPECT_FALSE(evaluate_expression(text)) << text;
    EXPECT_FALSE(evaluate_expression(std::string(100000, '(') + "1" + std::string(100000, ')')));
}

// Whatever the train, the text is worth exactly what the solver says.
TEST(Expression, IsWorthTheExactAngleInRandomTrains) {
    int compared = 0;
    int in_tooth_counts = 0;
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        RandomTrainKind kind;
        kind.most_members = 24;
        kind.moves = seed % 4 != 0;
        const auto [train, setting] = random_train(seed, kind);
        for (const Coupling& coupling : couple(train, setting, {}).couplings) {
            if (!coupling.second_per_first || coupling.second_per_first->is_zero()) continue;
            ASSERT_EQ(evaluate_expression(coupling.expression), coupling.degrees[1])
                << "seed " << seed << ": " << coupling.expression;
            ++compared;
            if (coupling.expression != fraction_expression(*coupling.second_per_first, 360)) ++in_tooth_counts;
        }
    }
    EXPECT_GT(compared, 500);
    EXPECT_GT(in_tooth_counts, compared * 3 / 4);
}

TEST(Expression, FallsBackOnTheFractionWhereTheTrainIsLarge) {
    std::string meshes = "w0 20 x w1 30";
    for (int i = 1; i < 450; ++i) meshes += "; w" + std::to_string(i) + " 30 x w" + std::to_string(i + 1) + " 30";
    const Train train = train_from(meshes);
    const CouplingSheet sheet = couple(train, setting_from(train, "drive w0 1"), {});
    EXPECT_EQ(sheet.couplings.front().expression, "-360 * 2/3");
}

}  // namespace
}  // namespace couplet
