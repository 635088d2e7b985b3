#include "solid/gear_shapes.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

struct Sized {
    GearSizes sizes;
    ProfileResult profile;
};

Sized gear(int teeth, bool internal = false) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.internal = internal;
    spec.module_mm = 2.0;
    spec.rack = iso_53_rack('A').value();
    if (internal) spec.rack.addendum = 0.8;
    spec.face_width_mm = 16.0;
    const GearSizes sizes = sizes_of(spec);
    return {sizes, profile_of(sizes)};
}

TEST(GearShapes, AWideGearHasAWebBetweenHubAndRim) {
    const Sized wheel = gear(60);
    const auto shape = std::get<GearShape>(external_gear_shape(wheel.sizes, wheel.profile, {20.0, 16.0, true}));
    EXPECT_LT(shape.web_mm, shape.face_width_mm);
    EXPECT_GT(shape.hub_mm, shape.bore_mm + shape.key_width_mm);
    EXPECT_GT(shape.rim_mm, shape.hub_mm);
    EXPECT_LT(shape.rim_mm, wheel.sizes.root_diameter_mm);
    ASSERT_GT(shape.holes, 0);
    EXPECT_GT(shape.hole_circle_mm - shape.hole_mm, shape.hub_mm);
    EXPECT_LT(shape.hole_circle_mm + shape.hole_mm, shape.rim_mm);
}

TEST(GearShapes, APinionIsSolid) {
    const Sized pinion = gear(14);
    const auto shape = std::get<GearShape>(external_gear_shape(pinion.sizes, pinion.profile, {8.0, 16.0, true}));
    EXPECT_DOUBLE_EQ(shape.web_mm, shape.face_width_mm);
    EXPECT_EQ(shape.holes, 0);
}

TEST(GearShapes, AKeyNeedsMetalUnderTheTeeth) {
    const Sized pinion = gear(14);
    EXPECT_DOUBLE_EQ(key_width_mm(pinion.sizes, 8.0), 2.0);
    EXPECT_DOUBLE_EQ(key_width_mm(pinion.sizes, 0.95 * pinion.sizes.root_diameter_mm), 0.0);
}

TEST(GearShapes, ARingsBoltsLieBetweenRootAndOutside) {
    const Sized ring = gear(60, true);
    const auto shape = std::get<RingShape>(ring_shape(ring.sizes, ring.profile, 16.0, true));
    EXPECT_GE(shape.bolts, 6);
    EXPECT_LE(shape.bolts, 12);
    EXPECT_GT(shape.bolt_circle_mm - shape.bolt_mm, ring.sizes.root_diameter_mm);
    EXPECT_LT(shape.bolt_circle_mm + shape.bolt_mm, shape.outside_mm);
    EXPECT_EQ(std::get<RingShape>(ring_shape(ring.sizes, ring.profile, 16.0, false)).bolts, 0);
}

TEST(GearShapes, ChamfersNeverTurnABarInsideOut) {
    const TurnedShape bar = turned_bar(3.0, 0.5, 10.0, 5.0);
    for (std::size_t i = 1; i < bar.outline.size(); ++i) EXPECT_GE(bar.outline[i].z_mm, bar.outline[i - 1].z_mm);
    for (const TurnedShape::Corner& corner : bar.outline) {
        EXPECT_GE(corner.radius_mm, 2.5);
        EXPECT_LE(corner.radius_mm, 3.0);
    }
}

}  // namespace
}  // namespace couplet
