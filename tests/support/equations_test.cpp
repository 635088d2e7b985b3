#include "support/equations.hpp"

#include <gtest/gtest.h>

#include "support/flint_rates.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// Members in order: sun, planet, ring, carrier.
const char* const kSimpleSet = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";

TEST(Equations, AreThoseOfTheDesignForASimpleSet) {
    const Train train = train_from(kSimpleSet);
    EXPECT_EQ(mesh_rows(train), (RateRows{{{0, 30}, {1, 18}, {3, -30}}, {{1, 18}, {2, -66}, {3, 66}}}));
    const Setting setting = setting_from(train, "hold planet; tie sun=planet; drive ring 1");
    EXPECT_EQ(hold_and_tie_rows(train, setting), (RateRows{{{1, 1}, {3, 1}}, {{0, 1}, {1, -1}, {3, -1}}}));
    EXPECT_EQ(driver_rows(train, setting), (RateRows{{{2, 1}}}));
}

TEST(Equations, MeasureMeshesOfOneCarriersRidersAgainstIt) {
    const Train train = train_from("a 10 x b 20; b 20 x c 15 (a on arm, b on arm, c on b)");
    // b carries c, so it is no partner of c's in mesh: nothing stands still for both.
    EXPECT_THROW((void)mesh_rows(train), std::invalid_argument);
    EXPECT_EQ(mesh_rows(train_from("a 10 x b 20 (a on arm, b on arm)")), (RateRows{{{0, 10}, {1, 20}}}));
}

TEST(FlintRates, SolvesASimpleSet) {
    const Train train = train_from(kSimpleSet);
    const Setting setting = setting_from(train, "hold ring; drive sun 1");
    const RateRows rows = joined(still_rows(train, setting), driver_rows(train, setting));
    EXPECT_EQ(rank_by_flint(rows, 4), 4U);
    const FlintRates rates = rates_by_flint(rows, {{0}, {0}, {0}, {1}}, 4);
    ASSERT_TRUE(rates.consistent);
    EXPECT_EQ(rates.rates[1]->front(), Ratio(-55, 48));
    EXPECT_EQ(rates.rates[3]->front(), Ratio(5, 16));
}

TEST(FlintRates, TellsWhatIsContradictoryAndWhatIsUndetermined) {
    const RateRows rows{{{0, 1}}, {{0, 1}}, {{1, 1}, {2, 1}}};
    EXPECT_FALSE(rates_by_flint(rows, {{1}, {2}, {0}}, 3).consistent);
    const FlintRates rates = rates_by_flint(rows, {{1}, {1}, {0}}, 3);
    EXPECT_TRUE(rates.consistent);
    EXPECT_TRUE(rates.rates[0].has_value());
    EXPECT_FALSE(rates.rates[1].has_value());
}

}  // namespace
}  // namespace couplet
