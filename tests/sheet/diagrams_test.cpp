// Levers and speed plans: against the textbook, and against what they claim, on every shipped scene and on random
// trains.
#include "sheet/diagrams.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "scene/scene.hpp"
#include "scene/scene_folder.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"
#include "tooth/train_teeth.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

constexpr std::string_view kSimpleSet = "sun 21 x planet 24; planet 24 in ring 69 (planet on drum)";

const Lever::Point& point_of(const Train& train, const Lever& lever, const std::string& name) {
    return *std::ranges::find(lever.points, member_named(train, name), &Lever::Point::member);
}

// Counts pairs of points with different speeds, so that a test sees that it looked at something.
int check_straight(const Lever& lever, const std::string& what) {
    int aslant = 0;
    for (const Lever::Point& a : lever.points)
        for (const Lever::Point& b : lever.points)
            for (const Lever::Point& c : lever.points) {
                if (!a.speed || !b.speed || !c.speed) continue;
                EXPECT_EQ((*a.speed - *b.speed) * (a.height - c.height), (*a.speed - *c.speed) * (a.height - b.height))
                    << what;
                aslant += *a.speed != *b.speed && *a.speed != *c.speed && *b.speed != *c.speed ? 1 : 0;
            }
    return aslant;
}

// Largest relative difference of velocities at a pitch point, by the rays of the two members in mesh.
struct PlanCheck {
    int pitch_points = 0;
    double worst = 0;
};
void check_plan(PlanCheck& check, const Train& train, const std::vector<PlanSection>& plan) {
    for (const PlanSection& section : plan)
        for (const PlanSection::PitchPoint& point : section.pitch_points) {
            ++check.pitch_points;
            for (const GearIndex gear : {train[point.mesh].first, train[point.mesh].second}) {
                const auto ray = std::ranges::find(section.rays, train[gear].member, &PlanSection::Ray::member);
                ASSERT_NE(ray, section.rays.end()) << name_of(train, gear);
                EXPECT_GE(point.place_mm, ray->from_mm);
                EXPECT_LE(point.place_mm, ray->to_mm);
                const double size = 1 + std::abs(ray->velocity_from) + std::abs(ray->velocity_to);
                check.worst = std::max(check.worst, std::abs(ray->velocity_at(point.place_mm) - point.velocity) / size);
            }
        }
}

std::vector<PlanSection> plan_of(const Train& train, const Motion& motion) {
    return speed_plan_of(train, place_members(train, teeth_of(train)), motion);
}

// Benford and Leising: with the carrier at 0 and the sun at 1, the ring stands S / R on the other side. Speeds with the
// ring held: the carrier turns S / (S + R) = 21/90 a turn of the sun (Willis).
TEST(Levers, OfASimpleSetAreTheTextbooks) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 30");
    const std::vector<Lever> levers = levers_of(set.train, set.motion);
    ASSERT_EQ(levers.size(), 1U);
    EXPECT_EQ(levers[0].carrier, member_named(set.train, "drum"));
    ASSERT_EQ(levers[0].points.size(), 3U);  // the planet has another axis
    EXPECT_EQ(levers[0].points[0].member, member_named(set.train, "sun"));
    EXPECT_EQ(levers[0].points[2].member, member_named(set.train, "ring"));
    EXPECT_EQ(point_of(set.train, levers[0], "sun").height, Ratio(1));
    EXPECT_EQ(point_of(set.train, levers[0], "drum").height, Ratio(0));
    EXPECT_EQ(point_of(set.train, levers[0], "ring").height, Ratio(-21, 69));
    EXPECT_EQ(point_of(set.train, levers[0], "sun").speed, Ratio(1));
    EXPECT_EQ(point_of(set.train, levers[0], "drum").speed, Ratio(21, 90));
    EXPECT_EQ(point_of(set.train, levers[0], "ring").speed, Ratio(0));
}

// With two planets between them sun and ring turn the same way against the carrier: both on one side, at 1 and S / R.
TEST(Levers, OfPairedPlanetsHaveTheRingOnTheSunsSide) {
    const SolvedTrain set =
        solved("sun 20 x inner 18; inner 18 x outer 19; outer 19 in ring 80 (inner on carrier, outer on carrier)",
               "hold ring; drive sun 1");
    const std::vector<Lever> levers = levers_of(set.train, set.motion);
    ASSERT_EQ(levers.size(), 1U);
    EXPECT_EQ(point_of(set.train, levers[0], "ring").height, Ratio(20, 80));
}

TEST(Levers, AreOneForEachCarrierAndForEachGroupOfPlanets) {
    // Two carriers; a carrier with two groups of planets that no mesh joins; none.
    const auto count = [](std::string_view meshes) {
        const Train train = train_from(meshes);
        return levers_of(train, solve(train, Setting{})).size();
    };
    EXPECT_EQ(count("a 20 x p 20; p 20 in r 60; b 21 x q 19; q 19 in s 59 (p on c, q on d)"), 2U);
    EXPECT_EQ(count("a 20 x p 20; p 20 in r 60; b 21 x q 19; q 19 in s 59 (p on c, q on c)"), 2U);
    EXPECT_EQ(count("a 20 x b 40; b 20 x d 40"), 0U);
}

TEST(Levers, KnowNoSpeedsWhereTheMotionHasNone) {
    const SolvedTrain locked = solved(kSimpleSet, "hold ring, drum; drive sun 1");
    const Lever stuck = levers_of(locked.train, locked.motion).at(0);
    for (const Lever::Point& point : stuck.points) EXPECT_EQ(point.speed, std::nullopt);
    // One driver of two: only the driver itself is known.
    const SolvedTrain free = solved(kSimpleSet, "drive sun 1");
    const Lever lever = levers_of(free.train, free.motion).at(0);
    EXPECT_EQ(point_of(free.train, lever, "sun").speed, Ratio(1));
    EXPECT_EQ(point_of(free.train, lever, "ring").speed, std::nullopt);
}

TEST(Levers, AreStraightInEverySettingOfTheShippedScenes) {
    int aslant = 0;
    for (const auto& path : shipped_scenes()) {
        const Train train = read_scene(load_scene_text(path), path.string());
        for (const Setting& setting : train.settings)
            for (const Lever& lever : levers_of(train, solve(train, setting)))
                aslant += check_straight(lever, path.stem().string() + ": " + setting.name);
    }
    EXPECT_GT(aslant, 50);
}

TEST(Levers, AreStraightInRandomTrains) {
    int aslant = 0;
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        const RandomTrain random = random_train(seed, {.most_members = 30, .moves = seed % 2 == 0});
        for (const Lever& lever : levers_of(random.train, solve(random.train, random.setting)))
            aslant += check_straight(lever, "seed " + std::to_string(seed));
    }
    EXPECT_GT(aslant, 1000);
}

// The harbour capstan, module 3: radii 31.5, 36 and 103.5 mm, planets 67.5 mm out. The planet rolls in the held ring,
// so its far end stands still, its near end goes with the sun and its middle, the drum, half as fast.
TEST(SpeedPlan, OfASimpleSetIsTheTextbooks) {
    SolvedTrain set = solved(kSimpleSet, "hold ring; drive sun 30");
    set.train.teeth.module_mm = Ratio(3);
    const std::vector<PlanSection> plan = plan_of(set.train, set.motion);
    ASSERT_EQ(plan.size(), 1U);
    const auto ray = [&](const std::string& name) {
        return *std::ranges::find(plan[0].rays, member_named(set.train, name), &PlanSection::Ray::member);
    };
    EXPECT_NEAR(ray("sun").from_mm, 0, 1e-9);
    EXPECT_NEAR(ray("sun").to_mm, 31.5, 1e-9);
    EXPECT_NEAR(ray("sun").velocity_to, 31.5, 1e-9);
    EXPECT_NEAR(ray("planet").from_mm, 31.5, 1e-9);
    EXPECT_NEAR(ray("planet").to_mm, 103.5, 1e-9);
    EXPECT_NEAR(ray("planet").velocity_from, 31.5, 1e-9);
    EXPECT_NEAR(ray("planet").velocity_to, 0, 1e-9);
    EXPECT_NEAR(ray("drum").to_mm, 67.5, 1e-9);
    EXPECT_NEAR(ray("drum").velocity_to, 15.75, 1e-9);
    EXPECT_NEAR(ray("ring").velocity_to, 0, 1e-9);
    EXPECT_NEAR(ray("ring").to_mm, 103.5, 1e-9);
}

// Two pairs back onto the first axis: one straight section, the axes standing still.
TEST(SpeedPlan, OfFixedAxesGoesAlongThem) {
    SolvedTrain train = solved("input 20 x lay 40; lay 24 x output 36", "drive input 10");
    train.train.teeth.module_mm = Ratio(2);
    const std::vector<PlanSection> plan = plan_of(train.train, train.motion);
    ASSERT_FALSE(plan.empty());
    EXPECT_EQ(plan[0].arm, kFrame);
    // The pitch point of the first pair is 20 mm from the input's axis and goes 20 mm a radian.
    EXPECT_NEAR(plan[0].pitch_points.at(0).place_mm, 20, 1e-9);
    EXPECT_NEAR(plan[0].pitch_points.at(0).velocity, 20, 1e-9);
}

TEST(SpeedPlan, GivesPairedPlanetsASectionOfTheirOwn) {
    SolvedTrain set =
        solved("sun 20 x inner 18; inner 18 x outer 19; outer 19 in ring 80 (inner on carrier, outer on carrier)",
               "hold ring; drive sun 1");
    set.train.teeth.module_mm = Ratio(1);
    const std::vector<PlanSection> plan = plan_of(set.train, set.motion);
    EXPECT_EQ(plan.size(), 3U);  // sun and inner, inner and outer, outer and ring: three directions
    PlanCheck check;
    check_plan(check, set.train, plan);
    EXPECT_EQ(check.pitch_points, 3);
    EXPECT_LT(check.worst, 1e-12);
}

TEST(SpeedPlan, IsEmptyWhereNothingCanMove) {
    SolvedTrain locked = solved(kSimpleSet, "hold ring, drum; drive sun 1");
    locked.train.teeth.module_mm = Ratio(1);
    EXPECT_TRUE(plan_of(locked.train, locked.motion).empty());
}

TEST(SpeedPlan, HasOneVelocityAtEveryPitchPointOfTheShippedScenes) {
    PlanCheck check;
    for (const auto& path : shipped_scenes()) {
        const Train train = read_scene(load_scene_text(path), path.string());
        for (const Setting& setting : train.settings) check_plan(check, train, plan_of(train, solve(train, setting)));
    }
    EXPECT_GT(check.pitch_points, 60);
    EXPECT_LT(check.worst, 1e-12);
}

// Carriers on planets and on carriers; tooth counts whose distances do not agree, too.
TEST(SpeedPlan, HasOneVelocityAtEveryPitchPointOfRandomTrains) {
    PlanCheck check;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        RandomTrain random = random_train(seed, {.most_members = 25, .moves = true});
        random.train.teeth.module_mm = Ratio(1);
        check_plan(check, random.train, plan_of(random.train, solve(random.train, random.setting)));
    }
    EXPECT_GT(check.pitch_points, 500);
    EXPECT_LT(check.worst, 1e-9);
}

}  // namespace
}  // namespace couplet
