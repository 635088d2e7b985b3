#include "couple/coupling.hpp"

#include <gtest/gtest.h>

#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

constexpr const char* kCapstan = "crank 21 x planet 24; planet 24 in ring 69 (planet on drum)";

CouplingSheet sheet_of(const Train& train, const char* setting, const CoupleOptions& options = {}) {
    return couple(train, setting_from(train, setting), options);
}

const Coupling& coupling_to(const CouplingSheet& sheet, const std::string& second) {
    for (const Coupling& coupling : sheet.couplings)
        if (coupling.second.name == second) return coupling;
    throw std::invalid_argument("no coupling to " + second);
}

TEST(Couple, AnswersTheCapstan) {
    const Train train = train_from(kCapstan);
    const CouplingSheet sheet = sheet_of(train, "hold ring; drive crank 30");
    EXPECT_EQ(sheet.motion.outcome, Outcome::moves);
    const Coupling& planet = coupling_to(sheet, "planet on drum");
    EXPECT_EQ(planet.first.name, "crank on frame");
    EXPECT_EQ(planet.second_per_first, Ratio(-161, 240));
    EXPECT_EQ(planet.degrees, (DegreePair{360, Ratio(-483, 2)}));
    EXPECT_EQ(planet.whole_degrees, (DegreePair{240, -161}));
    EXPECT_TRUE(planet.opposite);
    ASSERT_TRUE(planet.correction);
    EXPECT_EQ(planet.correction->bare_second_per_first, Ratio(-7, 8));
    EXPECT_EQ(planet.correction->difference_deg_per_turn, Ratio(-147, 2));
    EXPECT_FALSE(coupling_to(sheet, "drum on frame").correction);
}

TEST(Couple, NeedsOneCouplingFewerThanJoints) {
    const Train train = train_from(kCapstan);
    const CouplingSheet sheet = sheet_of(train, "hold ring; drive crank 30");
    EXPECT_EQ(sheet.joints.size(), 4U);
    EXPECT_EQ(sheet.couplings.size(), 3U);
}

TEST(Couple, ACarrierThatStandsStillNeedsNoCorrection) {
    const Train train = train_from(kCapstan);
    const CouplingSheet sheet = sheet_of(train, "hold drum; drive crank 30");
    EXPECT_FALSE(coupling_to(sheet, "planet on drum").correction);
    EXPECT_EQ(coupling_to(sheet, "planet on drum").second_per_first, Ratio(-7, 8));
}

TEST(Couple, JointsMayBeAnyPairOfMembersEitherWayRound) {
    Train train = train_from(kCapstan);
    const MemberIndex crank = member_named(train, "crank");
    const MemberIndex planet = member_named(train, "planet");
    const MemberIndex ring = member_named(train, "ring");
    const MemberIndex drum = member_named(train, "drum");
    train.joints = {{"p/r", planet, ring, false},
                    {"c/d", crank, drum, false},
                    {"d/c", drum, crank, false},
                    {"flipped", planet, drum, true}};
    train.couplings = {{{"crank on frame", "p/r"}, {}},
                       {{"crank on frame", "c/d"}, {}},
                       {{"crank on frame", "d/c"}, {}},
                       {{"crank on frame", "flipped"}, {}}};
    const CouplingSheet sheet = sheet_of(train, "hold ring; drive crank 1");
    EXPECT_EQ(coupling_to(sheet, "p/r").second_per_first, Ratio(-7, 16));
    EXPECT_EQ(coupling_to(sheet, "c/d").second_per_first, Ratio(23, 30));
    EXPECT_EQ(coupling_to(sheet, "d/c").second_per_first, Ratio(-23, 30));
    EXPECT_EQ(coupling_to(sheet, "flipped").second_per_first, Ratio(161, 240));
}

TEST(Couple, StartsFromAnotherJointOnRequest) {
    const Train train = train_from(kCapstan);
    CoupleOptions options;
    options.from = find_joint(train, joints_of(train), "drum on frame");
    const CouplingSheet sheet = sheet_of(train, "hold ring; drive crank 30", options);
    EXPECT_EQ(sheet.couplings.size(), 3U);
    EXPECT_EQ(coupling_to(sheet, "crank on frame").second_per_first, Ratio(30, 7));
    EXPECT_EQ(coupling_to(sheet, "planet on drum").second_per_first, Ratio(-23, 8));
}

TEST(Couple, TheWishedFirstAngleIsKept) {
    CoupleOptions options;
    options.limits.first_deg = 720;
    const Train train = train_from(kCapstan);
    const CouplingSheet sheet = sheet_of(train, "hold ring; drive crank 30", options);
    EXPECT_EQ(coupling_to(sheet, "planet on drum").degrees, (DegreePair{720, -483}));
    EXPECT_EQ(coupling_to(sheet, "planet on drum").expression, "-720 * 21/24 * 69/(21+69)");
}

TEST(Couple, ADifferentialSaysWhichCouplingsCannotBeAndWhichHoldsWouldMakeThem) {
    const Train train = train_from("sun 40 x planet 20; planet 20 in ring 80 (planet on carrier)");
    const CouplingSheet sheet = sheet_of(train, "drive sun 200, carrier 80");
    const Coupling& ring = coupling_to(sheet, "ring on frame");
    EXPECT_FALSE(ring.second_per_first);
    EXPECT_EQ(ring.obstacle, Obstacle::independent);
    EXPECT_EQ(ring.holds_to_exist,
              (std::vector<MemberIndex>{member_named(train, "planet"), member_named(train, "carrier")}));
    // At these speeds the ring makes 20 rpm, a tenth of the sun's (type of example in Norton, Design of Machinery, ch.
    // 9; from memory, tooth counts ours).
    EXPECT_EQ(sheet.members[member_named(train, "ring").position()].rpm, Ratio(20));
    EXPECT_EQ(sheet.members[member_named(train, "ring").position()].turns_per_driver_turn, Ratio(1, 10));
}

TEST(Couple, TwoJointsOfADifferentialThatOneDriverAloneTurnsAreCoupled) {
    const Train train = train_from("sun 40 x planet 20; planet 20 in ring 80; sun 30 x dial 15 (planet on carrier)");
    const CouplingSheet sheet = sheet_of(train, "drive sun 200, carrier 80");
    EXPECT_EQ(coupling_to(sheet, "dial on frame").second_per_first, Ratio(-2));
}

TEST(Couple, AStillFirstJointCannotDrive) {
    const Train train = train_from(kCapstan);
    CoupleOptions options;
    options.from = find_joint(train, joints_of(train), "ring on frame");
    const CouplingSheet sheet = sheet_of(train, "hold ring; drive crank 30", options);
    EXPECT_EQ(coupling_to(sheet, "drum on frame").obstacle, Obstacle::first_stands_still);
}

TEST(Couple, WithoutADriverStartsFromTheFirstJointThatTurns) {
    const Train train = train_from("sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)");
    const CouplingSheet sheet = sheet_of(train, "hold sun");
    EXPECT_EQ(sheet.couplings.front().first.name, "planet on carrier");
    EXPECT_EQ(coupling_to(sheet, "carrier on frame").second_per_first, Ratio(3, 5));
}

TEST(Couple, ALockedSettingHasAnExplanationAndNoNumbers) {
    const Train train = train_from(kCapstan);
    const CouplingSheet sheet = sheet_of(train, "hold ring, drum; drive crank 30");
    EXPECT_EQ(sheet.motion.outcome, Outcome::locked);
    ASSERT_TRUE(sheet.explanation);
    EXPECT_EQ(sheet.explanation->releases.size(), 2U);
    for (const Coupling& coupling : sheet.couplings) EXPECT_EQ(coupling.obstacle, Obstacle::undetermined);
}

TEST(Couple, PrintsDriftWhereNoPairFitsTheField) {
    const Train train = train_from("a 9973 x b 9967; b 9949 x c 9941");
    CoupleOptions options;
    options.limits.decimals = 0;
    const CouplingSheet sheet = sheet_of(train, "drive a 1", options);
    const Coupling& c = coupling_to(sheet, "c on frame");
    EXPECT_FALSE(c.to_type.exact);
    EXPECT_FALSE(c.to_type.drift_deg_per_1000_turns.is_zero());
    ASSERT_TRUE(c.turns_to_quarter_tooth);
    EXPECT_EQ(*c.turns_to_quarter_tooth,
              Ratio(90, 9941) * Ratio(1000) / c.to_type.drift_deg_per_1000_turns.magnitude());
}

// Following the couplings by hand gives the motion: the second joint's rate is the ratio times the first's.
TEST(Couple, RatiosAgreeWithTheRatesInRandomTrains) {
    for (std::uint64_t seed = 1000; seed < 1200; ++seed) {
        RandomTrainKind kind;
        kind.moves = true;
        const auto [train, setting] = random_train(seed, kind);
        const CouplingSheet sheet = couple(train, setting, {});
        for (const Coupling& coupling : sheet.couplings) {
            if (!coupling.second_per_first) continue;
            const Combination first = rate_on(train, sheet.motion, coupling.first.turns, coupling.first.against);
            const Combination second = rate_on(train, sheet.motion, coupling.second.turns, coupling.second.against);
            for (std::size_t i = 0; i < first.size(); ++i)
                ASSERT_EQ(second[i], *coupling.second_per_first * first[i]) << "seed " << seed;
        }
    }
}

}  // namespace
}  // namespace couplet
