// Sinks: the makers of each kind of frame sink. For files of this room only.
#pragma once

#include "record/frame_sink.hpp"

namespace couplet {

[[nodiscard]] std::unique_ptr<FrameSink> encoded_clip(ClipKind kind, const std::filesystem::path& target,
                                                      const EncoderInput& input);
[[nodiscard]] std::unique_ptr<FrameSink> picture_folder(const std::filesystem::path& target, Folder folder);
[[nodiscard]] std::unique_ptr<FrameSink> single_picture(const std::filesystem::path& target);

}  // namespace couplet
