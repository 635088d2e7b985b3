// Picture files: a clip's frames as numbered PNG files in a folder.
#pragma once

#include <filesystem>
#include <string>

#include "view/image.hpp"

namespace couplet {

// "000001.png" for frame 0: people, and encoders, count from 1.
[[nodiscard]] std::string picture_name(int frame);

// A reader finds the whole picture or none. Throws std::runtime_error.
void write_picture(const std::filesystem::path& path, const Image& image);
[[nodiscard]] Image read_picture(const std::filesystem::path& path);

}  // namespace couplet
