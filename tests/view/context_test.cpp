#include "view/context.hpp"

#include <gtest/gtest.h>

#include "view/drawing.hpp"

namespace couplet {
namespace {

TEST(OffscreenContext, SaysWhatDraws) {
    const OffscreenContext context;
    EXPECT_NE(renderer_name(), "");
}

TEST(OffscreenContext, CanBeMadeAgain) {
    for (int i = 0; i < 2; ++i) {
        const OffscreenContext context;
        collect_errors();
        Renderer renderer;
        EXPECT_EQ(renderer.image_of(bare_picture(), kPlainQuality, {20, 10}).rgba.size(), 800U);
        EXPECT_TRUE(collected_errors().empty());
    }
}

// A framebuffer that no one made: the driver has to say so.
TEST(CollectedErrors, HoldWhatTheDriverFinds) {
    const OffscreenContext context;
    collect_errors();
    Renderer renderer;
    renderer.draw(bare_picture(), kPlainQuality, {20, 10}, 4711);
    EXPECT_FALSE(collected_errors().empty());
    collect_errors();
    EXPECT_TRUE(collected_errors().empty()) << "a new list";
}

}  // namespace
}  // namespace couplet
