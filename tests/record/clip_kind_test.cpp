#include "record/clip_kind.hpp"

#include "record/own_folder.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

using ClipKindOf = OwnFolder;

constexpr ClipKind kAllKinds[] = {ClipKind::mp4,  ClipKind::webm,           ClipKind::gif,    ClipKind::apng,
                                  ClipKind::webp, ClipKind::picture_folder, ClipKind::picture};

TEST_F(ClipKindOf, GoesByTheEndingInAnyCase) {
    EXPECT_EQ(clip_kind_of("clip.mp4"), ClipKind::mp4);
    EXPECT_EQ(clip_kind_of("clip.MP4"), ClipKind::mp4);
    EXPECT_EQ(clip_kind_of("some.where/a.b.WebM"), ClipKind::webm);
    EXPECT_EQ(clip_kind_of("clip.gif"), ClipKind::gif);
    EXPECT_EQ(clip_kind_of("clip.apng"), ClipKind::apng);
    EXPECT_EQ(clip_kind_of("clip.webp"), ClipKind::webp);
    EXPECT_EQ(clip_kind_of("clip.Png"), ClipKind::picture);
}

TEST_F(ClipKindOf, KnowsNoOther) {
    for (const char* path : {"clip.avi", "clip.mp", "clip.mp44", "clip", "", ".mp4", "mp4", "clip.", "clip.mp4.bak"})
        EXPECT_EQ(clip_kind_of(path), std::nullopt) << path;
}

TEST_F(ClipKindOf, TakesFoldersThatAreWrittenSoOrThere) {
    EXPECT_EQ(clip_kind_of("pictures/"), ClipKind::picture_folder);
    EXPECT_EQ(clip_kind_of("pictures.mp4/"), ClipKind::picture_folder) << "the stroke says what it is";
    std::filesystem::create_directory(in_folder("there.gif"));
    EXPECT_EQ(clip_kind_of(in_folder("there.gif")), ClipKind::picture_folder);
    EXPECT_EQ(clip_kind_of(in_folder("absent.gif")), ClipKind::gif);
}

TEST_F(ClipKindOf, KnowsEachEndingThatMessagesName) {
    for (const char* ending : {".mp4", ".webm", ".gif", ".apng", ".webp", ".png"}) {
        EXPECT_NE(clip_endings().find(ending), std::string_view::npos);
        EXPECT_TRUE(clip_kind_of(std::string("clip") + ending));
    }
}

TEST(ClipKindFacts, AreThoseOfTheFormats) {
    for (const ClipKind kind : kAllKinds) {
        const bool is_png = kind == ClipKind::picture || kind == ClipKind::picture_folder;
        EXPECT_EQ(needs_encoder(kind), !is_png);
        // H.264 in its usual profiles has no alpha.
        EXPECT_EQ(keeps_alpha(kind), kind != ClipKind::mp4);
        // 4:2:0.
        EXPECT_EQ(needs_even_sides(kind), kind == ClipKind::mp4 || kind == ClipKind::webm);
        EXPECT_GT(bytes_per_pixel(kind), 0.0);
        EXPECT_LT(bytes_per_pixel(kind), 4.0) << "less than raw";
    }
}

// GIF89a, 23.c.vi: a frame lasts whole hundredths of a second, so the rate must divide 100.
TEST(ClipKindFacts, GiveGifARateThatItCanHave) {
    EXPECT_TRUE((Ratio(100) / usual_fps(ClipKind::gif)).is_whole());
    EXPECT_EQ(usual_fps(ClipKind::mp4), Ratio(30));
}

// True where the words follow each other.
bool have(const std::vector<std::string>& arguments, const std::vector<std::string>& words) {
    return std::ranges::search(arguments, words).begin() != arguments.end();
}

TEST(EncoderArguments, TellOfTheRawFrames) {
    const EncoderInput input{{64, 48}, Ratio(30000, 1001), false};
    for (const ClipKind kind : kAllKinds) {
        if (!needs_encoder(kind)) continue;
        const std::vector<std::string> arguments = encoder_arguments(kind, input, "palette.png", "out");
        EXPECT_TRUE(have(arguments, {"-f", "rawvideo", "-pixel_format", "rgba", "-video_size", "64x48", "-framerate",
                                     "30000/1001", "-i", "pipe:0"}));
        EXPECT_EQ(arguments.back(), "out");
        EXPECT_TRUE(have(arguments, {"-y"})) << "the file beside the final name is ours";
        EXPECT_TRUE(have(arguments, {"-nostdin"})) << "its input is frames, not keys";
    }
}

TEST(EncoderArguments, SayWhatEachFormatNeeds) {
    const EncoderInput opaque{{64, 48}, 30, false};
    const EncoderInput clear{{64, 48}, 30, true};
    const auto arguments = [](ClipKind kind, const EncoderInput& input) {
        return encoder_arguments(kind, input, "palette.png", "out");
    };
    const auto has_word = [](const std::vector<std::string>& all, std::string_view part) {
        return std::ranges::any_of(all, [&](const std::string& a) { return a.find(part) != std::string::npos; });
    };
    const std::vector<std::string> mp4 = arguments(ClipKind::mp4, opaque);
    EXPECT_TRUE(have(mp4, {"-c:v", "libx264"}));
    EXPECT_TRUE(have(mp4, {"-movflags", "+faststart"}));
    EXPECT_TRUE(has_word(mp4, "format=yuv420p"));
    for (const ClipKind kind : {ClipKind::mp4, ClipKind::webm}) {
        EXPECT_TRUE(has_word(arguments(kind, opaque), "out_color_matrix=bt709"));
        for (const char* tag : {"-color_primaries", "-color_trc", "-colorspace"})
            EXPECT_TRUE(have(arguments(kind, opaque), {tag, "bt709"})) << tag;
        EXPECT_TRUE(have(arguments(kind, opaque), {"-color_range", "tv"}));
    }
    EXPECT_TRUE(has_word(arguments(ClipKind::webm, clear), "format=yuva420p"));
    EXPECT_FALSE(has_word(arguments(ClipKind::webm, opaque), "yuva420p"));
    EXPECT_TRUE(have(arguments(ClipKind::gif, opaque), {"-i", "palette.png"}));
    EXPECT_TRUE(have(arguments(ClipKind::gif, opaque), {"-loop", "0"}));
    EXPECT_TRUE(have(arguments(ClipKind::apng, opaque), {"-plays", "0"}));
    EXPECT_TRUE(have(arguments(ClipKind::apng, clear), {"-pix_fmt", "rgba"}));
    EXPECT_TRUE(have(arguments(ClipKind::webp, opaque), {"-loop", "0"}));
    EXPECT_TRUE(has_word(palette_arguments(opaque, "palette.png"), "palettegen"));
    EXPECT_EQ(palette_arguments(opaque, "palette.png").back(), "palette.png");
}

}  // namespace
}  // namespace couplet
