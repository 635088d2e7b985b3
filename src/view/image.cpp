#include "view/image.hpp"

#include <png.h>

#include <algorithm>
#include <cstddef>
#include <stdexcept>

namespace couplet {
namespace {

bool is_opaque(const Image& image) {
    for (std::size_t i = 3; i < image.rgba.size(); i += 4)
        if (image.rgba[i] != 255) return false;
    return true;
}

std::vector<std::uint8_t> without_alpha(const Image& image) {
    std::vector<std::uint8_t> rgb(image.rgba.size() / 4 * 3);
    for (std::size_t from = 0, to = 0; from < image.rgba.size(); from += 4, to += 3)
        std::copy_n(&image.rgba[from], 3, &rgb[to]);
    return rgb;
}

void expect_whole(const Image& image) {
    const auto name = std::to_string(image.width) + " x " + std::to_string(image.height);
    if (image.width <= 0 || image.height <= 0) throw std::runtime_error("an image of " + name + " pixels is empty");
    const auto bytes = static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height) * 4;
    if (image.rgba.size() != bytes)
        throw std::runtime_error("an image of " + name + " pixels takes " + std::to_string(bytes) +
                                 " bytes; there are " + std::to_string(image.rgba.size()));
}

}  // namespace

Image upright(Image upwards) {
    const std::size_t row = static_cast<std::size_t>(upwards.width) * 4;
    for (std::size_t low = 0, high = static_cast<std::size_t>(upwards.height); low + 1 < high; ++low) {
        --high;
        std::swap_ranges(upwards.rgba.begin() + static_cast<std::ptrdiff_t>(low * row),
                         upwards.rgba.begin() + static_cast<std::ptrdiff_t>((low + 1) * row),
                         upwards.rgba.begin() + static_cast<std::ptrdiff_t>(high * row));
    }
    return upwards;
}

std::string png_bytes(const Image& image) {
    expect_whole(image);
    const bool opaque = is_opaque(image);
    const std::vector<std::uint8_t> rgb = opaque ? without_alpha(image) : std::vector<std::uint8_t>();

    png_image png{};
    png.version = PNG_IMAGE_VERSION;
    png.width = static_cast<png_uint_32>(image.width);
    png.height = static_cast<png_uint_32>(image.height);
    png.format = opaque ? PNG_FORMAT_RGB : PNG_FORMAT_RGBA;
    png.flags = PNG_IMAGE_FLAG_FAST;
    std::string bytes(PNG_IMAGE_PNG_SIZE_MAX(png), '\0');
    png_alloc_size_t size = bytes.size();
    const void* pixels = opaque ? rgb.data() : image.rgba.data();
    if (png_image_write_to_memory(&png, bytes.data(), &size, 0, pixels, 0, nullptr) == 0)
        throw std::runtime_error(std::string("the image cannot be written as PNG: ") + png.message);
    bytes.resize(size);
    return bytes;
}

Image image_of_png(std::string_view bytes) {
    png_image png{};
    png.version = PNG_IMAGE_VERSION;
    const auto expect = [&png](int done) {
        if (done == 0) throw std::runtime_error(std::string("this is no PNG that can be read: ") + png.message);
    };
    expect(png_image_begin_read_from_memory(&png, bytes.data(), bytes.size()));
    png.format = PNG_FORMAT_RGBA;
    Image image{static_cast<int>(png.width), static_cast<int>(png.height), {}};
    image.rgba.resize(PNG_IMAGE_SIZE(png));
    expect(png_image_finish_read(&png, nullptr, image.rgba.data(), 0, nullptr));
    return image;
}

}  // namespace couplet
