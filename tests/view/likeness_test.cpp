#include "view/likeness.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace couplet {
namespace {

Image filled(int width, int height, std::uint8_t level) {
    Image image{width, height, {}};
    for (int i = 0; i < width * height; ++i) image.rgba.insert(image.rgba.end(), {level, level, level, 255});
    return image;
}

Image striped(int period, int shift) {
    Image image = filled(64, 64, 0);
    for (int i = 0; i < 64 * 64; ++i)
        for (int c = 0; c < 3; ++c)
            image.rgba[static_cast<std::size_t>(i * 4 + c)] = (i % 64 + shift) / (period / 2) % 2 == 0 ? 40 : 220;
    return image;
}

TEST(Likeness, OfAPictureToItselfIsOne) {
    const Likeness found = likeness(striped(16, 0), striped(16, 0));
    EXPECT_NEAR(found.mean, 1.0, 1e-12);
    EXPECT_NEAR(found.worst, 1.0, 1e-12);
    EXPECT_EQ(found.colour, 0.0);
}

TEST(Likeness, OfOppositeStripesIsBelowNothing) {
    EXPECT_LT(likeness(striped(16, 0), striped(16, 8)).mean, 0.0);
}

// Equation 13 for two even fields u and v: (2 u v + C1) / (u^2 + v^2 + C1), C1 = (0.01 * 255)^2 = 6.5025 (derived).
TEST(Likeness, OfEvenFieldsIsTheFormula) {
    const double expected = (2.0 * 100 * 150 + 6.5025) / (100.0 * 100 + 150.0 * 150 + 6.5025);
    const Likeness found = likeness(filled(32, 32, 100), filled(32, 32, 150));
    EXPECT_NEAR(found.mean, expected, 1e-9);
    EXPECT_NEAR(found.colour, 50.0, 1e-9);
}

TEST(Likeness, SeesAColourOfTheSameLuminance) {
    Image warm = filled(32, 32, 120);
    for (std::size_t i = 0; i < warm.rgba.size(); i += 4) {
        warm.rgba[i] = 160;  // 0.2126 * 40 up, 0.7152 * 12 down
        warm.rgba[i + 1] = 108;
    }
    const Likeness found = likeness(filled(32, 32, 120), warm);
    EXPECT_GT(found.mean, 0.99);
    EXPECT_NEAR(found.colour, 40.0, 1e-9);
    EXPECT_FALSE(looks_alike(found));
}

TEST(Likeness, SeesWhatIsTransparent) {
    Image clear = filled(32, 32, 60);
    for (std::size_t i = 3; i < clear.rgba.size(); i += 4) clear.rgba[i] = 0;
    EXPECT_NEAR(likeness(filled(32, 32, 60), clear).colour, 195.0, 1e-9) << "white shows";
}

TEST(Likeness, IsOfPicturesOfOneSize) {
    EXPECT_THROW((void)likeness(filled(32, 32, 0), filled(32, 34, 0)), std::invalid_argument);
    EXPECT_THROW((void)likeness(filled(8, 8, 0), filled(8, 8, 0)), std::invalid_argument);
}

}  // namespace
}  // namespace couplet
