// What must not change a train's motion: how it is written down, and from where it is looked at.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <functional>
#include <string>
#include <vector>

#include "motion/motion.hpp"
#include "support/dice.hpp"
#include "support/equations.hpp"
#include "support/outcome_printer.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

constexpr std::uint64_t kTrains = 150;

MemberIndex member_at(std::size_t position) {
    return {static_cast<std::int32_t>(position)};
}

// Random places for `count` things: the new position of each.
std::vector<std::int32_t> random_places(std::size_t count, Dice& dice) {
    std::vector<std::int32_t> places(count);
    for (std::size_t k = 0; k < count; ++k) places[k] = static_cast<std::int32_t>(k);
    dice.shuffle(places);
    return places;
}

// The same train and setting with its members, gears, meshes, holds and ties in another order. Drivers stay in theirs,
// since combinations are told by it.
RandomTrain rewritten(const RandomTrain& original, Dice& dice) {
    const std::vector<std::int32_t> places = random_places(original.train.members.size(), dice);
    const auto moved = [&](MemberIndex m) { return m == kFrame ? kFrame : MemberIndex{places[m.position()]}; };

    RandomTrain result;
    result.train.members.resize(places.size());
    for (std::size_t m = 0; m < places.size(); ++m) {
        Member& member = result.train.members[moved(member_at(m)).position()];
        member = original.train.members[m];
        member.rides_on = moved(member.rides_on);
    }
    std::vector<std::size_t> gear_order(original.train.gears.size());
    for (std::size_t g = 0; g < gear_order.size(); ++g) gear_order[g] = g;
    dice.shuffle(gear_order);
    std::ranges::stable_sort(gear_order, {}, [&](std::size_t g) { return moved(original.train.gears[g].member); });
    std::vector<GearIndex> new_gear(gear_order.size());
    for (const std::size_t g : gear_order) {
        new_gear[g] = {static_cast<std::int32_t>(result.train.gears.size())};
        result.train.gears.push_back(original.train.gears[g]);
        result.train.gears.back().member = moved(original.train.gears[g].member);
    }
    for (const Mesh& mesh : original.train.meshes) {
        const GearIndex first = new_gear[mesh.first.position()];
        const GearIndex second = new_gear[mesh.second.position()];
        result.train.meshes.push_back(dice.chance(50) ? Mesh{first, second, {}} : Mesh{second, first, {}});
    }
    dice.shuffle(result.train.meshes);
    for (const MemberIndex held : original.setting.hold) result.setting.hold.push_back(moved(held));
    dice.shuffle(result.setting.hold);
    for (const auto& [a, b] : original.setting.tie)
        result.setting.tie.push_back(dice.chance(50) ? std::pair{moved(a), moved(b)} : std::pair{moved(b), moved(a)});
    dice.shuffle(result.setting.tie);
    for (const Drive& drive : original.setting.drive) result.setting.drive.push_back({moved(drive.member), drive.rpm});
    return result;
}

// Every rate at the drivers' speeds, against the frame, by the member's name.
std::vector<std::pair<std::string, Ratio>> rates_by_name(const Train& train, const Motion& motion) {
    std::vector<std::pair<std::string, Ratio>> rates;
    for (std::size_t m = 0; m < train.members.size(); ++m)
        rates.emplace_back(train.members[m].name,
                           at_driver_speeds(motion, rate_on(train, motion, member_at(m), kFrame)));
    std::ranges::sort(rates);
    return rates;
}

TEST(Invariance, OrderOfMembersGearsMeshesHoldsAndTiesDoesNotMatter) {
    Dice dice(11);
    for (std::uint64_t seed = 1; seed <= kTrains; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain original = random_train(seed);
        const RandomTrain other = rewritten(original, dice);
        const Motion motion = solve(original.train, original.setting);
        const Motion other_motion = solve(other.train, other.setting);
        ASSERT_EQ(other_motion.outcome, motion.outcome);
        EXPECT_EQ(other_motion.freedom, motion.freedom);
        EXPECT_EQ(other_motion.missing_drivers, motion.missing_drivers);
        EXPECT_EQ(other_motion.contradictions.size(), motion.contradictions.size());
        for (std::size_t k = 0; k < motion.contradictions.size(); ++k) {
            EXPECT_EQ(other_motion.contradictions[k].coefficients, motion.contradictions[k].coefficients);
            EXPECT_EQ(other_motion.contradictions[k].excess_rpm, motion.contradictions[k].excess_rpm);
        }
        if (motion.outcome != Outcome::moves) continue;
        EXPECT_EQ(rates_by_name(other.train, other_motion), rates_by_name(original.train, motion));
    }
}

TEST(Invariance, CopiesAndTheirPlacesDoNotMatter) {
    const SolvedTrain one =
        solved("sun 21 x planet 24; planet 24 in ring 69 (planet on drum)", "hold ring; drive sun 30");
    const std::vector<std::vector<Ratio>> places{
        {}, {0, 120, 240}, {120, 240, 0}, {240, 0, 120}, {240, 120, 0}, {0, 118, 242}};
    for (const std::vector<Ratio>& at : places) {
        Train train = one.train;
        Member& planet = train.members[member_named(train, "planet").position()];
        planet.copies = 3;
        planet.at_deg = at;
        const Motion motion = solve(train, one.setting);
        EXPECT_EQ(motion.outcome, Outcome::moves);
        EXPECT_EQ(motion.joint_rates, one.motion.joint_rates);
    }
}

TEST(Invariance, OrderOfPlanetsWrittenOutOneByOneDoesNotMatter) {
    std::array<std::string, 3> planets{"a", "b", "c"};
    do {
        std::string meshes;
        std::string riding;
        for (const std::string& planet : planets) {
            meshes += (meshes.empty() ? "sun 21 x " : "; sun 21 x ") + planet + " 24; " + planet + " 24 in ring 69";
            riding += (riding.empty() ? "" : ", ") + planet + " on drum";
        }
        const SolvedTrain set = solved(meshes + " (" + riding + ")", "hold ring; drive sun 30");
        EXPECT_EQ(set.turns("drum"), Ratio(7));
        for (const std::string& planet : planets) EXPECT_EQ(set.turns(planet, "drum"), Ratio(-161, 8));
    } while (std::ranges::next_permutation(planets).found);
}

// Rates against the frame of everything, the frame included, by the place that is given.
using Rates = std::function<Ratio(MemberIndex)>;

// N_A w_A/c = -+ N_B w_B/c, from rates against any one observer.
void expect_every_mesh_satisfied(const Train& train, const Rates& rate) {
    for (const Mesh& mesh : train.meshes) {
        const Gear& a = train.gears[mesh.first.position()];
        const Gear& b = train.gears[mesh.second.position()];
        const MemberIndex arm = arm_by_definition(train, mesh);
        const Ratio rate_a_on_arm = rate(a.member) - rate(arm);
        const Ratio rate_b_on_arm = rate(b.member) - rate(arm);
        const int sense = a.internal || b.internal ? 1 : -1;
        EXPECT_EQ(a.teeth * rate_a_on_arm, sense * b.teeth * rate_b_on_arm);
    }
}

TEST(Inversion, LeavesEveryMeshSatisfiedFromAnyObserver) {
    for (std::uint64_t seed = 1; seed <= kTrains; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.most_members = 30, .moves = true});
        const Motion motion = solve(random.train, random.setting);
        ASSERT_EQ(motion.outcome, Outcome::moves);
        for (std::int32_t observer = kFrame.value; observer < static_cast<std::int32_t>(random.train.members.size());
             ++observer)
            expect_every_mesh_satisfied(random.train, [&](MemberIndex member) {
                return at_driver_speeds(motion, rate_on(random.train, motion, member, {observer}));
            });
    }
}

// Speeds, not just ratios, obey the holds, the ties and the drivers.
TEST(Inversion, LeavesHoldsTiesAndDriversAsTheyWereSet) {
    for (std::uint64_t seed = 1; seed <= kTrains; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.moves = true});
        const Motion motion = solve(random.train, random.setting);
        const auto turns = [&](MemberIndex a, MemberIndex b) {
            return at_driver_speeds(motion, rate_on(random.train, motion, a, b));
        };
        for (const MemberIndex held : random.setting.hold) EXPECT_EQ(turns(held, kFrame), Ratio(0));
        for (const auto& [a, b] : random.setting.tie) EXPECT_EQ(turns(a, b), Ratio(0));
        for (const Drive& drive : random.setting.drive) EXPECT_EQ(turns(drive.member, kFrame), drive.rpm);
    }
}

// The setting in which `held` stands still and everything that stood still, turns as one instead: the same motion as
// `motion`, seen from the member that is held now.
Setting seen_from(const Train& train, const Setting& setting, const Motion& motion, MemberIndex held) {
    const auto on_held = [&](MemberIndex member) {
        return at_driver_speeds(motion, rate_on(train, motion, member, held));
    };
    Setting seen;
    seen.tie = setting.tie;
    seen.hold.push_back(held);
    for (std::size_t k = 1; k < setting.hold.size(); ++k) seen.tie.emplace_back(setting.hold[0], setting.hold[k]);
    if (!setting.hold.empty()) seen.drive.push_back({setting.hold[0], on_held(kFrame)});
    for (const Drive& drive : setting.drive)
        if (drive.member != held) seen.drive.push_back({drive.member, on_held(drive.member)});
    return seen;
}

TEST(Inversion, HoldingAnotherMemberNeverChangesRelativeRates) {
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= kTrains; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.most_members = 20, .coaxial = true, .moves = true});
        const Motion motion = solve(random.train, random.setting);
        ASSERT_EQ(motion.outcome, Outcome::moves);
        for (std::size_t h = 0; h < random.train.members.size(); ++h) {
            const MemberIndex held = member_at(h);
            if (random.train[held].rides_on != kFrame || std::ranges::count(random.setting.hold, held) > 0) continue;
            const Motion seen = solve(random.train, seen_from(random.train, random.setting, motion, held));
            // A train that turns as one stands still seen from any of its members.
            if (seen.freedom == 0) continue;
            ASSERT_EQ(seen.outcome, Outcome::moves) << random.train[held].name;
            ++compared;
            for (std::size_t m = 0; m < random.train.members.size(); ++m)
                EXPECT_EQ(at_driver_speeds(seen, rate_on(random.train, seen, member_at(m), kFrame)),
                          at_driver_speeds(motion, rate_on(random.train, motion, member_at(m), held)))
                    << random.train.members[m].name << " on " << random.train[held].name;
        }
    }
    EXPECT_GT(compared, 300);
}

TEST(Inversion, HoldsForEveryHeldMemberOfASimpleSet) {
    const char* const meshes = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";
    // Willis: (w_ring - w_carrier) / (w_sun - w_carrier) = -30/66, whatever is held and whatever drives.
    for (const char* setting :
         {"hold ring; drive sun 1", "hold ring; drive carrier 1", "hold sun; drive ring 1", "hold sun; drive carrier 1",
          "hold carrier; drive sun 1", "hold carrier; drive ring 1", "hold planet; drive sun 1",
          "hold planet; drive carrier 1", "drive sun 7/3, planet 19", "tie ring=planet; drive carrier 1"}) {
        const SolvedTrain set = solved(meshes, setting);
        ASSERT_EQ(set.motion.outcome, Outcome::moves) << setting;
        EXPECT_EQ(set.turns("ring", "carrier") * 66, set.turns("sun", "carrier") * -30) << setting;
    }
}

TEST(Invariance, SpeedsOfTheDriversScaleEveryRate) {
    for (std::uint64_t seed = 1; seed <= kTrains; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        RandomTrain random = random_train(seed, {.most_members = 30, .moves = true});
        const Motion motion = solve(random.train, random.setting);
        for (Drive& drive : random.setting.drive) drive.rpm *= Ratio(-7, 3);
        const Motion scaled = solve(random.train, random.setting);
        EXPECT_EQ(scaled.joint_rates, motion.joint_rates);
    }
}

}  // namespace
}  // namespace couplet
