// Clip kind: what a clip is written as, told by the ending of its file, and what the encoder (ffmpeg) is told for it.
//
// Sources: H.264 in MP4 as every browser plays it: yuv420p, index in front (ISO/IEC 14496-12); colours tagged BT.709
// (ITU-T H.273, code 1), limited range; WebM with VP9; GIF89a with one palette for all frames; APNG (PNG third edition,
// W3C); WebP.
#pragma once

#include <filesystem>
#include <glm/vec2.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exact/ratio.hpp"

namespace couplet {

enum class ClipKind { mp4, webm, gif, apng, webp, picture_folder, picture };

// By the ending; a path that ends in "/" or is a folder is a picture folder. Nothing where no kind has the ending.
[[nodiscard]] std::optional<ClipKind> clip_kind_of(const std::filesystem::path& path);
// ".mp4, .webm, ..., or a folder of pictures written name/", for messages.
[[nodiscard]] std::string_view clip_endings();

[[nodiscard]] bool needs_encoder(ClipKind kind);
[[nodiscard]] bool keeps_alpha(ClipKind kind);
// Those with colour at half the resolution: their sides must be even.
[[nodiscard]] bool needs_even_sides(ClipKind kind);
// What a clip of this kind has where nobody asks for another: 30, but 25 for GIF, whose frames last whole hundredths of
// a second (GIF89a, 23.c.vi).
[[nodiscard]] Ratio usual_fps(ClipKind kind);
// What such clips took for each pixel of each frame when they were measured (common gears, tooth marks, full quality):
// good to a factor of two.
[[nodiscard]] double bytes_per_pixel(ClipKind kind);

struct EncoderInput {
    glm::ivec2 size_px{0};
    Ratio fps = 30;
    bool transparent = false;
};

// For raw frames, eight bits each of red, green, blue and straight alpha, on standard input. `palette` is a file, of
// GIF only.
[[nodiscard]] std::vector<std::string> encoder_arguments(ClipKind kind, const EncoderInput& input,
                                                         const std::string& palette, const std::string& output);
// The first pass of a GIF: frames in, the palette that suits them out.
[[nodiscard]] std::vector<std::string> palette_arguments(const EncoderInput& input, const std::string& output);

}  // namespace couplet
