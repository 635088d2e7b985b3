// Distances are derived: a planet of radius r at distance d sweeps from d - r to d + r round its carrier's axis.
#include "solid/sweep.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"
#include "support/dice.hpp"

namespace couplet {
namespace {

// Pitch radii 10 and 10: the planets' axes are 20 from the middle.
PlacedTrain set_of_three() {
    return placed(simple_set(20, 20, 60, 3));
}

Band band(const PlacedTrain& set, PlaceIndex body, double inner_mm, double outer_mm) {
    const PlanePoint centre = body.value < 0 ? PlanePoint{} : set.placement[body].centre_mm;
    return {body, centre, inner_mm, outer_mm, {0.0, 1.0}};
}

TEST(Sweep, APlanetSweepsARingRoundItsCarriersAxis) {
    const PlacedTrain set = set_of_three();
    const Band swept = swept_on_frame(set.placement, band(set, set.place_of("planet", 2), 0.0, 4.0));
    EXPECT_EQ(swept.body, PlaceIndex{-1});
    EXPECT_NEAR(swept.centre_mm.x_mm, 0.0, 1e-12);
    EXPECT_NEAR(swept.inner_mm, 16.0, 1e-12);
    EXPECT_NEAR(swept.outer_mm, 24.0, 1e-12);
}

// A post at 24.5 is as near as a planet comes, wherever the planet starts.
TEST(Sweep, WhatStandsStillMeetsAPlanetAnywhereOnItsWay) {
    const PlacedTrain set = set_of_three();
    const Band planet = band(set, set.place_of("planet", 1), 0.0, 4.0);
    Band post = band(set, {-1}, 0.0, 0.5);
    post.centre_mm = {0.0, -24.5};
    EXPECT_FALSE(can_meet(set.placement, planet, post));
    post.outer_mm = 0.6;
    EXPECT_TRUE(can_meet(set.placement, planet, post));
}

// Their axes are 20 sqrt(3) = 34.6 apart on the carrier, though each sweeps where the other does.
TEST(Sweep, PlanetsOfOneCarrierKeepTheirDistance) {
    const PlacedTrain set = set_of_three();
    const PlaceIndex first = set.place_of("planet", 1);
    const PlaceIndex second = set.place_of("planet", 2);
    EXPECT_FALSE(can_meet(set.placement, band(set, first, 0.0, 17.0), band(set, second, 0.0, 17.0)));
    EXPECT_TRUE(can_meet(set.placement, band(set, first, 0.0, 17.5), band(set, second, 0.0, 17.5)));
}

TEST(Sweep, APinDoesNotMeetTheHubThatTurnsOnIt) {
    const PlacedTrain set = set_of_three();
    Band pin = band(set, set.place_of("carrier"), 0.0, 2.0);
    pin.centre_mm = set.place("planet", 1).centre_mm;
    EXPECT_FALSE(can_meet(set.placement, pin, band(set, set.place_of("planet", 1), 2.1, 8.0)));
    EXPECT_TRUE(can_meet(set.placement, pin, band(set, set.place_of("planet", 1), 1.9, 8.0)));
}

TEST(Sweep, HeightsAndOneBodySeparate) {
    const PlacedTrain set = set_of_three();
    const Band sun = band(set, set.place_of("sun"), 0.0, 9.0);
    Band plate = band(set, set.place_of("carrier"), 0.0, 20.0);
    EXPECT_TRUE(can_meet(set.placement, sun, plate));
    plate.span = {1.0, 2.0};
    EXPECT_FALSE(can_meet(set.placement, sun, plate));
    EXPECT_TRUE(can_meet_in_plan(set.placement, sun, plate));
    EXPECT_FALSE(can_meet_in_plan(set.placement, sun, sun));
}

TEST(Surroundings, FindWhatComparingEachWithEachFinds) {
    const PlacedTrain set = set_of_three();
    Dice dice(7);
    std::vector<Band> bands;
    Surroundings around(set.placement, 5.0, 3.0);
    for (int i = 0; i < 400; ++i) {
        Band each = band(set, {dice.between(-1, static_cast<int>(set.placement.places.size()) - 1)}, 0.0, 1.0);
        each.centre_mm = {dice.between(-300, 300) / 5.0, dice.between(-300, 300) / 5.0};
        each.outer_mm = dice.chance(5) ? 200.0 : dice.between(1, 80) / 10.0;
        each.inner_mm = dice.chance(30) ? each.outer_mm / 2.0 : 0.0;
        each.span.bottom_mm = dice.between(-20, 20);
        each.span.top_mm = each.span.bottom_mm + dice.between(1, 12);
        std::vector<std::size_t> expected;
        for (std::size_t k = 0; k < bands.size(); ++k)
            if (can_meet(set.placement, each, bands[k])) expected.push_back(k);
        EXPECT_EQ(around.meeting(each), expected);
        EXPECT_EQ(around.is_clear(each), expected.empty());
        around.add(each);
        bands.push_back(each);
    }
}

}  // namespace
}  // namespace couplet
