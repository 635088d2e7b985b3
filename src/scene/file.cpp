#include <cerrno>
#include <cstdio>
#include <fstream>
#include <memory>
#include <random>
#include <system_error>

#include <fmt/format.h>

#if defined(__unix__) || defined(__APPLE__)
#include <unistd.h>
#define COUPLET_HAS_FSYNC
#endif

#include "scene/scene.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

std::string system_words() {
    return std::generic_category().message(errno);
}

[[noreturn]] void refuse_reading(const fs::path& path, const std::string& why) {
    throw SceneError(path.string(), 0, fmt::format("the file cannot be read: {}", why),
                     "give the path of a scene file");
}

// A new file beside the target that is gone again unless it took the target's place.
class Replacement {
  public:
    explicit Replacement(fs::path target) : target_(std::move(target)) {
        constexpr int kMostTries = 16;
        std::random_device random;
        for (int i = 0; i < kMostTries && file_ == nullptr; ++i) {
            path_ = target_;
            path_ += fmt::format(".{:08x}.new", random());
            errno = 0;
            file_.reset(std::fopen(path_.string().c_str(), "wbx"));
            if (file_ == nullptr && errno != EEXIST) break;
        }
        if (file_ == nullptr) fail();
        there_ = true;
    }
    ~Replacement() {
        file_.reset();
        std::error_code ignored;
        if (there_) fs::remove(path_, ignored);
    }
    Replacement(const Replacement&) = delete;
    Replacement& operator=(const Replacement&) = delete;

    void write(std::string_view text) {
        std::FILE* file = file_.get();
        if (std::fwrite(text.data(), 1, text.size(), file) != text.size() || std::fflush(file) != 0) fail();
#ifdef COUPLET_HAS_FSYNC
        if (fsync(fileno(file)) != 0) fail();
#endif
        if (std::fclose(file_.release()) != 0) fail();
    }

    void take_place() {
        std::error_code error;
        const fs::file_status old = fs::status(target_, error);
        if (fs::exists(old)) fs::permissions(path_, old.permissions(), error);
        fs::rename(path_, target_, error);
        if (error) fail(error.message());
        there_ = false;
    }

  private:
    [[noreturn]] void fail(const std::string& why = system_words()) const {
        throw SceneError(target_.string(), 0, fmt::format("the file cannot be written: {}", why),
                         "save it in a folder that can be written; the old file is untouched");
    }

    struct Closer {
        void operator()(std::FILE* file) const { std::fclose(file); }
    };
    fs::path target_;
    fs::path path_;
    std::unique_ptr<std::FILE, Closer> file_;
    bool there_ = false;
};

}  // namespace

std::string load_scene_text(const fs::path& path) {
    std::error_code error;
    if (fs::is_directory(path, error)) refuse_reading(path, "it is a folder");
    errno = 0;
    std::ifstream file(path, std::ios::binary);
    if (!file) refuse_reading(path, system_words());
    std::string text;
    constexpr std::size_t kPiece = std::size_t{1} << 16U;
    while (file && text.size() <= kMostSceneBytes) {
        const std::size_t before = text.size();
        text.resize(before + kPiece);
        file.read(text.data() + before, kPiece);
        text.resize(before + static_cast<std::size_t>(file.gcount()));
    }
    if (file.bad()) refuse_reading(path, system_words());
    if (text.size() > kMostSceneBytes)
        refuse_reading(path, fmt::format("it is larger than {} MiB", kMostSceneBytes >> 20U));
    return text;
}

void save_scene_text(const fs::path& path, std::string_view text) {
    std::error_code error;
    const fs::path target = fs::is_symlink(path, error) ? fs::weakly_canonical(path, error) : path;
    Replacement replacement(target.empty() ? path : target);
    replacement.write(text);
    replacement.take_place();
}

}  // namespace couplet
