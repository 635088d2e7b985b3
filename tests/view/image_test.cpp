#include "view/image.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <stdexcept>

#include "support/dice.hpp"

namespace couplet {
namespace {

Image random_image(int width, int height, bool opaque) {
    Dice dice(static_cast<std::uint64_t>(width) * 1000 + static_cast<std::uint64_t>(height));
    Image image{width, height, {}};
    for (int i = 0; i < width * height * 4; ++i)
        image.rgba.push_back(static_cast<std::uint8_t>(opaque && i % 4 == 3 ? 255 : dice.between(0, 255)));
    return image;
}

// The type of colour in the file's header: byte 25, after signature, length, name, width, height and depth (ISO 15948,
// 11.2.2, from memory): 2 is red, green, blue; 6 has alpha too.
int colour_type(const std::string& png) {
    return static_cast<unsigned char>(png.at(25));
}

TEST(Upright, PutsTheLastRowFirst) {
    const Image upwards{1, 3, {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}};
    EXPECT_EQ(upright(upwards), (Image{1, 3, {9, 10, 11, 12, 5, 6, 7, 8, 1, 2, 3, 4}}));
    EXPECT_EQ(upright(upright(upwards)), upwards);
}

TEST(PngBytes, RoundTripPixelByPixel) {
    for (const bool opaque : {true, false})
        for (const auto& [width, height] : {std::pair(1, 1), std::pair(3, 2), std::pair(1, 257), std::pair(640, 11)}) {
            const Image image = random_image(width, height, opaque);
            EXPECT_EQ(image_of_png(png_bytes(image)), image) << width << " x " << height;
        }
}

TEST(PngBytes, KeepTheFirstRowOnTop) {
    const Image image{1, 2, {255, 0, 0, 255, 0, 0, 255, 255}};
    EXPECT_EQ(image_of_png(png_bytes(image)).rgba[0], 255) << "red above blue";
}

TEST(PngBytes, KeepColoursThatNoAlphaShows) {
    const Image image{2, 1, {200, 100, 50, 0, 7, 8, 9, 1}};
    EXPECT_EQ(image_of_png(png_bytes(image)), image) << "alpha is straight";
}

TEST(PngBytes, HoldAlphaOnlyWhereSomePixelIsNotOpaque) {
    Image image = random_image(20, 20, true);
    EXPECT_EQ(colour_type(png_bytes(image)), 2);
    image.rgba.back() = 254;
    EXPECT_EQ(colour_type(png_bytes(image)), 6);
}

TEST(PngBytes, SayThatTheyAreSrgb) {
    for (const bool opaque : {true, false})
        EXPECT_NE(png_bytes(random_image(4, 4, opaque)).find("sRGB"), std::string::npos);
}

TEST(PngBytes, AreTheSameForTheSameImage) {
    EXPECT_EQ(png_bytes(random_image(50, 40, true)), png_bytes(random_image(50, 40, true)));
}

TEST(PngBytes, PressEvenColoursTogether) {
    const Image image{500, 500, std::vector<std::uint8_t>(std::size_t{500} * 500 * 4, 255)};
    EXPECT_LT(png_bytes(image).size(), image.rgba.size() / 50);
}

TEST(PngBytes, RefuseAnImageThatIsNotWhole) {
    EXPECT_THROW((void)png_bytes(Image{}), std::runtime_error);
    EXPECT_THROW((void)png_bytes(Image{-1, -1, {1, 2, 3, 4}}), std::runtime_error);
    try {
        (void)png_bytes(Image{2, 1, {1, 2, 3, 4}});
        ADD_FAILURE() << "was taken";
    } catch (const std::runtime_error& error) {
        EXPECT_STREQ(error.what(), "an image of 2 x 1 pixels takes 8 bytes; there are 4");
    }
}

TEST(ReadPng, RefusesWhatIsNoPng) {
    EXPECT_THROW((void)image_of_png(""), std::runtime_error);
    EXPECT_THROW((void)image_of_png("GIF89a and more than eight bytes"), std::runtime_error);
    const std::string png = png_bytes(random_image(9, 9, false));
    EXPECT_THROW((void)image_of_png(std::string_view(png).substr(0, png.size() / 2)), std::runtime_error);
}

}  // namespace
}  // namespace couplet
