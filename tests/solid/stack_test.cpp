// Expected heights are derived from what stack.hpp promises; radii from the sizes in tooth/, which has its own tests.
#include "solid/stack.hpp"

#include <gtest/gtest.h>

#include "solid/machine_bands.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

struct Stacked {
    PlacedTrain placed;
    Stack stack;

    [[nodiscard]] const Span& span(const std::string& member, std::size_t gear = 0) const {
        return stack.gears[gears_of(placed.train, member_named(placed.train, member))[gear].position()];
    }
};

Stacked stacked(Train train) {
    Stacked result{placed(std::move(train)), {}};
    result.stack = stack_of(result.placed.train, result.placed.teeth, result.placed.placement);
    return result;
}

Train with_module(Train train) {
    train.teeth.module_mm = Ratio(1);
    return train;
}

std::vector<Stacked> usual_trains() {
    std::vector<Stacked> trains;
    for (const std::filesystem::path& path : shipped_scenes())
        trains.push_back(stacked(read_scene(load_scene_text(path), path.filename().string())));
    trains.push_back(stacked(with_module(idler_chain(60).train)));
    trains.push_back(stacked(with_module(compound_chain(30).train)));
    trains.push_back(stacked(with_module(family_a(40).train)));
    trains.push_back(stacked(with_module(family_b(30, DriverPlace::far_end).train)));
    trains.push_back(stacked(with_module(many_small_sets(40).train)));
    return trains;
}

double middle(const Span& span) {
    return (span.bottom_mm + span.top_mm) / 2.0;
}

bool is_long(const Stacked& set, GearIndex gear) {
    const Span& span = set.stack.gears[gear.position()];
    return span.top_mm - span.bottom_mm > set.placed.teeth.gears[gear.position()].spec.face_width_mm + 1e-9;
}

PartBand band_of_gear(const Stacked& set, GearIndex gear, const Place& place) {
    const GearSizes& sizes = set.placed.teeth.gears[gear.position()];
    const Span& span = set.stack.gears[gear.position()];
    const bool internal = sizes.spec.internal;
    return {place.centre_mm, internal ? sizes.tip_diameter_mm / 2.0 : 0.0,
            (internal ? sizes.root_diameter_mm : sizes.tip_diameter_mm) / 2.0, span.bottom_mm, span.top_mm};
}

TEST(Stack, GearsInMeshShareTheirMiddleOrLieWithinALongOne) {
    int in_the_middle = 0;
    for (const Stacked& set : usual_trains())
        for (const Mesh& mesh : set.placed.train.meshes) {
            const Span& a = set.stack.gears[mesh.first.position()];
            const Span& b = set.stack.gears[mesh.second.position()];
            if (!is_long(set, mesh.first) && !is_long(set, mesh.second)) {
                EXPECT_NEAR(middle(a), middle(b), 1e-9) << set.placed.train.title;
                ++in_the_middle;
                continue;
            }
            const Span& longer = is_long(set, mesh.first) ? a : b;
            const Span& other = is_long(set, mesh.first) ? b : a;
            EXPECT_LE(longer.bottom_mm, other.bottom_mm + 1e-9) << set.placed.train.title;
            EXPECT_GE(longer.top_mm, other.top_mm - 1e-9) << set.placed.train.title;
        }
    EXPECT_GT(in_the_middle, 100);
}

TEST(Stack, GearsThatAreNotInMeshNeverMeet) {
    for (const Stacked& set : usual_trains()) {
        std::vector<std::pair<GearIndex, PartBand>> bands;
        for (const Place& place : set.placed.placement.places)
            for (const GearIndex gear : gears_of(set.placed.train, place.member))
                bands.emplace_back(gear, band_of_gear(set, gear, place));
        for (std::size_t i = 0; i < bands.size(); ++i)
            for (std::size_t k = 0; k < i; ++k) {
                const auto& [a, band_a] = bands[i];
                const auto& [b, band_b] = bands[k];
                if (a == b || are_in_mesh(set.placed.train, a, b)) continue;
                EXPECT_FALSE(meet(band_a, band_b))
                    << name_of(set.placed.train, a) << " and " << name_of(set.placed.train, b);
            }
    }
}

TEST(Stack, TiersRiseFromAboveTheStandWithAQuarterOfTheFaceBetween) {
    for (const Stacked& set : usual_trains()) {
        ASSERT_FALSE(set.stack.tiers.empty());
        EXPECT_GT(set.stack.tiers.front().bottom_mm, 0.0);
        for (std::size_t i = 1; i < set.stack.tiers.size(); ++i)
            EXPECT_NEAR(set.stack.tiers[i].bottom_mm - set.stack.tiers[i - 1].top_mm, set.stack.gap_mm, 1e-9);
        EXPECT_DOUBLE_EQ(set.stack.tiers.back().top_mm, set.stack.top_mm);
    }
    // Ten modules of face, by train_teeth.hpp.
    EXPECT_DOUBLE_EQ(stacked(simple_set(20, 20, 60, 4)).stack.gap_mm, 2.5);
}

TEST(Stack, ACarriersPlateIsBelowAllThatItCarries) {
    for (const Stacked& set : usual_trains())
        for (const CarrierPlates& plates : set.stack.carriers)
            for (std::size_t m = 0; m < set.placed.train.members.size(); ++m) {
                if (set.placed.train.members[m].rides_on != plates.carrier) continue;
                for (const GearIndex gear : gears_of(set.placed.train, {static_cast<std::int32_t>(m)}))
                    EXPECT_LT(plates.lower.top_mm, set.stack.gears[gear.position()].bottom_mm);
                for (const CarrierPlates& its : set.stack.carriers)
                    if (its.carrier == MemberIndex{static_cast<std::int32_t>(m)}) {
                        EXPECT_LT(plates.lower.top_mm, its.lower.bottom_mm);
                    }
            }
}

TEST(Stack, AnUpperPlateHoldsLongPlanetsOnly) {
    EXPECT_FALSE(stacked(simple_set(20, 20, 60, 4)).stack.carriers.front().upper.has_value());
    const Stacked stepped = stacked(stepped_set(24, 40, 16, 80, 4));
    ASSERT_TRUE(stepped.stack.carriers.front().upper.has_value());
    EXPECT_GT(stepped.stack.carriers.front().upper->bottom_mm, stepped.span("planet", 0).top_mm);
}

// The large gears reach out further (32 + 21) than the ring (43): above it they leave room for its posts.
TEST(Stack, ARingLiesBelowPlanetsThatReachOverIt) {
    const Stacked set = stacked(stepped_set(24, 40, 16, 80, 4));
    EXPECT_LT(set.span("ring").top_mm, set.span("sun").bottom_mm);
}

// Both planets are in mesh with the sun's only gear, and each would run into the other's ring.
TEST(Stack, ASunOfTwoSetsIsAsLongAsBoth) {
    const Stacked set =
        stacked(sized_train("sun 20 x front 20; front 20 in ring 60; sun 20 x rear 20; rear 20 in drum 60 "
                            "(front on drum, rear on spider)"));
    EXPECT_DOUBLE_EQ(set.span("sun").bottom_mm, std::min(set.span("front").bottom_mm, set.span("rear").bottom_mm));
    EXPECT_DOUBLE_EQ(set.span("sun").top_mm, std::max(set.span("front").top_mm, set.span("rear").top_mm));
    // The drum's plate joins its ring with the planets on top of it: the other way up it would have to reach round
    // them.
    EXPECT_LT(set.span("drum").top_mm, set.span("front").bottom_mm);
}

// Each wheel is so much larger than the last that it passes over that one's pinion.
TEST(Stack, WheelsAndPinionsTakeTurnsInTwoLayers) {
    const Stacked set = stacked(sized_train("a 12 x b 20; b 12 x c 60; c 12 x d 80"));
    EXPECT_EQ(set.stack.tiers.size(), 2U);
    EXPECT_DOUBLE_EQ(set.span("a").bottom_mm, set.span("d").bottom_mm);
}

TEST(Stack, TwoCentralGearsOverOnePlanetAreApart) {
    const Stacked set = stacked(sized_train("a 99 x planet 20; planet 20 x b 100 (planet on arm)"));
    EXPECT_TRUE(set.span("a").top_mm < set.span("b").bottom_mm || set.span("b").top_mm < set.span("a").bottom_mm);
}

TEST(Stack, HeightsBelongToTheTierAtOrBelowThem) {
    const Stack stack{{}, {}, {}, {{1.0, 2.0}, {3.0, 4.0}}, 1.0, 4.0};
    EXPECT_EQ(stack.tier_at(0.0), 1);
    EXPECT_EQ(stack.tier_at(1.5), 1);
    EXPECT_EQ(stack.tier_at(2.5), 1);
    EXPECT_EQ(stack.tier_at(3.0), 2);
    EXPECT_EQ(stack.tier_at(9.0), 2);
}

}  // namespace
}  // namespace couplet
