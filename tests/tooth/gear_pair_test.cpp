#include "tooth/gear_pair.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tooth/active_path.hpp"
#include "tooth/meshing.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

struct Case {
    GearSpec first;
    GearSpec second;
};

std::vector<Case> various_pairs() {
    return {{gear_a(2.0, 20, 0.0), gear_a(2.0, 35, 0.0)},
            {gear_a(3.0, 14, 0.4), gear_a(3.0, 40, 0.1)},
            {gear_a(2.0, 24, 0.2, 15.0), gear_a(2.0, 30, -0.1, -15.0)},
            {gear_a(2.0, 24, 0.0), ring_a(2.0, 69, 0.0)},
            {gear_a(2.0, 18, 0.3), ring_a(2.0, 60, 0.5)}};
}

TEST(OperatingAngle, AndCentreDistanceAndShiftsAreOneRelation) {
    for (const Case& c : various_pairs()) {
        const double angle = operating_angle_of(c.first, c.second).value();
        const double sum = c.second.shift + (c.second.internal ? -c.first.shift : c.first.shift);
        EXPECT_NEAR(shift_sum_for(c.first, c.second, angle), sum, 1e-12);
        const double distance = centre_distance_at(c.first, c.second, angle);
        EXPECT_NEAR(operating_angle_at(c.first, c.second, distance).value(), angle, 1e-12);
    }
}

TEST(OperatingAngle, IsNothingWhereBaseCirclesForbidIt) {
    EXPECT_FALSE(operating_angle_of(gear_a(1.0, 20, -2.0), gear_a(1.0, 20, -2.0)));
    EXPECT_FALSE(operating_angle_of(gear_a(1.0, 20, 0.0), ring_a(1.0, 20, 0.0)));
    EXPECT_FALSE(operating_angle_of(gear_a(1.0, 20, 0.0), ring_a(1.0, 19, 0.0)));
    EXPECT_FALSE(operating_angle_at(gear_a(1.0, 20, 0.0), gear_a(1.0, 20, 0.0), 10.0));
    EXPECT_FALSE(operating_angle_at(gear_a(1.0, 20, 0.0), ring_a(1.0, 20, 0.0), 1.0));
}

TEST(PairSizes, WithoutThinningLeaveNoBacklash) {
    for (const Case& c : various_pairs()) {
        const PairSizes pair =
            pair_sizes(sizes_of(c.first), sizes_of(c.second), operating_angle_of(c.first, c.second).value());
        EXPECT_NEAR(pair.circular_backlash_mm, 0.0, 1e-12);
    }
}

TEST(PairSizes, BacklashIsHalfOnEitherSideOfTheSampledTeeth) {
    for (Case c : various_pairs()) {
        const double angle = operating_angle_of(c.first, c.second).value();
        c.first.thinning_mm = 0.07;
        c.second.thinning_mm = 0.05;
        const Meshing meshing(c.first, c.second, angle, 1e-6);
        const PairSizes& pair = meshing.pair();
        EXPECT_GT(pair.circular_backlash_mm, 0.1);
        const double half_transverse = pair.normal_backlash_mm / std::cos(meshing.first().sizes.base_helix_rad) / 2.0;
        const ActivePath path = active_path(meshing.first(), meshing.second(), pair);
        int seen = 0;
        for (int s = 0; s < 20; ++s)
            for (const auto& [first_mm, second_mm] : meshing.facing(0.31 * s / c.first.teeth)) {
                if (first_mm < path.start_mm + 0.3 || first_mm > path.end_mm - 0.3) continue;
                EXPECT_NEAR(second_mm - first_mm, half_transverse, 5e-5);
                ++seen;
            }
        EXPECT_GT(seen, 10);
    }
}

TEST(PairSizes, PlayOfEachGearIsTheSameArc) {
    GearSpec first = gear_a(2.0, 20, 0.1);
    first.thinning_mm = 0.1;
    const GearSpec second = gear_a(2.0, 35, 0.0);
    const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), operating_angle_of(first, second).value());
    EXPECT_NEAR(pair.first_backlash_rad * pair.first_operating_diameter_mm / 2.0, pair.circular_backlash_mm, 1e-14);
    EXPECT_NEAR(pair.second_backlash_rad * pair.second_operating_diameter_mm / 2.0, pair.circular_backlash_mm, 1e-14);
}

TEST(PairSizes, OperatingCirclesRollOnEachOther) {
    for (const Case& c : various_pairs()) {
        const PairSizes pair =
            pair_sizes(sizes_of(c.first), sizes_of(c.second), operating_angle_of(c.first, c.second).value());
        const double sense = c.second.internal ? -1.0 : 1.0;
        EXPECT_NEAR(std::abs(pair.second_operating_diameter_mm + sense * pair.first_operating_diameter_mm) / 2.0,
                    pair.centre_distance_mm, 1e-12);
        EXPECT_NEAR(pair.first_operating_diameter_mm * c.second.teeth,
                    pair.second_operating_diameter_mm * c.first.teeth, 1e-9);
    }
}

TEST(PairSizes, ClearanceOfAnUnshiftedPairIsTheRacks) {
    const GearSpec first = gear_a(2.0, 24, 0.0);
    for (const GearSpec& second : {gear_a(2.0, 30, 0.0), ring_a(2.0, 69, 0.0)}) {
        const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), operating_angle_of(first, second).value());
        EXPECT_NEAR(pair.first_root_clearance_mm, 0.5, 1e-12);
        EXPECT_NEAR(pair.second_root_clearance_mm, 0.5, 1e-12);
    }
}

TEST(TipChange, KeepsTheRacksClearance) {
    GearSpec first = gear_a(2.0, 14, 0.5);
    GearSpec second = gear_a(2.0, 30, 0.4);
    const double angle = operating_angle_of(first, second).value();
    const double change = tip_change_for(first, second, angle);
    EXPECT_LT(change, 0.0);
    first.tip_change = second.tip_change = change;
    const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), angle);
    EXPECT_NEAR(pair.first_root_clearance_mm, 0.5, 1e-12);
    EXPECT_NEAR(pair.second_root_clearance_mm, 0.5, 1e-12);
    EXPECT_EQ(tip_change_for(gear_a(2.0, 20, 0.5), ring_a(2.0, 60, 0.0), 0.3), 0.0);
}

TEST(PairSizes, OverlapIsTheAdvanceOfTheHelixInPitches) {
    GearSpec first = gear_a(2.0, 20, 0.0, 30.0);
    GearSpec second = gear_a(2.0, 35, 0.0, -30.0);
    second.face_width_mm = 12.0;
    const PairSizes pair = pair_sizes(sizes_of(first), sizes_of(second), operating_angle_of(first, second).value());
    // Derived: b tan(beta) over the transverse pitch.
    const double transverse_pitch = std::numbers::pi * 2.0 / std::cos(30 * kDegree);
    EXPECT_NEAR(pair.overlap_ratio, 12.0 * std::tan(30 * kDegree) / transverse_pitch, 1e-13);
}

}  // namespace
}  // namespace couplet
