#include "view/pixel_ring.hpp"

#include <stdexcept>

#include "view/drawing.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr glm::ivec2 kSize(80, 45);
// With edges that are half clear.
constexpr Quality kSmoothed = [] {
    Quality quality = kLightQuality;
    quality.samples = 4;
    return quality;
}();

class RingOfPixels : public DrawingTest {
  protected:
    static Picture picture(int instant, bool transparent = false) {
        static const ShownScene scene = shown_scene("harbour_capstan");
        StageLook look;
        look.transparent = transparent;
        return scene.picture(look, Ratio(instant, 11), NamedView::iso, static_cast<double>(kSize.x) / kSize.y);
    }
    static void ask(PixelRing& ring, const Picture& picture) {
        Renderer& renderer = Drawing::of_this_program().renderer;
        const unsigned target = renderer.own_target(kSize);
        renderer.draw(picture, kSmoothed, kSize, target);
        ring.ask(target);
    }
    static Image still(const Picture& picture) { return drawn(picture, kSmoothed, kSize); }
};

TEST_F(RingOfPixels, GivesFramesInTheOrderInWhichTheyWereAskedFor) {
    (void)still(picture(0));
    PixelRing ring(kSize, 3);
    for (int k = 0; k < 3; ++k) ask(ring, picture(k));
    for (int k = 0; k < 3; ++k) EXPECT_EQ(ring.fetch(Alpha::opaque), still(picture(k))) << k;
    EXPECT_NE(still(picture(0)), still(picture(1)));
}

TEST_F(RingOfPixels, GoesRound) {
    (void)still(picture(0));
    PixelRing ring(kSize, 2);
    ask(ring, picture(0));
    for (int k = 1; k < 7; ++k) {
        ask(ring, picture(k));
        EXPECT_EQ(ring.fetch(Alpha::opaque), still(picture(k - 1))) << k;
    }
}

TEST_F(RingOfPixels, StraightensColoursUnderAlpha) {
    const Picture clear = picture(3, true);
    const Image right = still(clear);
    PixelRing ring(kSize, 2);
    ask(ring, clear);
    EXPECT_EQ(ring.fetch(Alpha::straightened), right);
    ask(ring, clear);
    EXPECT_NE(ring.fetch(Alpha::opaque), right) << "edges are half clear";
}

TEST_F(RingOfPixels, KnowsWhenItIsFullOrEmpty) {
    (void)still(picture(0));
    for (const int frames : {1, 3}) {
        PixelRing ring(kSize, frames);
        EXPECT_TRUE(ring.is_empty());
        EXPECT_THROW((void)ring.fetch(Alpha::opaque), std::logic_error);
        for (int k = 0; k < frames; ++k) {
            EXPECT_FALSE(ring.is_full());
            ask(ring, picture(k));
            EXPECT_FALSE(ring.is_empty());
        }
        EXPECT_TRUE(ring.is_full());
        EXPECT_THROW(ask(ring, picture(9)), std::logic_error);
        EXPECT_EQ(ring.fetch(Alpha::opaque), still(picture(0))) << "what was refused has done nothing";
        EXPECT_FALSE(ring.is_full());
    }
}

TEST_F(RingOfPixels, UsesTheMemoryOfASpareImage) {
    const Image right = still(picture(2));
    for (const int width : {1, kSize.x, 4 * kSize.x}) {
        Image spare{width, kSize.y, std::vector<std::uint8_t>(static_cast<std::size_t>(width * kSize.y * 4), 77)};
        const std::uint8_t* memory = spare.rgba.data();
        PixelRing ring(kSize, 1);
        ask(ring, picture(2));
        const Image image = ring.fetch(Alpha::opaque, std::move(spare));
        EXPECT_EQ(image, right);
        EXPECT_EQ(image.rgba.data() == memory, width >= kSize.x) << "where there is enough of it";
    }
}

}  // namespace
}  // namespace couplet
