#include "place/alike_loop.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <compare>
#include <tuple>

#include "motion/loop.hpp"
#include "place/copy_places.hpp"
#include "place/placed_train.hpp"
#include "support/dice.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

constexpr std::array kPrimes = {2,  3,  5,  7,  11, 13, 17, 19, 23, 29, 31, 37, 41,
                                43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97};

struct Watched {
    PlacedTrain placed;
    Motion motion;

    [[nodiscard]] Ratio strict() const { return strict_loop_turns(motion).value(); }
    [[nodiscard]] Ratio alike() const {
        return alike_loop_turns(placed.train, placed.placement, placed.rotations, motion).value();
    }
};

Watched watched(const Train& train, const Setting& setting) {
    return {placed(train), solve(train, setting)};
}
Watched watched(const Train& train, std::string_view setting) {
    return watched(train, setting_from(train, setting));
}

// Carrier 7/30 per turn of the sun, planet on the frame 7/30 - 161/240 = -7/16. The carrier must make a third of a
// turn, which takes 10/7 turns, or a multiple: there the sun is 30 teeth further, and each planet, turned by 5/8 = 15
// teeth, stands where the next one stood. The strict loop, 240, is 168 of these.
TEST(AlikeLoop, OfASimpleSetTakesEachPlanetToTheNextOnesPlace) {
    const Watched set = watched(simple_set(21, 24, 69, 3), "hold ring; drive sun 1");
    EXPECT_EQ(set.alike(), Ratio(10, 7));
    EXPECT_EQ(set.strict() / set.alike(), Ratio(168));
}

// Carrier (18 x 16) / (18 x 16 + 24 x 62) = 6/37 per turn of the sun, so a third of a turn takes 37/18. The sun is then
// 37 teeth further, so a planet that comes to a place meets what the one before met there.
TEST(AlikeLoop, OfSteppedPlanets) {
    const Watched set = watched(stepped_set(18, 24, 16, 62, 3), "hold ring; drive sun 1");
    EXPECT_EQ(set.strict(), Ratio(148));
    EXPECT_EQ(set.alike(), Ratio(37, 18));
}

// 10 teeth in mesh with 20: one tooth of the one passes as one tooth of the other does.
TEST(AlikeLoop, OfAFixedPairIsOneTooth) {
    EXPECT_EQ(watched(sized_train("a 10 x b 20"), "drive a 5").alike(), Ratio(1, 10));
}

// The layshaft's 31 and 19 teeth share no factor, so it must make a whole turn, for which `in` makes 31/17.
TEST(AlikeLoop, OfABodyWithTwoGearsCountsWhatTheirTeethShare) {
    EXPECT_EQ(watched(sized_train("in 17 x lay 31; lay 19 x out 29"), "drive in 1").alike(), Ratio(31, 17));
    // 12 and 18 share 6: a sixth of a turn of the layshaft, 2 of its teeth and of the 24 of `in`.
    EXPECT_EQ(watched(sized_train("in 24 x lay 12; lay 18 x out 30"), "drive in 1").alike(), Ratio(1, 12));
}

// As in the test of the strict loop: carrier -1/16 per turn of the sun; a quarter takes 4, the sun then 80 and the ring
// 25 x 4 teeth further.
TEST(AlikeLoop, CountsSeveralDriversAtTheirSpeeds) {
    const Watched set = watched(simple_set(20, 20, 60, 4), "drive sun 12, ring -5");
    EXPECT_EQ(set.strict(), Ratio(48));
    EXPECT_EQ(set.alike(), Ratio(4));
}

// The planets stand where they are; 21, 24 and 69 teeth pass alike.
TEST(AlikeLoop, OfAHeldCarrierIsOneTooth) {
    EXPECT_EQ(watched(simple_set(21, 24, 69, 3), "hold carrier; drive sun 1").alike(), Ratio(1, 21));
}

// Carrier 30/96 = 5/16 per turn of the sun: 16/5 for a whole turn. The sun is then 96 teeth further, and the planet,
// -(30/18)(1 - 5/16) + 5/16 = -5/6 a turn, -8/3 turns or 48 teeth.
TEST(AlikeLoop, NeedsAWholeTurnOfTheCarrierWherePlanetsStandUnequally) {
    const auto alike = [](int copies, std::vector<Ratio> at_deg) {
        return watched(simple_set(30, 18, 66, copies, std::move(at_deg)), "hold ring; drive sun 1").alike();
    };
    EXPECT_EQ(alike(2, {0, 90}), Ratio(16, 5));
    EXPECT_EQ(alike(2, {0, 180}), Ratio(8, 5));
    EXPECT_EQ(alike(4, {0, 75, 180, 255}), Ratio(8, 5));
    EXPECT_EQ(alike(4, {90, 0, 270, 180}), Ratio(4, 5));
    EXPECT_EQ(alike(4, {}), Ratio(4, 5));
}

// Round a held sun of 30 teeth: of 2 and 3 planets on one carrier nothing but a whole turn brings both kinds to places
// of their own, of 4 and 6 a half turn, in which the sun shows 15 teeth.
TEST(AlikeLoop, NeedsATurnThatSuitsAllThatACarrierCarries) {
    const auto alike = [](int first, int second) {
        Train train = sized_train("sun 30 x first 18; sun 30 x second 20 (first on carrier, second on carrier)");
        set_copies(train, "first", first);
        set_copies(train, "second", second);
        return watched(train, "hold sun; drive carrier 1").alike();
    };
    EXPECT_EQ(alike(2, 3), Ratio(1));
    EXPECT_EQ(alike(3, 2), Ratio(1));
    EXPECT_EQ(alike(4, 6), Ratio(1, 2));
}

// 21 + 69 is no multiple of 4: after a quarter turn of the carrier (15/14 of the sun) the sun stands half a tooth off,
// after a half (45 teeth) it looks the same.
TEST(AlikeLoop, OfPlanetsThatDoNotAssembleGoesByHowTheyStand) {
    EXPECT_EQ(watched(simple_set(21, 24, 69, 4), "hold ring; drive sun 1").alike(), Ratio(15, 7));
}

// The rod's axis is the shaft's own: neither shows the one turn in which the other shaft makes 2/3 of one.
TEST(AlikeLoop, IsTheStrictOneWhereNothingShowsTheTurning) {
    Train train;
    train.members.resize(3);
    train.members[0].name = "shaft";
    train.members[1].name = "rod";
    train.members[1].rides_on = {0};
    train.members[2].name = "other shaft";
    EXPECT_EQ(watched(train, "tie shaft=rod; drive shaft 3, other shaft 2").alike(), Ratio(3));
}

TEST(AlikeLoop, IsNoneWhereNothingMoves) {
    const Watched set = watched(simple_set(21, 24, 69, 3), "drive sun 1");
    EXPECT_EQ(alike_loop_turns(set.placed.train, set.placed.placement, set.placed.rotations, set.motion), std::nullopt);
}

// What is seen of a place: a tooth of one of its gears, or, of a member without gears, where it stands. The directions
// of the axes that carry it, each seen from the axis below, and the tooth's own.
struct Seen {
    GearIndex gear;
    Ratio turns;
    std::vector<Ratio> axes;
    std::vector<std::pair<int, Ratio>> symbols;

    friend bool operator==(const Seen&, const Seen&) = default;
    friend std::strong_ordering operator<=>(const Seen& a, const Seen& b) {
        return std::tie(a.gear, a.turns, a.axes, a.symbols) <=> std::tie(b.gear, b.turns, b.axes, b.symbols);
    }
};

// Knows nothing of loops or symmetries: lists all that is seen of a member after so many turns.
std::vector<Seen> seen_after(const Watched& set, MemberIndex member, const Ratio& turns) {
    const auto& [train, teeth, placement, rotations] = set.placed;
    const auto turned = [&](MemberIndex m) {
        return turns_per_driver_turn(set.motion, rate_on(set.placed.train, set.motion, m, kFrame)).value() * turns;
    };
    std::vector<Seen> seen;
    const Ratio own = turned(member);
    for (int p = placement.first_place[member.position()]; p < placement.first_place[member.position() + 1]; ++p) {
        std::vector<Ratio> axes;
        for (PlaceIndex at{p}; at.value >= 0; at = placement[at].under) {
            const Place& place = placement[at];
            const MemberIndex carrier = rides_on(train, place.member);
            const PlanePoint& centre = place.centre_on_carrier_mm;
            const bool off_axis = std::hypot(centre.x_mm, centre.y_mm) > 1e-3;
            const Ratio carried = carrier == kFrame || !off_axis ? Ratio(0) : turned(carrier);
            axes.push_back((place.turns_from_first + carried).fraction());
        }
        const std::vector<GearIndex> gears = gears_of(train, member);
        if (gears.empty()) seen.push_back({{}, Ratio(0), axes, {}});
        for (const GearIndex gear : gears) {
            const Angle& tooth = rotations.of(gear, {p}).tooth;
            const int count = train[gear].teeth;
            for (int t = 0; t < count; ++t)
                seen.push_back({gear, (tooth.turns + own + Ratio(t, count)).fraction(), axes, tooth.directions});
        }
    }
    std::ranges::sort(seen);
    return seen;
}

bool looks_the_same_after(const Watched& set, const Ratio& turns) {
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(set.placed.train.members.size()); ++m)
        if (seen_after(set, {m}, turns) != seen_after(set, {m}, Ratio(0))) return false;
    return true;
}

// Of all parts of the strict loop that could be one: none is shorter than one tooth of the sun.
Ratio most_loops_by_trial(const Watched& set, int sun_teeth) {
    const Ratio strict = set.strict();
    Ratio most = 1;
    for (Ratio loops = 1; loops <= strict * Ratio(sun_teeth); loops += Ratio(1))
        if (looks_the_same_after(set, strict / loops)) most = loops;
    return most;
}

Train random_small_set(Dice& dice, int& sun) {
    sun = dice.between(4, 9);
    const int planet = dice.between(3, 7);
    if (dice.chance(40)) {
        const int second = dice.between(3, 7);
        return stepped_set(sun, planet, second == planet ? second + 1 : second,
                           sun + planet + (second == planet ? second + 1 : second), dice.between(1, 4));
    }
    const int copies = dice.between(1, 4);
    std::vector<Ratio> at_deg;
    // Now and then at whole numbers of what lets planets assemble.
    if (dice.chance(40))
        for (int k = 0; k < copies; ++k)
            at_deg.push_back(Ratio(360) * Ratio(4 * k + dice.between(0, 3), 4 * (2 * sun + 2 * planet)));
    return simple_set(sun, planet, sun + 2 * planet, copies, std::move(at_deg));
}

TEST(AlikeLoop, IsWhatTryingEveryPartOfTheStrictLoopFinds) {
    Dice dice(23);
    int by_next_copies = 0;
    for (int trial = 0; trial < 200; ++trial) {
        int sun = 0;
        const Train train = random_small_set(dice, sun);
        const Watched set = watched(train, trial % 3 == 0 ? "hold carrier; drive sun 1" : "hold ring; drive sun 1");
        const Ratio loops = set.strict() / set.alike();
        EXPECT_EQ(loops, most_loops_by_trial(set, sun)) << trial;
        const Ratio carrier =
            turns_per_driver_turn(set.motion, rate_on(train, set.motion, member_named(train, "carrier"), kFrame))
                .value();
        if (!(carrier * set.alike()).is_whole()) ++by_next_copies;
    }
    // Both kinds of loop come up.
    EXPECT_GT(by_next_copies, 20);
    EXPECT_LT(by_next_copies, 150);
}

void expect_shortest(const Watched& set, const std::string& what) {
    const Ratio alike = set.alike();
    EXPECT_TRUE((set.strict() / alike).is_whole()) << what;
    EXPECT_TRUE(looks_the_same_after(set, alike)) << what;
    for (const int prime : kPrimes)
        EXPECT_FALSE(looks_the_same_after(set, alike / Ratio(prime))) << what << " " << prime;
}

// Paired planets stand in directions without a fraction; planets may carry planets.
TEST(AlikeLoop, OfPlanetsOnPlanetsAndOfPairedOnes) {
    Train paired =
        sized_train("sun 24 x inner 18; inner 18 x outer 20; outer 20 in ring 72 (inner on arm, outer on arm)");
    set_copies(paired, "inner", 3);
    set_copies(paired, "outer", 3);
    const Watched pairs = watched(paired, "hold ring; drive sun 1");
    expect_shortest(pairs, "paired");
    // Arm: 24 / (24 - 72) = -1/2 per turn of the sun; a third of a turn takes 2/3, 16 teeth of the sun.
    EXPECT_EQ(pairs.alike(), Ratio(2, 3));

    Train nested = sized_train(
        "sun 20 x planet 20; planet 20 in ring 60; small sun 12 x moon 12 (planet on carrier, small sun on carrier, "
        "moon on planet)");
    set_copies(nested, "planet", 4);
    set_copies(nested, "small sun", 4);
    set_copies(nested, "moon", 2);
    expect_shortest(watched(nested, "hold ring, small sun; drive sun 1"), "nested");
}

// Trains of every shape with copies, most of them with geometry that cannot be.
TEST(AlikeLoop, IsTheShortestOfRandomTrains) {
    Dice dice(24);
    for (std::uint64_t seed = 0; seed < 150; ++seed) {
        RandomTrain random = random_train(seed, {12, false, true});
        random.train.teeth.module_mm = Ratio(1);
        for (Member& member : random.train.members)
            if (member.rides_on != kFrame && dice.chance(60)) member.copies = dice.between(2, 4);
        const Watched set = watched(random.train, random.setting);
        if (set.placed.rotations.gears.size() > 40) continue;
        // In some nothing but plain shafts turns: those look the same after any part of a turn.
        if (looks_the_same_after(set, set.strict() / Ratio(1000003)))
            EXPECT_EQ(set.alike(), set.strict()) << seed;
        else
            expect_shortest(set, std::to_string(seed));
    }
}

// Numbers beyond words, and a thousand members.
TEST(AlikeLoop, GoesIntoTheStrictLoopOfATrainOfAThousandMembers) {
    FamilyTrain family = family_a(1000);
    family.train.teeth.module_mm = Ratio(1);
    for (Member& member : family.train.members)
        if (member.rides_on != kFrame) member.copies = 3;
    const Watched set = watched(family.train, family.setting);
    EXPECT_FALSE(set.strict().is_small());
    EXPECT_TRUE((set.strict() / set.alike()).is_whole());
}

}  // namespace
}  // namespace couplet
