#include "place/running_rules.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

// Greatest common divisors: 21/24 and 24/69 share 3, 11/30 and 23/67 nothing (the latter two read in texts on hunting
// teeth: Foiles, "Gear frequencies using the Euclidean algorithm").
TEST(HuntingFindings, AreCautionsWhereTeethShareAFactor) {
    const std::vector<Finding> set = hunting_findings(simple_set(21, 24, 69, 3));
    ASSERT_EQ(set.size(), 2U);
    EXPECT_EQ(set[0].where, "sun, planet");
    EXPECT_EQ(set[1].where, "planet, ring");
    for (const Finding& finding : set) {
        EXPECT_EQ(finding.figure, 3.0);
        EXPECT_EQ(finding.limit, 1.0);
        EXPECT_EQ(finding.verdict, Verdict::caution);
        EXPECT_FALSE(finding.mend.empty());
    }
    for (const char* pair : {"a 11 x b 30", "a 23 x b 67"}) {
        const std::vector<Finding> hunting = hunting_findings(sized_train(pair));
        ASSERT_EQ(hunting.size(), 1U);
        EXPECT_EQ(hunting[0].figure, 1.0);
        EXPECT_EQ(hunting[0].verdict, Verdict::holds);
        EXPECT_EQ(hunting[0].mend, "");
    }
}

Finding balance_of(int copies, std::vector<Ratio> at_deg = {}) {
    const std::vector<Finding> findings = balance_findings(simple_set(21, 24, 69, copies, std::move(at_deg)));
    EXPECT_EQ(findings.size(), 1U);
    return findings.at(0);
}

// Equal unit vectors all round add up to nothing.
TEST(BalanceFindings, HoldWhereCopiesAreEquallySpaced) {
    for (const int copies : {2, 3, 5, 7}) {
        EXPECT_EQ(balance_of(copies).figure, 0.0) << copies;
        EXPECT_EQ(balance_of(copies).verdict, Verdict::holds);
    }
    EXPECT_LT(balance_of(3, {0, 120, 240}).figure, 1e-12);
    // Pairs that face each other balance too.
    EXPECT_LT(balance_of(4, {0, 50, 180, 230}).figure, 1e-12);
    // Off by a hundredth of a degree, as places are written.
    EXPECT_EQ(balance_of(3, {0, Ratio(12001, 100), 240}).verdict, Verdict::holds);
}

// |1 + i| / 2 = 1 / sqrt(2); of 0, 118 and 242 degrees: (1 + 2 cos 118 + 0) / 3 up to the sign, derived.
TEST(BalanceFindings, AreCautionsWhereLoadsAreLeft) {
    const Finding quarter = balance_of(2, {0, 90});
    EXPECT_NEAR(quarter.figure, std::sqrt(0.5), 1e-12);
    EXPECT_EQ(quarter.verdict, Verdict::caution);
    EXPECT_FALSE(quarter.mend.empty());
    const double left = std::abs(1.0 + 2.0 * std::cos(118 * 3.14159265358979 / 180)) / 3.0;
    EXPECT_NEAR(balance_of(3, {0, 118, 242}).figure, left, 1e-12);
}

TEST(BalanceFindings, AreOnlyOfCopiesInMesh) {
    EXPECT_TRUE(balance_findings(simple_set(21, 24, 69, 1)).empty());
    Train train = simple_set(21, 24, 69, 3);
    train.meshes.clear();
    EXPECT_TRUE(balance_findings(train).empty());
}

TEST(SuitingCopies, AreThoseWhoseLoopsAllClose) {
    const auto suiting = [](const Train& train) {
        const PlacedTrain set = placed(train);
        return suiting_copies(set.train, set.placement, set.rotations);
    };
    const std::vector<Finding> right = suiting(simple_set(21, 24, 69, 3));
    ASSERT_EQ(right.size(), 1U);
    EXPECT_EQ(right[0].where, "planet");
    EXPECT_EQ(right[0].figure, 0.0);
    EXPECT_EQ(right[0].verdict, Verdict::holds);
    // (21 + 69) / 4 is not whole; but 0, 92, 180 and 272 degrees are multiples of 360 / 90.
    EXPECT_TRUE(suiting(simple_set(21, 24, 69, 4)).empty());
    EXPECT_EQ(suiting(simple_set(21, 24, 69, 4, {0, 92, 180, 272})).size(), 1U);
}

}  // namespace
}  // namespace couplet
