// Image: finished pixels, and their PNG file.
//
// Rows from the top, four bytes a pixel: red, green, blue as sRGB, and straight (not premultiplied) alpha.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace couplet {

struct Image {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> rgba;

    friend bool operator==(const Image&, const Image&) = default;
};

// Rows in the opposite order: what OpenGL reads out begins at the bottom.
[[nodiscard]] Image upright(Image upwards);

// The bytes of a PNG file, marked as sRGB; without alpha where every pixel is opaque. Made for speed rather than for
// the last byte of size. Throws std::runtime_error for an image without pixels, with a wrong number of them, or larger
// than a PNG can be.
[[nodiscard]] std::string png_bytes(const Image& image);

// The picture in the bytes of a PNG file, in sRGB whatever the file holds. Throws std::runtime_error where it is none.
[[nodiscard]] Image image_of_png(std::string_view bytes);

}  // namespace couplet
