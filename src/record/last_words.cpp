#include "record/last_words.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <stdexcept>

namespace couplet {

int unnamed_file() {
    std::string name = (std::filesystem::temp_directory_path() / "couplet.XXXXXX").string();
    const int file = mkstemp(name.data());
    if (file < 0) throw std::runtime_error(std::string("no temporary file can be made: ") + std::strerror(errno));
    fcntl(file, F_SETFD, FD_CLOEXEC);
    unlink(name.c_str());
    return file;
}

std::string last_words(int file) {
    constexpr off_t kMost = kMostLastWords;
    const off_t length = lseek(file, 0, SEEK_END);
    std::string text(static_cast<std::size_t>(std::min(length, kMost)), '\0');
    const ssize_t got = pread(file, text.data(), text.size(), std::max<off_t>(0, length - kMost));
    text.resize(static_cast<std::size_t>(std::max<ssize_t>(0, got)));
    return text;
}

}  // namespace couplet
