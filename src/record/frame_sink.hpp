// Frame sink: where a clip's finished frames go: an encoder, a folder of pictures, or one picture.
//
// Whatever is being written stands beside its final name until `finish`; a sink that is destroyed before leaves
// nothing.
#pragma once

#include <filesystem>
#include <memory>

#include "record/clip_kind.hpp"
#include "view/image.hpp"

namespace couplet {

class FrameSink {
  public:
    FrameSink() = default;
    virtual ~FrameSink() = default;
    FrameSink(const FrameSink&) = delete;
    FrameSink& operator=(const FrameSink&) = delete;

    // How many threads may hand over frames at a time. With 1 the frames come in their order.
    [[nodiscard]] virtual int threads() const { return 1; }
    // How many frames, spread over the clip, it wants to see before the first one, to choose its colours by.
    [[nodiscard]] virtual int samples() const { return 0; }
    virtual void sample(const Image& /*frame*/) {}
    // Frames count from 0. Throws std::runtime_error where it can take no more, saying why.
    virtual void take(int frame, const Image& image) = 0;
    // Gives what was written its final name. Throws std::runtime_error.
    virtual void finish() = 0;
};

// How a folder of pictures is written: as one, which takes its place at the end; or into a folder that others write
// into too, picture by picture.
enum class Folder { whole, shared };

// Throws NoProgram where the kind needs an encoder and there is none, std::runtime_error where the target cannot be
// written.
[[nodiscard]] std::unique_ptr<FrameSink> sink_for(ClipKind kind, const std::filesystem::path& target,
                                                  const EncoderInput& input, Folder folder = Folder::whole);

}  // namespace couplet
