#include "couple/coupling_rules.hpp"

#include <gtest/gtest.h>

#include "support/train_notation.hpp"

namespace couplet {
namespace {

// A simple set has freedom 2 (Gruebler and Kutzbach; from memory): a hold leaves 1.
const char* const kCapstan = "crank 21 x planet 24; planet 24 in ring 69 (planet on drum)";

Finding mobility_of(const char* setting) {
    const Train train = train_from(kCapstan);
    return mobility_finding(couple(train, setting_from(train, setting), {}));
}

struct MobilityRow {
    const char* setting;
    double drivers;
    double room;
    Verdict verdict;
};

TEST(MobilityFinding, ComparesDriversWithTheFreedom) {
    for (const MobilityRow& row :
         {MobilityRow{"hold ring; drive crank 30", 1, 1, Verdict::holds},
          MobilityRow{"drive crank 30, ring 5", 2, 2, Verdict::holds},
          MobilityRow{"drive crank 30", 1, 2, Verdict::fails}, MobilityRow{"hold ring", 0, 1, Verdict::fails},
          MobilityRow{"hold ring, drum; drive crank 30", 1, 0, Verdict::fails},
          MobilityRow{"hold ring; drive crank 30, drum 8", 2, 1, Verdict::fails}}) {
        const Finding finding = mobility_of(row.setting);
        EXPECT_EQ(finding.figure, row.drivers) << row.setting;
        EXPECT_EQ(finding.limit, row.room) << row.setting;
        EXPECT_EQ(finding.verdict, row.verdict) << row.setting;
    }
}

// The crank is blocked by both holds; the other driver has its own pair and turns.
TEST(MobilityFinding, LeavesNoRoomForABlockedDriver) {
    const Train train = train_from("crank 21 x planet 24; planet 24 in ring 69; bell 20 x clapper 30 (planet on drum)");
    const Finding finding =
        mobility_finding(couple(train, setting_from(train, "hold ring, drum; drive crank 30, bell 1"), {}));
    EXPECT_EQ(finding.figure, 2.0);
    EXPECT_EQ(finding.limit, 1.0);
    EXPECT_EQ(finding.verdict, Verdict::fails);
}

Coupling coupling_of(const char* setting, const std::string& second, const std::optional<DegreePair>& typed) {
    Train train = train_from(kCapstan);
    train.couplings = {{{"crank on frame", second}, typed}};
    return couple(train, setting_from(train, setting), {}).couplings.at(0);
}

Finding existence_of(const char* setting) {
    return existence_finding(train_from(kCapstan), coupling_of(setting, "planet on drum", std::nullopt));
}

TEST(ExistenceFinding, FailsWhereJointsHaveNoRatio) {
    EXPECT_EQ(existence_of("hold ring; drive crank 30").verdict, Verdict::holds);
    EXPECT_EQ(existence_of("hold ring; drive crank 30").where, "crank on frame to planet on drum");
    for (const char* setting :
         {"drive crank 30, ring 5", "hold crank; drive ring 1", "hold ring, drum; drive crank 30"}) {
        EXPECT_EQ(existence_of(setting).verdict, Verdict::fails) << setting;
        EXPECT_EQ(existence_of(setting).figure, 0.0) << setting;
    }
}

// The planet's joint needs -161/240 (the design's example): 360 : -241.5. Tooth counts alone, -315, are off by 73.5.
TEST(AuditFinding, TellsHowFarThePairTypedIsOff) {
    const char* const hauling = "hold ring; drive crank 30";
    const auto judged = [&](const std::string& second, const DegreePair& typed) {
        return audit_finding(train_from(kCapstan), coupling_of(hauling, second, typed));
    };
    EXPECT_EQ(judged("planet on drum", {360, Ratio(-483, 2)}).verdict, Verdict::holds);
    EXPECT_EQ(judged("planet on drum", {360, Ratio(-483, 2)}).figure, 0.0);
    const Finding bare = judged("planet on drum", {360, -315});
    EXPECT_EQ(bare.verdict, Verdict::fails);
    EXPECT_EQ(bare.figure, 73.5);
    EXPECT_EQ(bare.limit, 0.0);
    EXPECT_EQ(bare.unit, "deg per turn");
    // 100 : 23.33 for 7/30: 23.33 x 3.6 = 83.988 of 84 degrees, 12 degrees in 1000 turns.
    const Finding rounded = judged("drum on frame", {100, Ratio(2333, 100)});
    EXPECT_EQ(rounded.verdict, Verdict::caution);
    EXPECT_NEAR(rounded.figure, 12.0, 1e-9);
    EXPECT_EQ(rounded.unit, "deg per 1000 turns");
    // Nothing typed for the first joint: the drum's whole way of 84 degrees is missing.
    EXPECT_EQ(judged("drum on frame", {0, 84}).verdict, Verdict::fails);
    EXPECT_EQ(judged("drum on frame", {0, 84}).figure, 84.0);
}

}  // namespace
}  // namespace couplet
