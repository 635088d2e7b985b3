#include "sheet/place_words.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

std::string first_condition(const PlacedTrain& set) {
    const Assembly assembly = set.assembly();
    EXPECT_FALSE(assembly.conditions.empty());
    return condition_text(set.train, assembly.conditions.at(0));
}

// (S + R) / n of the texts on planetary gears (from memory).
TEST(ConditionText, ShowsTheArithmeticOfASimpleSet) {
    EXPECT_EQ(first_condition(placed(simple_set(21, 24, 69, 3))),
              "sun by way of planet to ring, simple planets: (21 + 69) / 3 = 30, whole: equal spacing assembles. "
              "Copies may stand at whole multiples of 4 deg.");
    EXPECT_NE(first_condition(placed(simple_set(22, 20, 62, 5))).find("(22 + 62) / 5 = 84/5, not whole"),
              std::string::npos);
}

// (S P2 + R P1) / (n gcd(P1, P2)) likewise.
TEST(ConditionText, ShowsTheArithmeticOfASteppedSet) {
    const std::string text = first_condition(placed(stepped_set(24, 40, 16, 80, 4)));
    EXPECT_NE(text.find("stepped planets: (24 * 16 + 80 * 40) / (4 * 8) = 112, whole"), std::string::npos) << text;
}

TEST(ConditionText, JudgesUnequalPlaces) {
    const std::string text = first_condition(placed(simple_set(27, 18, 63, 3, {0, 116, 240})));
    EXPECT_NE(text.find("the places given suit."), std::string::npos) << text;
}

TEST(PlaceNames, NumberCopiesOnly) {
    const PlacedTrain set = placed(simple_set(21, 24, 69, 3));
    EXPECT_EQ(place_name(set.train, set.placement, set.place_of("planet", 2)), "planet 2");
    EXPECT_EQ(place_name(set.train, set.placement, set.place_of("ring")), "ring");
    EXPECT_EQ(mesh_place_name(set.train, set.placement, set.placement.meshes.at(1)), "sun with planet 2");
}

TEST(AngleCell, IsExactWhereItCanBe) {
    EXPECT_EQ(angle_cell({Ratio(15, 2), 7.5}).full, "7.5");
    EXPECT_EQ(angle_cell({Ratio(6, 7), 0.857}).full, "6/7");
    EXPECT_EQ(angle_cell({std::nullopt, 0.1234567890}).shown, "0.123457");
}

// 84 places in a turn: 72 deg is 16.8 of them, so 16 and 17 suit (derived).
TEST(MisplacedText, NamesTheNearestPlaces) {
    const PlacedTrain set = placed(simple_set(22, 20, 62, 5));
    const Assembly assembly = set.assembly();
    ASSERT_EQ(assembly.misplaced.size(), 4U);
    EXPECT_EQ(misplaced_text(set.train, set.placement, assembly.misplaced[0]),
              "planet 2 stands at 72 deg from the first copy and misses by 6/7 deg. The nearest places that suit are "
              "480/7 deg and 510/7 deg.");
    MisplacedCopy nowhere = assembly.misplaced[0];
    nowhere.below.reset();
    EXPECT_NE(misplaced_text(set.train, set.placement, nowhere).find("no place round the centre suits"),
              std::string::npos);
}

TEST(HuntingText, TellsHuntingFromFactorising) {
    const Train train = simple_set(21, 24, 69, 3);
    EXPECT_EQ(
        hunting_text(train, hunting_of(train, {0})),
        "sun with planet: each tooth meets just one in 3 teeth of the other gear; the same teeth meet again after "
        "8 turns of sun and 7 of planet, against the arm.");
    const Train hunting = simple_set(20, 21, 62, 2);
    EXPECT_NE(hunting_text(hunting, hunting_of(hunting, {0})).find("hunting, each tooth meets all others"),
              std::string::npos);
}

}  // namespace
}  // namespace couplet
