#include "support/read_png.hpp"

#include <png.h>

#include <stdexcept>
#include <string>

namespace couplet {

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
