#include "place/placement.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "place/placed_train.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

void expect_at(const PlanePoint& point, double x_mm, double y_mm) {
    EXPECT_NEAR(point.x_mm, x_mm, 1e-9);
    EXPECT_NEAR(point.y_mm, y_mm, 1e-9);
}

bool has_finding(const Placement& placement, const std::string& rule) {
    return std::ranges::any_of(placement.findings, [&](const Finding& f) { return f.rule == rule; });
}

TEST(Placement, PutsPlanetsRoundTheCarrierAndTheRestOnItsAxis) {
    const PlacedTrain set = placed(simple_set(30, 18, 66, 3));
    expect_at(set.place("sun").centre_mm, 0, 0);
    expect_at(set.place("ring").centre_mm, 0, 0);
    expect_at(set.place("planet", 1).centre_mm, 24, 0);
    expect_at(set.place("planet", 2).centre_mm, -12, 24 * std::sqrt(3.0) / 2);
    EXPECT_EQ(set.place("planet", 3).turns_from_first, Ratio(2, 3));
    EXPECT_TRUE(set.placement.findings.empty());
    EXPECT_EQ(set.placement.meshes.size(), 6U);
}

TEST(Placement, TakesThePlacesThatAreGiven) {
    const PlacedTrain set = placed(simple_set(30, 18, 66, 2, {Ratio(90), Ratio(180)}));
    expect_at(set.place("planet", 1).centre_mm, 0, 24);
    expect_at(set.place("planet", 2).centre_mm, -24, 0);
    EXPECT_EQ(set.placement.meshes[0].direction, exact_angle(Ratio(1, 4)));
}

TEST(Placement, CompletesTheTriangleOfPairedPlanets) {
    // Sun 24, planets 18 and 20, ring 72: distances 21, 19 and 26 modules.
    Train train =
        sized_train("sun 24 x inner 18; inner 18 x outer 20; outer 20 in ring 72 (inner on arm, outer on arm)");
    set_copies(train, "inner", 3);
    set_copies(train, "outer", 3);
    const PlacedTrain set = placed(train);
    for (int copy = 1; copy <= 3; ++copy) {
        const PlanePoint inner = set.place("inner", copy).centre_mm;
        const PlanePoint outer = set.place("outer", copy).centre_mm;
        EXPECT_NEAR(std::hypot(inner.x_mm, inner.y_mm), 21.0, 1e-9);
        EXPECT_NEAR(std::hypot(outer.x_mm, outer.y_mm), 26.0, 1e-9);
        EXPECT_NEAR(std::hypot(outer.x_mm - inner.x_mm, outer.y_mm - inner.y_mm), 19.0, 1e-9);
    }
    EXPECT_TRUE(set.placement.findings.empty());
}

TEST(Placement, RunsAChainStraightOnAndARingBack) {
    const PlacedTrain chain = placed(sized_train("a 20 x b 30; b 10 x c 40"));
    expect_at(chain.place("b").centre_mm, 25, 0);
    expect_at(chain.place("c").centre_mm, 50, 0);
    const PlacedTrain back = placed(sized_train("a 20 x b 30; b 30 in c 80"));
    expect_at(back.place("c").centre_mm, 0, 0);
}

TEST(Placement, SpreadsCopiesOnTheFrameRoundWhatTheyMeshWith) {
    Train train = sized_train("sun 20 x star 20; star 20 in ring 60");
    set_copies(train, "star", 4);
    const PlacedTrain set = placed(train);
    expect_at(set.place("star", 2).centre_mm, 0, 20);
    expect_at(set.place("ring").centre_mm, 0, 0);
    EXPECT_TRUE(set.placement.findings.empty());
}

TEST(Placement, CountsEveryCopyOfEveryCopy) {
    // Tables ride on the platform, boats on each table round its hub.
    Train train =
        sized_train("kerb 60 x table 20; hub 20 x boat 10 (table on platform, hub on platform, boat on table)");
    set_copies(train, "table", 3);
    set_copies(train, "hub", 3);
    set_copies(train, "boat", 2);
    const PlacedTrain set = placed(train);
    const int first = set.placement.first_place[member_named(train, "boat").position()];
    EXPECT_EQ(set.placement.first_place[member_named(train, "boat").position() + 1] - first, 6);
    expect_at(set.place("boat", 2).centre_on_carrier_mm, -15, 0);
    expect_at(set.place("boat", 2).centre_mm, 25, 0);
    EXPECT_EQ(set.place("boat", 4).own_copy, 2);
    EXPECT_EQ(set.place("boat", 4).under, set.place_of("table", 2));
    // Each boat meshes with the hub under its own table.
    for (const PlacedMesh& mesh : set.placement.meshes) {
        if (set.placement[mesh.second].member != member_named(train, "boat")) continue;
        EXPECT_EQ(set.placement[mesh.first].copy, set.placement[set.placement[mesh.second].under].copy);
    }
    EXPECT_TRUE(set.placement.findings.empty());
}

TEST(Placement, ReportsCentreDistancesThatDisagree) {
    // 99 and 100 teeth over one planet of 20: distances 59.5 and 60.
    Train train = sized_train("a 99 x planet 20; planet 20 x b 100 (planet on arm)");
    const PlacedTrain set = placed(train);
    ASSERT_TRUE(has_finding(set.placement, "centre distances agree"));
    const auto found = std::ranges::find(set.placement.findings, "centre distances agree", &Finding::rule);
    EXPECT_NEAR(found->figure, 0.5, 1e-9);
    EXPECT_EQ(found->verdict, Verdict::fails);
}

TEST(Placement, ReportsARingNoLargerThanItsPlanetWithoutNan) {
    const PlacedTrain set = placed(sized_train("planet 40 in ring 40 (planet on arm)"));
    EXPECT_TRUE(has_finding(set.placement, "operating angle"));
    for (const Place& place : set.placement.places) {
        EXPECT_TRUE(std::isfinite(place.centre_mm.x_mm));
        EXPECT_TRUE(std::isfinite(place.centre_mm.y_mm));
    }
}

TEST(Placement, ReportsCopiesThatNothingHolds) {
    Train train = sized_train("a 20 x b 20");
    set_copies(train, "a", 2);
    set_copies(train, "b", 3);
    const PlacedTrain set = placed(train);
    EXPECT_TRUE(has_finding(set.placement, "place of copies"));
    EXPECT_TRUE(has_finding(set.placement, "copies in mesh"));
}

TEST(Placement, RefusesMoreCopiesThanItCanHold) {
    Train train = sized_train("a 60 x b 20; c 20 x d 10 (b on e, c on e, d on b)");
    set_copies(train, "b", 1000);
    set_copies(train, "d", 1000);
    const TrainTeeth teeth = teeth_of(train);
    EXPECT_THROW(static_cast<void>(place_members(train, teeth)), std::length_error);
}

TEST(Placement, RefusesCrossingAxes) {
    Train train = sized_train("a 20 x b 20");
    train.members[1].axis = {Ratio(1), Ratio(0), Ratio(0)};
    const TrainTeeth teeth = teeth_of(train);
    EXPECT_THROW(static_cast<void>(place_members(train, teeth)), std::invalid_argument);
}

}  // namespace
}  // namespace couplet
