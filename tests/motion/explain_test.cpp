#include "motion/explain.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/outcome_printer.hpp"
#include "support/random_trains.hpp"
#include "support/train_families.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

const char* const kSimpleSet = "sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)";
const char* const kSimpsonSet =
    "sun 24 x planet1 22; planet1 22 in ring1 69; sun 24 x planet2 22; planet2 22 in ring2 69 (planet1 on carrier1, "
    "planet2 on carrier2)";

using Names = std::vector<std::string>;

Names names(const Train& train, const std::vector<MemberIndex>& members) {
    Names result;
    for (const MemberIndex member : members) result.push_back(name_of(train, member));
    return result;
}

Explanation explanation_of(const SolvedTrain& solution) {
    return explain(solution.train, solution.setting, solution.motion);
}

// "hold ring" and "tie a=b" by name, one entry per release.
std::vector<Names> releases_by_name(const SolvedTrain& solution, const Explanation& explanation) {
    std::vector<Names> result;
    for (const Release& release : explanation.releases) {
        Names& let_go = result.emplace_back();
        for (const std::size_t hold : release.holds)
            let_go.push_back("hold " + name_of(solution.train, solution.setting.hold.at(hold)));
        for (const std::size_t tie : release.ties) {
            const auto& [a, b] = solution.setting.tie.at(tie);
            let_go.push_back("tie " + name_of(solution.train, a) + "=" + name_of(solution.train, b));
        }
    }
    return result;
}

Setting without(const Setting& setting, const Release& release) {
    Setting rest = setting;
    for (auto hold = release.holds.rbegin(); hold != release.holds.rend(); ++hold)
        rest.hold.erase(rest.hold.begin() + static_cast<std::ptrdiff_t>(*hold));
    for (auto tie = release.ties.rbegin(); tie != release.ties.rend(); ++tie)
        rest.tie.erase(rest.tie.begin() + static_cast<std::ptrdiff_t>(*tie));
    return rest;
}

std::size_t size_of(const Release& release) {
    return release.holds.size() + release.ties.size();
}

TEST(Explain, SaysNothingWhereASettingMoves) {
    const Explanation explanation = explanation_of(solved(kSimpleSet, "hold ring; drive sun 1"));
    EXPECT_TRUE(explanation.could_drive.empty());
    EXPECT_TRUE(explanation.blocked.empty());
    EXPECT_TRUE(explanation.releases.empty());
}

TEST(ExplainFree, NamesWhoCouldDrive) {
    const SolvedTrain set = solved(kSimpleSet, "drive sun 1");
    EXPECT_EQ(names(set.train, explanation_of(set).could_drive), (Names{"planet", "ring", "carrier"}));
}

TEST(ExplainFree, LeavesOutWhoseRateIsFixed) {
    const SolvedTrain two =
        solved("sun 30 x planet 18; planet 18 in ring 66; a 20 x b 30 (planet on carrier)", "drive a 1; hold ring");
    EXPECT_EQ(names(two.train, explanation_of(two).could_drive), (Names{"sun", "planet", "carrier"}));
}

TEST(ExplainFree, NamesAPlanetOnlyWhereItTurnsAgainstTheFrame) {
    // The last wheel has the held one's count: it keeps its attitude however the arm turns.
    const SolvedTrain set = solved("fixed 40 x idler 20; idler 20 x last 40 (idler on arm, last on arm)", "hold fixed");
    EXPECT_EQ(names(set.train, explanation_of(set).could_drive), (Names{"idler", "arm"}));
}

TEST(ExplainFree, NamesEveryoneWhereNothingDrivesManyTrains) {
    std::string meshes;
    Names everyone;
    for (int k = 1; k <= 9; ++k) {
        const std::string number = std::to_string(k);
        meshes += (k == 1 ? "a" : "; a") + number + " 20 x b" + number + " 30";
        everyone.insert(everyone.end(), {"a" + number, "b" + number});
    }
    const SolvedTrain pairs = solved(meshes, "");
    EXPECT_EQ(pairs.motion.missing_drivers, 9);
    EXPECT_EQ(names(pairs.train, explanation_of(pairs).could_drive), everyone);
}

TEST(ExplainLocked, NamesTheDriverAndEachHoldThatWouldFreeIt) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring, carrier; drive sun 1");
    const Explanation explanation = explanation_of(set);
    EXPECT_EQ(names(set.train, explanation.blocked), (Names{"sun"}));
    EXPECT_EQ(releases_by_name(set, explanation), (std::vector<Names>{{"hold ring"}, {"hold carrier"}}));
    EXPECT_TRUE(explanation.releases_are_smallest);
}

TEST(ExplainLocked, NamesTiesToo) {
    const SolvedTrain set = solved(kSimpleSet, "hold ring; tie sun=carrier; drive sun 1");
    const Explanation explanation = explanation_of(set);
    EXPECT_EQ(names(set.train, explanation.blocked), (Names{"sun"}));
    EXPECT_EQ(releases_by_name(set, explanation), (std::vector<Names>{{"hold ring"}, {"tie sun=carrier"}}));
}

TEST(ExplainLocked, NamesPairsWhereOneIsNotEnough) {
    // Ring and outer wheel say the same, so letting go of one of them is in vain; the carrier alone will do.
    const SolvedTrain set = solved("sun 30 x planet 18; planet 18 in ring 66; ring 80 x outer 40 (planet on carrier)",
                                   "hold ring, outer, carrier; drive sun 1");
    const Explanation explanation = explanation_of(set);
    EXPECT_EQ(releases_by_name(set, explanation), (std::vector<Names>{{"hold carrier"}}));

    // With the carrier held twice over as well, it takes two.
    const SolvedTrain doubled = solved(
        "sun 30 x planet 18; planet 18 in ring 66; ring 80 x outer 40; carrier 50 x crank 25 (planet on carrier)",
        "hold ring, outer, carrier, crank; drive sun 1");
    EXPECT_EQ(releases_by_name(doubled, explanation_of(doubled)),
              (std::vector<Names>{{"hold ring", "hold outer"}, {"hold carrier", "hold crank"}}));
}

TEST(ExplainLocked, KnowsAChangeSpeedTrainInTwoSpeedsAtOnce) {
    // First gear holds carrier2, second gear holds the sun; both at once lock it.
    const SolvedTrain train = solved(kSimpsonSet, "hold carrier2, sun; tie carrier1=ring2; drive ring1 1");
    ASSERT_EQ(train.motion.outcome, Outcome::locked);
    const Explanation explanation = explanation_of(train);
    EXPECT_EQ(names(train.train, explanation.blocked), (Names{"ring1"}));
    EXPECT_EQ(releases_by_name(train, explanation),
              (std::vector<Names>{{"hold carrier2"}, {"hold sun"}, {"tie carrier1=ring2"}}));
}

TEST(ExplainLocked, NamesOnlyTheDriversThatCannotTurn) {
    const SolvedTrain two = solved("sun 30 x planet 18; planet 18 in ring 66; a 20 x b 30 (planet on carrier)",
                                   "hold ring, carrier; drive a 1, sun 1");
    const Explanation explanation = explanation_of(two);
    EXPECT_EQ(names(two.train, explanation.blocked), (Names{"sun"}));
    EXPECT_EQ(releases_by_name(two, explanation), (std::vector<Names>{{"hold ring"}, {"hold carrier"}}));
}

TEST(ExplainLocked, HasNoReleaseWhereTheMeshesAloneLockIt) {
    const SolvedTrain ring = solved("a 20 x b 20; b 20 x c 20; c 20 x a 20; a 20 x d 30", "hold d; drive a 1");
    const Explanation explanation = explanation_of(ring);
    EXPECT_EQ(names(ring.train, explanation.blocked), (Names{"a"}));
    EXPECT_TRUE(explanation.releases.empty());
}

TEST(ExplainLocked, CutsALongSearchShortAndSaysSo) {
    // Forty wheels in a chain, every one held: all must go.
    FamilyTrain chain = idler_chain(40);
    for (std::int32_t m = 1; m < 40; ++m) chain.setting.hold.push_back({m});
    const SolvedTrain held = solved(chain.train, chain.setting);
    ASSERT_EQ(held.motion.outcome, Outcome::locked);
    const Explanation explanation = explanation_of(held);
    EXPECT_FALSE(explanation.releases_are_smallest);
    ASSERT_EQ(explanation.releases.size(), 1U);
    EXPECT_EQ(explanation.releases[0].holds.size(), 39U);
}

TEST(ExplainConflicting, LeavesItToTheContradictions) {
    const Explanation explanation = explanation_of(solved(kSimpleSet, "drive sun 1, carrier 1, ring 3"));
    EXPECT_TRUE(explanation.could_drive.empty());
    EXPECT_TRUE(explanation.releases.empty());
}

bool drivers_turn(const Train& train, const Setting& setting) {
    const Outcome outcome = solve(train, setting).outcome;
    return outcome == Outcome::moves || outcome == Outcome::free;
}

// True where letting go of fewer holds and ties than `size` lets the drivers turn: looked at set by set.
bool fewer_would_do(const Train& train, const Setting& setting, std::size_t size) {
    const std::size_t holds = setting.hold.size();
    const std::size_t count = holds + setting.tie.size();
    for (std::uint32_t chosen = 0; chosen < (1U << count); ++chosen) {
        Release release;
        for (std::size_t k = 0; k < count; ++k)
            if ((chosen >> k & 1U) != 0) k < holds ? release.holds.push_back(k) : release.ties.push_back(k - holds);
        if (size_of(release) < size && drivers_turn(train, without(setting, release))) return true;
    }
    return false;
}

TEST(ExplainLocked, ReleasesOfRandomTrainsLetTheDriversTurnAndAreSmallest) {
    int locked = 0;
    for (std::uint64_t seed = 1; locked < 40; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.most_members = 14});
        if (random.setting.hold.size() + random.setting.tie.size() > 8) continue;
        const Motion motion = solve(random.train, random.setting);
        if (motion.outcome != Outcome::locked) continue;
        ++locked;
        const Explanation explanation = explain(random.train, random.setting, motion);
        EXPECT_TRUE(explanation.releases_are_smallest);
        if (explanation.releases.empty()) {
            EXPECT_FALSE(fewer_would_do(random.train, random.setting, 99));
            continue;
        }
        const std::size_t size = size_of(explanation.releases.front());
        EXPECT_FALSE(fewer_would_do(random.train, random.setting, size));
        for (const Release& release : explanation.releases) {
            EXPECT_EQ(size_of(release), size);
            EXPECT_TRUE(drivers_turn(random.train, without(random.setting, release)));
        }
    }
}

}  // namespace
}  // namespace couplet
