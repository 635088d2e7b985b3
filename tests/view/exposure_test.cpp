#include "view/exposure.hpp"

#include <array>
#include <stdexcept>

#include "view/drawing.hpp"
#include "view/pixel_ring.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr glm::ivec2 kSize(96, 54);

// With edges that are half clear where nothing is behind them.
constexpr Quality kSmoothed = [] {
    Quality quality = kPlainQuality;
    quality.samples = 4;
    return quality;
}();

// IEC 61966-2-1.
double linear(double level) {
    const double s = level / 255;
    return s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
}
double level_of(double light) {
    return 255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055);
}

// The average of some pictures, each `side` times as wide and high as it: worked out by the processor. Straight alpha.
Image average(const std::vector<Image>& drawings, int side) {
    Image result{drawings[0].width / side, drawings[0].height / side, {}};
    for (int y = 0; y < result.height; ++y)
        for (int x = 0; x < result.width; ++x) {
            std::array<double, 4> sum{};
            for (const Image& drawing : drawings)
                for (int i = 0; i < side * side; ++i) {
                    const Pixel p = pixel_at(drawing, x * side + i % side, y * side + i / side);
                    const double alpha = p.alpha / 255.0;
                    sum[0] += alpha * linear(p.red);
                    sum[1] += alpha * linear(p.green);
                    sum[2] += alpha * linear(p.blue);
                    sum[3] += alpha;
                }
            for (std::size_t c = 0; c < 3; ++c)
                result.rgba.push_back(
                    static_cast<std::uint8_t>(std::lround(sum[3] > 0 ? level_of(sum[c] / sum[3]) : 0.0)));
            result.rgba.push_back(static_cast<std::uint8_t>(
                std::lround(255 * sum[3] / (static_cast<double>(drawings.size()) * side * side))));
        }
    return result;
}

int largest_difference(const Image& a, const Image& b) {
    int largest = 0;
    for (std::size_t i = 0; i < a.rgba.size(); ++i)
        largest = std::max(largest, std::abs(int{a.rgba[i]} - int{b.rgba[i]}));
    return largest;
}

double mean_difference(const Image& a, const Image& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.rgba.size(); ++i) sum += std::abs(int{a.rgba[i]} - int{b.rgba[i]});
    return sum / static_cast<double>(a.rgba.size());
}

class ExposureTest : public DrawingTest {
  protected:
    static Picture picture(const Ratio& turns, StageLook look = {}) {
        static const ShownScene scene = shown_scene("harbour_capstan");
        look.marks = true;
        return scene.picture(look, turns, NamedView::iso, static_cast<double>(kSize.x) / kSize.y);
    }
    static const Quality& quality_of(const Picture& picture) { return picture.transparent ? kSmoothed : kPlainQuality; }
    static Image drawn_at(const Picture& picture, int side = 1) {
        return drawn(picture, quality_of(picture), kSize * side);
    }
    static Image exposed(const std::vector<Picture>& drawings, int side) {
        (void)drawn_at(drawings[0]);  // makes the context
        Exposure exposure(Drawing::of_this_program().renderer, kSize, {static_cast<int>(drawings.size()), side});
        return exposed(exposure, drawings);
    }
    static Image exposed(Exposure& exposure, const std::vector<Picture>& drawings) {
        for (const Picture& drawing : drawings) exposure.add(drawing, quality_of(drawing));
        PixelRing ring(kSize, 1);
        ring.ask(exposure.framebuffer());
        return ring.fetch(drawings[0].transparent ? Alpha::straightened : Alpha::opaque);
    }
};

using FineGrain = ExposureTest;

TEST_F(FineGrain, IsTheAverageOfEachPixelsPointsInLinearLight) {
    for (const int side : {2, 3}) {
        const Picture shown = picture(Ratio(1, 7));
        EXPECT_LE(largest_difference(exposed({shown}, side), average({drawn_at(shown, side)}, side)), 1) << side;
    }
}

TEST_F(FineGrain, IsNearerToAMuchFinerPicture) {
    const Picture shown = picture(Ratio(1, 7));
    const Image reference = average({drawn_at(shown, 16)}, 16);
    const Image plain = drawn_at(shown);
    const Image fine = exposed({shown}, 4);
    EXPECT_LT(mean_difference(fine, reference), 0.5 * mean_difference(plain, reference));
}

TEST_F(FineGrain, ChangesLittleWhereThereAreNoEdges) {
    const Picture shown = picture(Ratio(1, 7));
    const Image plain = drawn_at(shown);
    const Image fine = exposed({shown}, 4);
    int flat = 0;
    int changed = 0;
    for (int y = 2; y + 2 < kSize.y; ++y)
        for (int x = 2; x + 2 < kSize.x; ++x) {
            int contrast = 0;
            for (int i = 0; i < 25; ++i)
                contrast =
                    std::max(contrast, pixel_at(plain, x, y).difference(pixel_at(plain, x + i % 5 - 2, y + i / 5 - 2)));
            const int difference = pixel_at(plain, x, y).difference(pixel_at(fine, x, y));
            if (contrast <= 6) {
                ++flat;
                EXPECT_LE(difference, 12) << x << ", " << y;
            } else if (difference > 24) {
                ++changed;
            }
        }
    EXPECT_GT(flat, 500);
    EXPECT_GT(changed, 100);
}

// 2026-11-28: lines of a picture with a fine grain became as much thinner as the grain is finer.
TEST_F(FineGrain, KeepsTheWidthOfLines) {
    StageLook look;
    look.pitch_circles = true;
    const Picture with = picture(Ratio(1, 7), look);
    Picture without = with;
    without.strokes.clear();
    const double plain = mean_difference(drawn_at(with), drawn_at(without));
    const double fine = mean_difference(exposed({with}, 4), exposed({without}, 4));
    EXPECT_GT(plain, 0.5);
    // A rim of half a pixel on either side, which is softened, becomes finer too.
    EXPECT_GT(fine / plain, 0.5);
    EXPECT_LT(fine / plain, 1.2);
}

using SeveralDrawings = ExposureTest;

TEST_F(SeveralDrawings, OfAStillPictureAreThatPicture) {
    const Picture shown = picture(Ratio(1, 7));
    for (const int drawings : {2, 5, 16})
        EXPECT_LE(largest_difference(exposed(std::vector<Picture>(static_cast<std::size_t>(drawings), shown), 1),
                                     drawn_at(shown)),
                  1)
            << drawings;
    EXPECT_EQ(exposed({shown}, 1), drawn_at(shown)) << "one drawing is it to the byte";
}

TEST_F(SeveralDrawings, OfWhatMovesAreTheirAverageInLinearLight) {
    std::vector<Picture> drawings;
    std::vector<Image> single;
    for (int i = 0; i < 4; ++i) {
        drawings.push_back(picture(Ratio(i, 60)));
        single.push_back(drawn_at(drawings.back()));
    }
    const Image blurred = exposed(drawings, 1);
    EXPECT_LE(largest_difference(blurred, average(single, 1)), 2);
    EXPECT_GT(largest_difference(blurred, single[0]), 40) << "it did move";
    // The average of levels, not of light, would be another picture.
    const Image both = exposed({drawings[0], drawings[3]}, 1);
    int apart = 0;
    for (std::size_t i = 0; i < both.rgba.size(); ++i)
        apart = std::max(apart, int{both.rgba[i]} - (int{single[0].rgba[i]} + int{single[3].rgba[i]}) / 2);
    EXPECT_GT(apart, 5);
}

TEST_F(SeveralDrawings, GoTogetherWithAFineGrain) {
    std::vector<Picture> drawings;
    std::vector<Image> single;
    for (int i = 0; i < 3; ++i) {
        drawings.push_back(picture(Ratio(i, 60)));
        single.push_back(drawn_at(drawings.back(), 2));
    }
    EXPECT_LE(largest_difference(exposed(drawings, 2), average(single, 2)), 2);
}

TEST_F(SeveralDrawings, LeaveNothingForTheNextFrame) {
    const std::vector<Picture> first = {picture(0), picture(Ratio(1, 3))};
    const std::vector<Picture> second = {picture(Ratio(2, 5)), picture(Ratio(3, 5))};
    (void)drawn_at(first[0]);
    Exposure exposure(Drawing::of_this_program().renderer, kSize, {2, 1});
    const Image before = exposed(exposure, first);
    const Image after = exposed(exposure, second);
    EXPECT_NE(before, after);
    EXPECT_EQ(after, exposed(second, 1));
}

TEST_F(SeveralDrawings, AreAveragedUnderTheirAlpha) {
    StageLook look;
    look.transparent = true;
    std::vector<Picture> drawings;
    std::vector<Image> single;
    for (int i = 0; i < 3; ++i) {
        drawings.push_back(picture(Ratio(i, 30), look));
        single.push_back(drawn_at(drawings.back()));
    }
    const Image blurred = exposed(drawings, 1);
    const Image right = average(single, 1);
    int half_clear = 0;
    each_pixel(kSize, [&](int x, int y) {
        const Pixel got = pixel_at(blurred, x, y);
        const Pixel wanted = pixel_at(right, x, y);
        EXPECT_NEAR(got.alpha, wanted.alpha, 2) << x << ", " << y;
        // Eight bits under little alpha say little of the colour: what is seen is their product.
        for (const auto& [a, b] : {std::pair{got.red, wanted.red}, {got.green, wanted.green}, {got.blue, wanted.blue}})
            EXPECT_LE(std::abs(a - b) * wanted.alpha / 255, 3) << x << ", " << y;
        half_clear += wanted.alpha > 20 && wanted.alpha < 235 ? 1 : 0;
    });
    EXPECT_GT(half_clear, 100);
    EXPECT_EQ(pixel_at(blurred, 0, 0).alpha, 0);
}

TEST(Exposure, RefusesWhatIsNone) {
    Renderer& renderer = Drawing::of_this_program().renderer;
    EXPECT_THROW(Exposure(renderer, kSize, {0, 1}), std::invalid_argument);
    EXPECT_THROW(Exposure(renderer, kSize, {1, 0}), std::invalid_argument);
    EXPECT_THROW(Exposure(renderer, {0, 54}, {1, 1}), std::invalid_argument);
    EXPECT_THROW(Exposure(renderer, {96, -1}, {1, 1}), std::invalid_argument);
}

}  // namespace
}  // namespace couplet
