#include "record/picture_files.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "record/unfinished.hpp"

namespace couplet {

namespace {

[[noreturn]] void fail(const std::filesystem::path& path, std::string_view what) {
    throw std::runtime_error(fmt::format("{} cannot be {}: {}", path.string(), what, std::strerror(errno)));
}

}  // namespace

std::string picture_name(int frame) {
    return fmt::format("{:06}.png", frame + 1);
}

void write_picture(const std::filesystem::path& path, const Image& image) {
    const std::string bytes = png_bytes(image);
    Unfinished picture(path);
    errno = 0;
    std::ofstream file(picture.path(), std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (!file) fail(path, "written");
    picture.take_place();
}

Image read_picture(const std::filesystem::path& path) {
    errno = 0;
    std::ifstream file(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (!file) fail(path, "read");
    try {
        return image_of_png(bytes);
    } catch (const std::runtime_error& error) {
        throw std::runtime_error(path.string() + ": " + error.what());
    }
}

}  // namespace couplet
