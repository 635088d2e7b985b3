#include "record/clip_kind.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace couplet {

namespace {

struct KindFacts {
    ClipKind kind;
    std::string_view ending;
    bool encoder;
    bool alpha;
    bool even;
    double bytes_per_pixel;
};

constexpr std::array<KindFacts, 7> kFacts = {{
    {ClipKind::mp4, ".mp4", true, false, true, 0.035},
    {ClipKind::webm, ".webm", true, true, true, 0.03},
    {ClipKind::gif, ".gif", true, true, false, 0.35},
    {ClipKind::apng, ".apng", true, true, false, 0.9},
    {ClipKind::webp, ".webp", true, true, false, 0.06},
    {ClipKind::picture_folder, "", false, true, false, 1.2},
    {ClipKind::picture, ".png", false, true, false, 1.2},
}};

const KindFacts& facts_of(ClipKind kind) {
    return *std::ranges::find(kFacts, kind, &KindFacts::kind);
}

std::vector<std::string> raw_input(const EncoderInput& input) {
    return {"-nostdin",
            "-hide_banner",
            "-loglevel",
            "error",
            "-y",
            "-f",
            "rawvideo",
            "-pixel_format",
            "rgba",
            "-video_size",
            fmt::format("{}x{}", input.size_px.x, input.size_px.y),
            "-framerate",
            input.fps.to_string(),
            "-i",
            "pipe:0"};
}

void append(std::vector<std::string>& arguments, std::initializer_list<std::string> more) {
    arguments.insert(arguments.end(), more);
}

// From sRGB as on screen to BT.709 in the limited range, and the tags that say so. Both have the same primaries; the
// curve is tagged as BT.709 too, as players expect it, though the values were made for a screen.
void append_video_colour(std::vector<std::string>& arguments, std::string_view pixels) {
    append(arguments,
           {"-vf",
            fmt::format("scale=in_range=full:out_range=tv:out_color_matrix=bt709:flags=accurate_rnd+"
                        "full_chroma_int,format={}",
                        pixels),
            "-color_primaries", "bt709", "-color_trc", "bt709", "-colorspace", "bt709", "-color_range", "tv"});
}

}  // namespace

std::optional<ClipKind> clip_kind_of(const std::filesystem::path& path) {
    std::error_code ignored;
    if (path.has_relative_path() && (path.filename().empty() || std::filesystem::is_directory(path, ignored)))
        return ClipKind::picture_folder;
    std::string ending = path.extension().string();
    std::ranges::transform(ending, ending.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    const auto* found = std::ranges::find(kFacts, ending, &KindFacts::ending);
    if (ending.empty() || found == kFacts.end()) return std::nullopt;
    return found->kind;
}

std::string_view clip_endings() {
    return ".mp4, .webm, .gif, .apng, .webp, .png for one picture, or a folder of pictures written name/";
}

bool needs_encoder(ClipKind kind) {
    return facts_of(kind).encoder;
}

bool keeps_alpha(ClipKind kind) {
    return facts_of(kind).alpha;
}

bool needs_even_sides(ClipKind kind) {
    return facts_of(kind).even;
}

Ratio usual_fps(ClipKind kind) {
    return kind == ClipKind::gif ? Ratio(25) : Ratio(30);
}

double bytes_per_pixel(ClipKind kind) {
    return facts_of(kind).bytes_per_pixel;
}

std::vector<std::string> encoder_arguments(ClipKind kind, const EncoderInput& input, const std::string& palette,
                                           const std::string& output) {
    std::vector<std::string> arguments = raw_input(input);
    switch (kind) {
        case ClipKind::mp4:
            append_video_colour(arguments, "yuv420p");
            append(arguments,
                   {"-c:v", "libx264", "-preset", "medium", "-crf", "17", "-movflags", "+faststart", "-f", "mp4"});
            break;
        case ClipKind::webm:
            append_video_colour(arguments, input.transparent ? "yuva420p" : "yuv420p");
            append(arguments, {"-c:v", "libvpx-vp9", "-crf", "24", "-b:v", "0", "-row-mt", "1", "-deadline", "good",
                               "-cpu-used", "4", "-f", "webm"});
            break;
        case ClipKind::gif:
            append(arguments, {"-i", palette, "-lavfi", "paletteuse=dither=sierra2_4a:diff_mode=rectangle", "-loop",
                               "0", "-f", "gif"});
            break;
        case ClipKind::apng:
            append(arguments, {"-pix_fmt", input.transparent ? "rgba" : "rgb24", "-c:v", "apng", "-pred", "mixed",
                               "-plays", "0", "-f", "apng"});
            break;
        case ClipKind::webp:
            append(arguments, {"-c:v", "libwebp_anim", "-quality", "88", "-loop", "0", "-f", "webp"});
            break;
        case ClipKind::picture_folder:
        case ClipKind::picture:
            break;
    }
    append(arguments, {"-fflags", "+bitexact", "-flags:v", "+bitexact", output});
    return arguments;
}

std::vector<std::string> palette_arguments(const EncoderInput& input, const std::string& output) {
    std::vector<std::string> arguments = raw_input(input);
    // The output's name does not say that it is a PNG, and a palette that loses nothing must be one.
    append(arguments, {"-vf", "palettegen=stats_mode=full", "-frames:v", "1", "-c:v", "png", "-f", "image2", "-update",
                       "1", output});
    return arguments;
}

}  // namespace couplet
