// Reads a PNG file back: for tests that look at pictures.
#pragma once

#include <string_view>

#include "view/image.hpp"

namespace couplet {

// The picture in the bytes of a PNG file, in sRGB whatever the file holds. Throws std::runtime_error where it is none.
[[nodiscard]] Image image_of_png(std::string_view bytes);

}  // namespace couplet
