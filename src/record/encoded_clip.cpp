// The sink that an encoder stands behind.
#include <fmt/format.h>

#include <cstring>
#include <fstream>
#include <stdexcept>

#include "record/child.hpp"
#include "record/sinks.hpp"
#include "record/unfinished.hpp"

namespace couplet {

namespace {

constexpr const char* kEncoder = "ffmpeg";
constexpr int kPaletteSamples = 24;

std::string last_line(std::string text) {
    while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.pop_back();
    const std::size_t start = text.find_last_of("\r\n");
    return start == std::string::npos ? text : text.substr(start + 1);
}

[[noreturn]] void refuse(const Child::End& end) {
    const std::string said = last_line(end.said);
    const std::string how = end.signal != 0   ? fmt::format("was ended by a signal ({})", strsignal(end.signal))
                            : end.status != 0 ? fmt::format("gave up with status {}", end.status)
                                              : std::string("complained");
    throw std::runtime_error(
        fmt::format("the encoder {} {}{}{}; nothing was written", kEncoder, how, said.empty() ? "" : ": ", said));
}

// Tells an unwritable target before anything is drawn.
void expect_writable(const std::filesystem::path& path) {
    if (!std::ofstream(path, std::ios::binary))
        throw std::runtime_error(fmt::format(
            "{} cannot be written: {}", path.parent_path().empty() ? std::string(".") : path.parent_path().string(),
            std::strerror(errno)));
}

class EncodedClip : public FrameSink {
  public:
    EncodedClip(ClipKind kind, const std::filesystem::path& target, const EncoderInput& input)
        : kind_(kind), input_(input), clip_(target), palette_(target.string() + ".palette") {
        expect_writable(clip_.path());
        if (kind == ClipKind::gif)
            child_ = std::make_unique<Child>(kEncoder, palette_arguments(input, palette_.path().string()));
        else
            start();
    }

    [[nodiscard]] int samples() const override { return kind_ == ClipKind::gif ? kPaletteSamples : 0; }
    void sample(const Image& frame) override { feed(frame); }

    void take(int /*frame*/, const Image& image) override {
        if (kind_ == ClipKind::gif && !started_) {
            end_child();
            start();
        }
        feed(image);
    }

    void finish() override {
        end_child();
        clip_.take_place();
    }

  private:
    void start() {
        child_ = std::make_unique<Child>(
            kEncoder, encoder_arguments(kind_, input_, palette_.path().string(), clip_.path().string()));
        started_ = true;
    }
    void feed(const Image& image) {
        if (!child_->feed(image.rgba)) refuse(child_->finish());
    }
    // An encoder that complains has not written what was asked for, whatever it says in the end.
    void end_child() {
        const Child::End end = child_->finish();
        if (!end.is_good() || !end.said.empty()) refuse(end);
    }

    ClipKind kind_;
    EncoderInput input_;
    Unfinished clip_;
    Unfinished palette_;
    std::unique_ptr<Child> child_;
    bool started_ = false;
};

}  // namespace

std::unique_ptr<FrameSink> encoded_clip(ClipKind kind, const std::filesystem::path& target, const EncoderInput& input) {
    return std::make_unique<EncodedClip>(kind, target, input);
}

}  // namespace couplet
