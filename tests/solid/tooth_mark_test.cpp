#include "solid/tooth_mark.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solid/tooth_contour.hpp"
#include "tooth/outline.hpp"

namespace couplet {
namespace {

std::vector<PlanePoint> first_tooth(const ToothProfile& profile) {
    const ToothContour teeth = tooth_contour(profile, 0.005);
    std::vector<PlanePoint> tooth;
    for (std::size_t i = 0; i < teeth.tooth_points; ++i) tooth.push_back(teeth.contour.points[teeth.index(0, i)].at);
    return tooth;
}

ToothMark mark_of(const GearSpec& spec) {
    const ToothProfile profile = profile_for(spec);
    return mark_in_tooth(profile.sizes, first_tooth(profile)).value();
}

// What the eye needs: at least a third of the tooth's thickness and more than a module long.
void expect_visible(const ToothMark& mark, const GearSizes& sizes) {
    EXPECT_GE(mark.half_width_mm, sizes.pitch_thickness_mm / 6.0);
    EXPECT_GT(std::abs(mark.tip_mm - mark.root_mm) + 2.0 * mark.half_width_mm, 1.2 * sizes.spec.module_mm);
}

TEST(ToothMark, LiesBetweenTipAndRootOfAGear) {
    for (const GearSpec& spec : {gear_a(3.0, 24, 0.0), gear_a(3.0, 40, 0.6), gear_a(3.0, 21, -0.2)}) {
        const ToothMark mark = mark_of(spec);
        const GearSizes sizes = sizes_of(spec);
        expect_visible(mark, sizes);
        EXPECT_EQ(mark.to_tip(), 1.0);
        EXPECT_LT(mark.tip_mm + mark.half_width_mm, sizes.tip_diameter_mm / 2.0 - 0.2 * 3.0);
        EXPECT_GT(mark.root_mm - mark.half_width_mm, sizes.root_diameter_mm / 2.0 - 0.1 * 3.0);
    }
}

TEST(ToothMark, LiesTheOtherWayRoundInARing) {
    const GearSpec spec = ring_a(3.0, 69, 0.0);
    const ToothMark mark = mark_of(spec);
    const GearSizes sizes = sizes_of(spec);
    expect_visible(mark, sizes);
    EXPECT_EQ(mark.to_tip(), -1.0);
    EXPECT_GT(mark.tip_mm - mark.half_width_mm, sizes.tip_diameter_mm / 2.0 + 0.2 * 3.0);
    EXPECT_LT(mark.root_mm + mark.half_width_mm, sizes.root_diameter_mm / 2.0 + 0.1 * 3.0);
}

TEST(ToothMark, KeepsMetalAroundItWhereTheTipIsNarrow) {
    const GearSpec spec = gear_a(2.0, 10, 0.5);
    const ToothMark mark = mark_of(spec);
    const Outline tooth = first_tooth(profile_for(spec));
    for (const PlanePoint& p : tooth)
        EXPECT_GT(distance_to(p, {{mark.root_mm, 0.0}, {mark.tip_mm, 0.0}}), 1.25 * mark.half_width_mm);
}

TEST(ToothMark, IsNoneWhereTheToothIsAThread) {
    const GearSpec spec = gear_a(2.0, 20, 0.0);
    EXPECT_FALSE(mark_in_tooth(sizes_of(spec), {{17.5, -0.01}, {22.0, -0.01}, {22.0, 0.01}, {17.5, 0.01}}));
}

TEST(MarkLoop, RunsFromTheRootsEndToTheTipsAndBackMirrored) {
    for (const ToothMark& mark : {ToothMark{10.0, 6.0, 0.5}, ToothMark{6.0, 10.0, 0.5}}) {
        const Loop loop = mark_loop(mark, 0.0, 3.0F, 0.001);
        EXPECT_NEAR(loop.front()[0], mark.root_mm - mark.to_tip() * 0.5, 1e-6);
        EXPECT_NEAR(loop[loop.size() / 2][0], mark.tip_mm + mark.to_tip() * 0.5, 1e-6);
        EXPECT_LT(loop[1][1], 0.0F);
        for (std::size_t i = 1; i < loop.size() / 2; ++i) {
            EXPECT_FLOAT_EQ(loop[i][0], loop[loop.size() - i][0]);
            EXPECT_FLOAT_EQ(loop[i][1], -loop[loop.size() - i][1]);
            EXPECT_LT(loop[i][1], 0.0F);
        }
        Outline outline;
        for (const Position& p : loop) outline.push_back(in_plane(p));
        EXPECT_NEAR(std::abs(area(outline)), 4.0 * 1.0 + std::numbers::pi * 0.25, 0.005);
    }
}

}  // namespace
}  // namespace couplet
