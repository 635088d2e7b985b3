#include "record/frame_sink.hpp"

#include <array>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "record/child.hpp"
#include "record/own_folder.hpp"
#include "record/picture_files.hpp"
#include "sheet/json_values.hpp"

namespace couplet {
namespace {

constexpr int kWidth = 64;
constexpr int kHeight = 48;
constexpr int kFrames = 12;

// A white bar that wanders to the right over a ground of four colours; everything left of it is clear where asked.
Image made_up(int frame, bool clear) {
    Image image{kWidth, kHeight, {}};
    const int bar = 8 + 4 * frame;
    for (int y = 0; y < kHeight; ++y)
        for (int x = 0; x < kWidth; ++x) {
            const bool in_bar = x >= bar && x < bar + 8;
            const bool low = y >= kHeight / 2;
            const bool right = x >= kWidth / 2;
            const std::array<std::uint8_t, 3> ground = {static_cast<std::uint8_t>(low ? 180 : 0),
                                                        static_cast<std::uint8_t>(right ? 120 : 0),
                                                        static_cast<std::uint8_t>(low != right ? 60 : 0)};
            const std::uint8_t alpha = clear && x < bar ? 0 : 255;
            for (const std::uint8_t c : ground)
                image.rgba.push_back(in_bar ? std::uint8_t{255} : (alpha == 0 ? std::uint8_t{0} : c));
            image.rgba.push_back(alpha);
        }
    return image;
}

class Sink : public OwnFolder {
  protected:
    void write_clip(const std::string& name, const EncoderInput& input, int frames = kFrames) const {
        std::unique_ptr<FrameSink> sink = sink_for(clip_kind_of(name).value(), in_folder(name), input);
        const int samples = std::min(sink->samples(), frames);
        for (int k = 0; k < samples; ++k) sink->sample(made_up(k * frames / samples, input.transparent));
        for (int k = 0; k < frames; ++k) sink->take(k, made_up(k, input.transparent));
        EXPECT_FALSE(std::filesystem::exists(in_folder(name))) << "only what is finished has the name";
        sink->finish();
        sink.reset();
        EXPECT_EQ(names(), Names{name}) << "nothing else is left";
    }
    void write_clip(const std::string& name, bool transparent = false) const {
        write_clip(name, {{kWidth, kHeight}, 25, transparent});
    }

    [[nodiscard]] std::string said_by(const std::string& command) const {
        const std::string whole = "cd '" + folder_.string() + "' && " + command + " >.said 2>&1";
        EXPECT_EQ(std::system(whole.c_str()), 0) << command << '\n' << read(".said");  // NOLINT(cert-env33-c)
        const std::string said = read(".said");
        std::filesystem::remove(in_folder(".said"));
        return said;
    }
    [[nodiscard]] Json stream_of(const std::string& clip) const {
        return Json::parse(said_by("ffprobe -v error -count_frames -show_streams -of json " + clip))
            .at("streams")
            .at(0);
    }
    // All frames as on the screen.
    [[nodiscard]] std::vector<Image> decoded(const std::string& clip, const std::string& decoder = "") const {
        (void)said_by("ffmpeg -v error -y " + decoder + " -i " + clip +
                      " -vf scale=flags=accurate_rnd+full_chroma_int,format=rgba -f rawvideo .raw");
        const std::string bytes = read(".raw");
        std::filesystem::remove(in_folder(".raw"));
        std::vector<Image> frames;
        for (std::size_t at = 0; at < bytes.size(); at += std::size_t{4} * kWidth * kHeight) {
            const std::string frame = bytes.substr(at, std::size_t{4} * kWidth * kHeight);
            frames.push_back({kWidth, kHeight, {frame.begin(), frame.end()}});
        }
        return frames;
    }

    static double mean_difference(const Image& a, const Image& b) {
        double sum = 0.0;
        for (std::size_t i = 0; i < a.rgba.size(); ++i) sum += std::abs(int{a.rgba[i]} - int{b.rgba[i]});
        return sum / static_cast<double>(a.rgba.size());
    }
    // Each frame is the one that was given, and not another one of the clip.
    static void expect_frames(const std::vector<Image>& frames, bool transparent, double most) {
        ASSERT_EQ(frames.size(), static_cast<std::size_t>(kFrames));
        for (int k = 0; k < kFrames; ++k) {
            const double difference = mean_difference(frames[static_cast<std::size_t>(k)], made_up(k, transparent));
            EXPECT_LE(difference, most) << "frame " << k;
            EXPECT_GT(mean_difference(frames[static_cast<std::size_t>(k)], made_up((k + 1) % kFrames, transparent)),
                      2 * difference + 1)
                << "frame " << k;
        }
    }
    static void expect_stream(const Json& stream, const char* codec, const char* pixels) {
        EXPECT_EQ(stream["codec_name"], codec);
        EXPECT_EQ(stream["pix_fmt"], pixels);
        EXPECT_EQ(stream["width"], kWidth);
        EXPECT_EQ(stream["height"], kHeight);
        EXPECT_EQ(stream["r_frame_rate"], "25/1");
        EXPECT_EQ(stream["nb_read_frames"], std::to_string(kFrames));
    }
    // ITU-T H.273: BT.709, and the range of television.
    static void expect_video_colours(const Json& stream) {
        for (const char* tag : {"color_space", "color_transfer", "color_primaries"})
            EXPECT_EQ(stream[tag], "bt709") << tag;
        EXPECT_EQ(stream["color_range"], "tv");
    }
};

using EncodedSink = Sink;

TEST_F(EncodedSink, WritesMp4) {
    write_clip("clip.mp4");
    const Json stream = stream_of("clip.mp4");
    expect_stream(stream, "h264", "yuv420p");
    expect_video_colours(stream);
    EXPECT_DOUBLE_EQ(std::stod(stream["duration"].get<std::string>()), kFrames / 25.0);
    // ISO/IEC 14496-12: the index, moov, may stand before the data, mdat; a player can then begin at once.
    EXPECT_LT(read("clip.mp4").find("moov"), read("clip.mp4").find("mdat"));
    expect_frames(decoded("clip.mp4"), false, 6.0);
}

TEST_F(EncodedSink, WritesWebm) {
    write_clip("clip.webm");
    const Json stream = stream_of("clip.webm");
    expect_stream(stream, "vp9", "yuv420p");
    expect_video_colours(stream);
    expect_frames(decoded("clip.webm"), false, 6.0);
}

// 2026-11-28: the palette was handed on as a JPEG, so that five colours became others and nothing was clear.
TEST_F(EncodedSink, WritesGif) {
    write_clip("clip.gif");
    expect_stream(stream_of("clip.gif"), "gif", "bgra");
    expect_frames(decoded("clip.gif"), false, 0.0);
    // Netscape's extension: a block of 3 bytes, 1, then how often; 0 is for ever.
    const std::string bytes = read("clip.gif");
    EXPECT_EQ(bytes.substr(0, 6), "GIF89a");
    EXPECT_EQ(bytes.substr(bytes.find("NETSCAPE2.0") + 11, 5), std::string("\x03\x01\0\0\0", 5));
}

TEST_F(EncodedSink, WritesApng) {
    write_clip("clip.apng");
    expect_stream(stream_of("clip.apng"), "apng", "rgb24");
    expect_frames(decoded("clip.apng"), false, 0.0);
    // acTL: how many frames, and how often; 0 is for ever (PNG third edition, 11.3.6.1).
    const std::string bytes = read("clip.apng");
    EXPECT_EQ(bytes.substr(bytes.find("acTL") + 4, 8), std::string("\0\0\0\x0c\0\0\0\0", 8));
}

// What a WebP says of itself, chunk by chunk (RFC 9649): the installed decoders know none that moves.
struct WebpFacts {
    int width = 0;
    int height = 0;
    bool alpha = false;
    bool animated = false;
    int loops = -1;
    std::vector<int> frames_ms;
};

WebpFacts webp_facts(const std::string& bytes) {
    const auto number = [&](std::size_t at, std::size_t length) {
        unsigned value = 0;
        for (std::size_t i = length; i-- > 0;) value = value << 8U | static_cast<std::uint8_t>(bytes.at(at + i));
        return static_cast<int>(value);
    };
    WebpFacts facts;
    EXPECT_EQ(bytes.substr(0, 4) + bytes.substr(8, 4), "RIFFWEBP");
    EXPECT_EQ(static_cast<std::size_t>(number(4, 4)) + 8, bytes.size());
    for (std::size_t at = 12; at + 8 <= bytes.size();) {
        const std::string name = bytes.substr(at, 4);
        const std::size_t data = at + 8;
        if (name == "VP8X") {
            facts.alpha = (number(data, 1) & 0x10) != 0;
            facts.animated = (number(data, 1) & 0x02) != 0;
            facts.width = number(data + 4, 3) + 1;
            facts.height = number(data + 7, 3) + 1;
        }
        if (name == "ANIM") facts.loops = number(data + 4, 2);
        if (name == "ANMF") facts.frames_ms.push_back(number(data + 12, 3));
        const auto length = static_cast<std::size_t>(number(at + 4, 4));
        at = data + length + length % 2;
    }
    return facts;
}

TEST_F(EncodedSink, WritesWebp) {
    for (const bool transparent : {false, true}) {
        const std::string name = "clip.webp";
        write_clip(name, transparent);
        const WebpFacts facts = webp_facts(read(name));
        EXPECT_EQ(facts.width, kWidth);
        EXPECT_EQ(facts.height, kHeight);
        EXPECT_TRUE(facts.animated);
        EXPECT_EQ(facts.alpha, transparent);
        EXPECT_EQ(facts.loops, 0) << "for ever";
        EXPECT_EQ(facts.frames_ms, std::vector<int>(kFrames, 40));
        std::filesystem::remove(in_folder(name));
    }
}

TEST_F(EncodedSink, KeepsTheRateExactly) {
    write_clip("clip.mp4", {{kWidth, kHeight}, Ratio(30000, 1001), false});
    EXPECT_EQ(stream_of("clip.mp4")["r_frame_rate"], "30000/1001");
}

TEST_F(EncodedSink, KeepsAlphaInWebm) {
    write_clip("clip.webm", true);
    EXPECT_EQ(stream_of("clip.webm")["tags"]["alpha_mode"], "1");
    const std::vector<Image> frames = decoded("clip.webm", "-c:v libvpx-vp9");
    expect_frames(frames, true, 6.0);
    EXPECT_LE(frames[3].rgba[3], 8) << "the corner is clear";
    EXPECT_GE(frames[3].rgba[frames[3].rgba.size() - 1], 247);
}

TEST_F(EncodedSink, KeepsAlphaInApng) {
    write_clip("clip.apng", true);
    expect_stream(stream_of("clip.apng"), "apng", "rgba");
    expect_frames(decoded("clip.apng"), true, 0.0);
}

// There or not: GIF knows nothing between.
TEST_F(EncodedSink, KeepsAlphaInGif) {
    write_clip("clip.gif", true);
    for (int k = 0; k < kFrames; ++k) {
        const Image frame = decoded("clip.gif").at(static_cast<std::size_t>(k));
        const Image given = made_up(k, true);
        for (std::size_t i = 3; i < frame.rgba.size(); i += 4) ASSERT_EQ(frame.rgba[i], given.rgba[i]) << "frame " << k;
    }
}

// The colours of four flat fields come out as they went in; black and white above all.
TEST_F(EncodedSink, KeepsTheColoursOfTheScreen) {
    for (const char* name : {"clip.mp4", "clip.webm"}) {
        write_clip(name);
        const Image frame = decoded(name).at(6);
        const Image given = made_up(6, false);
        // Middles of the fields, and of the bar from 32 to 39.
        for (const auto& [x, y] : {std::pair{12, 10}, {56, 10}, {12, 38}, {56, 38}, {36, 10}, {36, 38}})
            for (std::size_t c = 0; c < 3; ++c) {
                const std::size_t at = static_cast<std::size_t>(y * kWidth + x) * 4 + c;
                EXPECT_NEAR(frame.rgba[at], given.rgba[at], 6) << name << " at " << x << ", " << y << ", colour " << c;
            }
        std::filesystem::remove(in_folder(name));
    }
}

TEST_F(EncodedSink, TakesAClipOfOneFrame) {
    for (const char* name : {"clip.mp4", "clip.gif", "clip.webm", "clip.apng"}) {
        write_clip(name, {{kWidth, kHeight}, 25, false}, 1);
        EXPECT_EQ(stream_of(name)["nb_read_frames"], "1") << name;
        std::filesystem::remove(in_folder(name));
    }
}

TEST_F(EncodedSink, TakesThePlaceOfAnOldClip) {
    write("clip.apng", "old");
    {
        const std::unique_ptr<FrameSink> dropped =
            sink_for(ClipKind::apng, in_folder("clip.apng"), {{kWidth, kHeight}});
        dropped->take(0, made_up(0, false));
    }
    EXPECT_EQ(read("clip.apng"), "old") << "what was not finished has taken nothing";
    EXPECT_EQ(names(), Names{"clip.apng"});
    const std::unique_ptr<FrameSink> sink = sink_for(ClipKind::apng, in_folder("clip.apng"), {{kWidth, kHeight}});
    sink->take(0, made_up(0, false));
    sink->finish();
    EXPECT_EQ(read("clip.apng").substr(1, 3), "PNG");
}

TEST_F(EncodedSink, ThatIsDroppedLeavesNothing) {
    for (const char* name : {"clip.mp4", "clip.webm", "clip.gif", "clip.apng", "clip.webp"}) {
        const std::unique_ptr<FrameSink> sink =
            sink_for(clip_kind_of(name).value(), in_folder(name), {{kWidth, kHeight}, 25, false});
        for (int k = 0; k < 3; ++k) sink->sample(made_up(k, false));
        if (std::string(name) != "clip.gif") sink->take(0, made_up(0, false));
    }
    EXPECT_TRUE(names().empty()) << testing::PrintToString(names());
}

TEST_F(EncodedSink, TellsTheEncodersOwnWords) {
    // 4:2:0 takes no odd sides.
    const std::unique_ptr<FrameSink> sink = sink_for(ClipKind::mp4, in_folder("clip.mp4"), {{63, 48}, 25, false});
    try {
        for (int k = 0; k < 3; ++k) sink->take(k, {63, 48, std::vector<std::uint8_t>(std::size_t{63} * 48 * 4)});
        sink->finish();
        FAIL();
    } catch (const std::runtime_error& error) {
        const std::string said = error.what();
        EXPECT_EQ(said.rfind("the encoder ffmpeg gave up with status 1: ", 0), 0U) << said;
        EXPECT_NE(said.find("; nothing was written"), std::string::npos) << said;
        EXPECT_EQ(said.find('\n'), std::string::npos) << said;
    }
}

TEST_F(EncodedSink, SaysAtOnceWhereItCannotWrite) {
    for (const ClipKind kind : {ClipKind::mp4, ClipKind::gif}) try {
            (void)sink_for(kind, in_folder("absent/clip.mp4"), {{kWidth, kHeight}});
            ADD_FAILURE();
        } catch (const std::runtime_error& error) {
            EXPECT_EQ(std::string(error.what()),
                      in_folder("absent").string() + " cannot be written: No such file or directory");
        }
    EXPECT_TRUE(names().empty());
}

TEST_F(EncodedSink, NeedsTheEncoder) {
    const std::string path = std::getenv("PATH");
    ASSERT_EQ(setenv("PATH", folder_.c_str(), 1), 0);
    EXPECT_THROW((void)sink_for(ClipKind::webm, in_folder("clip.webm"), {{kWidth, kHeight}}), NoProgram);
    EXPECT_NO_THROW((void)sink_for(ClipKind::picture_folder, in_folder("pictures"), {{kWidth, kHeight}}));
    setenv("PATH", path.c_str(), 1);
    EXPECT_TRUE(names().empty());
}

using FolderSink = Sink;

TEST_F(FolderSink, HasAllPicturesAtOnceOrNone) {
    {
        const std::unique_ptr<FrameSink> dropped = sink_for(ClipKind::picture_folder, folder_ / "pictures/", {});
        dropped->take(0, made_up(0, true));
        EXPECT_FALSE(std::filesystem::exists(in_folder("pictures")));
    }
    EXPECT_TRUE(names().empty());
    const std::unique_ptr<FrameSink> sink = sink_for(ClipKind::picture_folder, folder_ / "pictures/", {});
    sink->take(0, made_up(0, true));
    sink->finish();
    EXPECT_EQ(names(), Names{"pictures"});
}

TEST_F(FolderSink, KeepsEachPictureAsItIs) {
    const std::unique_ptr<FrameSink> sink = sink_for(ClipKind::picture_folder, folder_ / "pictures/", {});
    EXPECT_GE(sink->threads(), 1);
    EXPECT_EQ(sink->samples(), 0);
    for (int k = 0; k < kFrames; ++k) sink->take(k, made_up(k, true));
    sink->finish();
    for (int k = 0; k < kFrames; ++k)
        EXPECT_EQ(read_picture(in_folder("pictures") / picture_name(k)), made_up(k, true)) << k;
    EXPECT_FALSE(std::filesystem::exists(in_folder("pictures") / picture_name(kFrames)));
}

TEST_F(FolderSink, DoesNotMixWithWhatIsThere) {
    std::filesystem::create_directory(in_folder("empty"));
    const std::unique_ptr<FrameSink> sink = sink_for(ClipKind::picture_folder, in_folder("empty"), {});
    sink->take(0, made_up(0, false));
    sink->finish();
    EXPECT_EQ(names(), Names{"empty"});
    try {
        (void)sink_for(ClipKind::picture_folder, in_folder("empty"), {});
        FAIL() << "it holds a picture now";
    } catch (const std::runtime_error& error) {
        EXPECT_NE(std::string(error.what()).find("is there already and holds something"), std::string::npos);
    }
}

TEST_F(FolderSink, IsSharedByThoseWhoWriteSlices) {
    const std::unique_ptr<FrameSink> first =
        sink_for(ClipKind::picture_folder, in_folder("slices"), {}, Folder::shared);
    const std::unique_ptr<FrameSink> second =
        sink_for(ClipKind::picture_folder, in_folder("slices"), {}, Folder::shared);
    first->take(0, made_up(0, false));
    second->take(7, made_up(7, false));
    EXPECT_EQ(read_picture(in_folder("slices/000001.png")), made_up(0, false)) << "each picture is there when written";
    second->finish();
    first->finish();
    EXPECT_EQ(read_picture(in_folder("slices/000008.png")), made_up(7, false));
    EXPECT_EQ(names(), Names{"slices"});
}

TEST_F(Sink, WritesOnePictureWhenItIsFinished) {
    const std::unique_ptr<FrameSink> sink = sink_for(ClipKind::picture, in_folder("one.png"), {});
    sink->take(5, made_up(5, true));
    EXPECT_TRUE(names().empty());
    sink->finish();
    EXPECT_EQ(read_picture(in_folder("one.png")), made_up(5, true));
    EXPECT_EQ(names(), Names{"one.png"});
}

}  // namespace
}  // namespace couplet
