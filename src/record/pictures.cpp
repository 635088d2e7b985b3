// The sinks that write pictures: many into a folder, or one.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <thread>

#include "record/picture_files.hpp"
#include "record/sinks.hpp"
#include "record/unfinished.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

void make_folder(const fs::path& path) {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) throw std::runtime_error(fmt::format("{} cannot be made: {}", path.string(), error.message()));
}

class PictureFolder : public FrameSink {
  public:
    PictureFolder(const fs::path& target, Folder folder) : whole_(target), target_(target), folder_(folder) {
        std::error_code ignored;
        if (folder == Folder::whole && fs::exists(target, ignored) && !fs::is_empty(target, ignored))
            throw std::runtime_error(
                fmt::format("the folder {} is there already and holds something; name a new one", target.string()));
        make_folder(written_into());
    }

    [[nodiscard]] int threads() const override {
        return static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    }
    void take(int frame, const Image& image) override { write_picture(written_into() / picture_name(frame), image); }
    void finish() override {
        if (folder_ == Folder::whole) whole_.take_place();
    }

  private:
    [[nodiscard]] const fs::path& written_into() const { return folder_ == Folder::whole ? whole_.path() : target_; }

    Unfinished whole_;
    fs::path target_;
    Folder folder_;
};

class SinglePicture : public FrameSink {
  public:
    explicit SinglePicture(fs::path target) : target_(std::move(target)) {}
    void take(int /*frame*/, const Image& image) override { image_ = image; }
    void finish() override { write_picture(target_, image_); }

  private:
    fs::path target_;
    Image image_;
};

}  // namespace

std::unique_ptr<FrameSink> picture_folder(const fs::path& target, Folder folder) {
    return std::make_unique<PictureFolder>(target, folder);
}

std::unique_ptr<FrameSink> single_picture(const fs::path& target) {
    return std::make_unique<SinglePicture>(target);
}

std::unique_ptr<FrameSink> sink_for(ClipKind kind, const fs::path& target, const EncoderInput& input, Folder folder) {
    if (kind == ClipKind::picture) return single_picture(target);
    if (kind == ClipKind::picture_folder) return picture_folder(target, folder);
    return encoded_clip(kind, target, input);
}

}  // namespace couplet
