#include <csignal>
#include <cstdio>
#include <thread>

#include "cli/run_couplet.hpp"
#include "record/picture_files.hpp"

namespace couplet {
namespace {

// What is recorded here is small and quick; what is looked at is the files, by ffprobe and ffmpeg.
constexpr const char* kQuick = "--quality light --quiet ";
constexpr const char* kSmall = "--size 128x72 --quality light --quiet ";
// What a scene of a motion lacks for its parts to be drawn.
constexpr const char* kTeeth = "[teeth]\nmodule = 2\nbacklash = 0.08\n";

class RecordVerb : public CoupletRun {
  protected:
    void record(const std::string& arguments, const char* size = kSmall) const {
        const Result result = run(std::string("record ") + size + arguments);
        EXPECT_EQ(result.status, 0) << arguments << '\n' << result.err;
        EXPECT_EQ(result.out + result.err, "") << arguments;
    }

    // What a program of this machine prints.
    [[nodiscard]] std::string said_by(const std::string& command) const {
        const std::string whole = "cd '" + folder_.string() + "' && " + command + " >.said 2>&1";
        EXPECT_EQ(std::system(whole.c_str()), 0) << command << '\n' << read(".said");  // NOLINT(cert-env33-c)
        return read(".said");
    }

    [[nodiscard]] Json stream_of(const std::string& clip) const {
        return Json::parse(said_by("ffprobe -v error -count_frames -show_streams -show_format -of json " + clip))
            .at("streams")
            .at(0);
    }

    // One frame, from 0, as the bytes on the screen: no curve of the file's tags is applied.
    [[nodiscard]] Image decoded(const std::string& clip, int frame, const std::string& decoder = "") const {
        (void)said_by("ffmpeg -v error -y " + decoder + " -i " + clip + " -vf 'select=eq(n\\," + std::to_string(frame) +
                      "),scale=flags=accurate_rnd+full_chroma_int,format=rgba' -frames:v 1 -f rawvideo decoded.raw");
        const Json stream = stream_of(clip);
        const std::string bytes = read("decoded.raw");
        Image image{stream["width"], stream["height"], std::vector<std::uint8_t>(bytes.begin(), bytes.end())};
        EXPECT_EQ(bytes.size(), static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height) * 4);
        return image;
    }

    // Structural similarity, 1 where they are equal (Z. Wang et al., Image Quality Assessment: From Error Visibility to
    // Structural Similarity, IEEE Transactions on Image Processing 13, 2004), as ffmpeg measures it.
    [[nodiscard]] double likeness(const std::string& a, const std::string& b) const {
        const std::string said = said_by("ffmpeg -v info -i " + a + " -i " + b + " -lavfi ssim -f null -");
        const std::size_t at = said.rfind("All:");
        EXPECT_NE(at, std::string::npos) << said;
        return at == std::string::npos ? 0.0 : std::stod(said.substr(at + 4));
    }

    [[nodiscard]] Image picture(const std::string& name) const { return read_picture(folder_ / name); }

    // No unfinished file either.
    [[nodiscard]] std::vector<std::string> everything() const {
        std::vector<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(folder_))
            if (const std::string name = entry.path().filename().string();
                name != ".out" && name != ".err" && name != ".said")
                names.push_back(name);
        std::ranges::sort(names);
        return names;
    }

    // The clear refusal that each of these ends in.
    void expect_one_refusal(const Result& result, const std::string& words) const {
        EXPECT_EQ(result.status, 2);
        EXPECT_EQ(result.out, "");
        EXPECT_NE(result.err.find(words), std::string::npos) << result.err;
        EXPECT_EQ(std::ranges::count(result.err, '\n'), 1) << result.err;
    }
};

double mean_difference(const Image& a, const Image& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.rgba.size(); ++i) sum += std::abs(int{a.rgba[i]} - int{b.rgba[i]});
    return sum / static_cast<double>(a.rgba.size());
}

std::string numbered(const char* pattern, int number) {
    char name[64];
    std::snprintf(name, sizeof name, pattern, number);
    return name;
}

TEST_F(RecordVerb, WritesH264ThatEveryPlayerTakes) {
    record("--seconds 1 -o clip.mp4");
    const Json stream = stream_of("clip.mp4");
    EXPECT_EQ(stream["codec_name"], "h264");
    EXPECT_EQ(stream["pix_fmt"], "yuv420p");
    EXPECT_EQ(stream["width"], 128);
    EXPECT_EQ(stream["height"], 72);
    EXPECT_EQ(stream["r_frame_rate"], "30/1");
    EXPECT_EQ(stream["nb_read_frames"], "30");
    EXPECT_DOUBLE_EQ(std::stod(stream["duration"].get<std::string>()), 1.0);
    for (const char* tag : {"color_space", "color_transfer", "color_primaries"}) EXPECT_EQ(stream[tag], "bt709") << tag;
    EXPECT_EQ(stream["color_range"], "tv");
    // The index in front of the pictures (ISO/IEC 14496-12), so that it plays while it is loaded.
    const std::string bytes = read("clip.mp4");
    EXPECT_LT(bytes.find("moov"), bytes.find("mdat"));
    EXPECT_EQ(everything(), (std::vector<std::string>{"clip.mp4"}));
}

TEST_F(RecordVerb, WritesEachKindByItsEnding) {
    struct Expected {
        const char* file;
        const char* codec;
        const char* pixels;
        const char* rate;
        const char* frames;
    };
    for (const Expected& expected :
         {Expected{"clip.webm", "vp9", "yuv420p", "30/1", "15"}, Expected{"clip.gif", "gif", "bgra", "25/1", "13"},
          Expected{"clip.apng", "apng", "rgb24", "30/1", "15"}}) {
        record(std::string("--seconds 0.5 -o ") + expected.file);
        const Json stream = stream_of(expected.file);
        EXPECT_EQ(stream["codec_name"], expected.codec);
        EXPECT_EQ(stream["pix_fmt"], expected.pixels) << expected.file;
        EXPECT_EQ(stream["r_frame_rate"], expected.rate) << expected.file;
        EXPECT_EQ(stream["nb_read_frames"], expected.frames) << expected.file;
        EXPECT_EQ(stream["width"], 128) << expected.file;
    }
}

// Two bytes of the application extension: 0 is for ever (GIF89a, Netscape's extension, as every browser reads it).
TEST_F(RecordVerb, GifLoopsForEver) {
    record("--seconds 0.2 -o clip.gif");
    const std::string bytes = read("clip.gif");
    const std::size_t at = bytes.find("NETSCAPE2.0");
    ASSERT_NE(at, std::string::npos);
    EXPECT_EQ(bytes.substr(at + 11, 5), std::string("\x03\x01\x00\x00\x00", 5));
}

// acTL: frames, then plays, 0 being for ever (PNG third edition, 11.3.6.1); WebP: ANIM holds the background, then the
// count of loops (RFC 9649, 2.7.1.1).
TEST_F(RecordVerb, ApngAndWebpLoopForEver) {
    record("--seconds 0.2 -o clip.apng");
    const std::string apng = read("clip.apng");
    const std::size_t control = apng.find("acTL");
    ASSERT_NE(control, std::string::npos);
    EXPECT_EQ(apng.substr(control + 4, 8), std::string("\0\0\0\x06\0\0\0\0", 8)) << "six frames";
    record("--seconds 0.2 -o clip.webp");
    const std::string webp = read("clip.webp");
    EXPECT_EQ(webp.substr(0, 4) + webp.substr(8, 4), "RIFFWEBP");
    const std::size_t animation = webp.find("ANIM");
    ASSERT_NE(animation, std::string::npos);
    EXPECT_EQ(webp.substr(animation + 12, 2), std::string(2, '\0'));
    std::size_t frames = 0;
    for (std::size_t p = webp.find("ANMF"); p != std::string::npos; p = webp.find("ANMF", p + 4)) ++frames;
    EXPECT_EQ(frames, 6U);
}

TEST_F(RecordVerb, KeepsWhatIsTransparent) {
    record("--seconds 0.1 --transparent -o pictures/");
    const Image still = picture("pictures/000001.png");
    ASSERT_EQ(still.rgba[3], 0) << "nothing stands in the corner";
    for (const auto& [file, decoder] : {std::pair{"clip.webm", "-c:v libvpx-vp9"}, {"clip.apng", ""}}) {
        record(std::string("--seconds 0.1 --transparent -o ") + file);
        const Image shown = decoded(file, 0, decoder);
        ASSERT_EQ(shown.rgba.size(), still.rgba.size());
        double sum = 0.0;
        for (std::size_t i = 3; i < still.rgba.size(); i += 4) sum += std::abs(int{shown.rgba[i]} - int{still.rgba[i]});
        EXPECT_LT(sum / static_cast<double>(still.rgba.size() / 4), 2.0) << file << ": mean difference of alpha";
    }
}

// The pose of frame k is exact, so the still of the same turns is the frame itself; what a codec loses is little, and
// no colour is washed out.
TEST_F(RecordVerb, AFrameIsTheStillOfItsInstant) {
    // 2 turns over 20 frames: frame 5 shows 1/2 turn. Nothing else moves.
    record("--turns 2 --seconds 1 --fps 20 --path fixed --size 320x180 -o clip.mp4", kQuick);
    record("--turns 2 --seconds 1 --fps 20 --path fixed --size 320x180 -o pictures/", kQuick);
    ASSERT_EQ(run("watch --still still.png --turns 1/2 --size 320x180 --quality light").status, 0);
    EXPECT_TRUE(picture("pictures/000006.png") == picture("still.png"));
    const Image still = picture("still.png");
    const Image shown = decoded("clip.mp4", 5);
    write_picture(folder_ / "shown.png", shown);
    EXPECT_GE(likeness("shown.png", "still.png"), 0.98);
    write_picture(folder_ / "other.png", decoded("clip.mp4", 9));
    EXPECT_LT(likeness("other.png", "still.png"), 0.98) << "another instant is told from it";
    EXPECT_LT(mean_difference(shown, still), 2.5);
    std::array<double, 3> shift{};
    for (std::size_t i = 0; i < still.rgba.size(); ++i)
        if (i % 4 < 3) shift[i % 4] += int{shown.rgba[i]} - int{still.rgba[i]};
    for (const double channel : shift)
        EXPECT_LT(std::abs(channel) / static_cast<double>(still.rgba.size() / 4), 1.0) << "mean shift of a channel";
}

TEST_F(RecordVerb, FlowsFromTheLastFrameIntoTheFirst) {
    record("--seconds 2 -o pictures/");
    std::vector<Image> frames;
    for (int k = 1; k <= 60; ++k) frames.push_back(picture(numbered("pictures/%06d.png", k)));
    double least = 1e9;
    double most = 0.0;
    for (std::size_t k = 0; k + 1 < frames.size(); ++k) {
        least = std::min(least, mean_difference(frames[k], frames[k + 1]));
        most = std::max(most, mean_difference(frames[k], frames[k + 1]));
    }
    EXPECT_GE(mean_difference(frames.back(), frames.front()), least);
    EXPECT_LE(mean_difference(frames.back(), frames.front()), most);
    EXPECT_GT(mean_difference(frames[30], frames.front()), most) << "frames further apart differ by more";
}

TEST_F(RecordVerb, SlicesJoinToTheSameClip) {
    record("--seconds 1 -o whole.mp4");
    // The command of README.md.
    const std::string slices = std::string("seq 1 10 30 | parallel -j2 '\"" COUPLET_PROGRAM "\" record ") + kSmall +
                               "--seconds 1 --frames {}-$(({}+9)) -o slices/'";
    EXPECT_EQ(said_by(slices), "");
    record("--seconds 1 --join slices -o joined.mp4");
    EXPECT_TRUE(read("joined.mp4") == read("whole.mp4")) << "byte for byte, so frame for frame";
    std::filesystem::remove(folder_ / "slices/000017.png");
    expect_one_refusal(run(std::string("record ") + kSmall + "--seconds 1 --join slices -o more.mp4"),
                       "slices/000017.png is missing; record it with --frames 17-17 -o slices/");
    EXPECT_FALSE(std::filesystem::exists(folder_ / "more.mp4"));
}

TEST_F(RecordVerb, TellsProgramsHowFarItIs) {
    const Result result = run(std::string("record ") + kSmall + "--seconds 0.1 --progress lines -o clip.gif --fps 30");
    EXPECT_EQ(result.out, "frame 1 of 3\nframe 2 of 3\nframe 3 of 3\n");
    expect_one_refusal(run("record --progress dots -o clip.gif"), "--progress has no 'dots'");
}

TEST_F(RecordVerb, SaysWhichLoopsThereAre) {
    const Result result = run("record --plan -o clip.mp4");
    EXPECT_EQ(result.status, 0);
    // 30 rpm for 10 s are 5 turns; four loops of 10/7 are nearest (tests/record/clip_plan_test.cpp works them out).
    EXPECT_NE(result.err.find("crank makes 40/7 turns (5.714): 4 loops"), std::string::npos) << result.err;
    EXPECT_NE(result.err.find("240 turns of crank until every tooth is back"), std::string::npos) << result.err;
    // 240 turns of 21 teeth, half a pitch a frame, 30 frames a second: 240 x 21 x 2 / 30 s.
    EXPECT_NE(result.err.find("--loop strict --seconds 336"), std::string::npos) << result.err;
    EXPECT_TRUE(everything().empty()) << "a plan writes nothing";
}

TEST_F(RecordVerb, TakesItsOptions) {
    record("--seconds 0.1 -o usual.png");
    const std::string usual = read("usual.png");
    for (const char* option : {"--captions title", "--captions ratio", "--captions turns", "--look clay", "--look line",
                               "--azimuth 40", "--elevation 70", "--zoom 2", "--spread 0.5", "--cutaway",
                               "--transparent", "--supersample 2", "--show pitch", "--finish ring=brass"}) {
        record(std::string("--seconds 0.1 -o other.png ") + option);
        EXPECT_TRUE(read("other.png") != usual) << option;
    }
    for (const char* option :
         {"--path fixed", "--path rocking", "--observer drum", "--turns 3", "--loop none", "--blur 4"}) {
        record("--seconds 2 --frames 8-8 -o usual.png");
        record(std::string("--seconds 2 --frames 8-8 -o other.png ") + option);
        EXPECT_TRUE(read("other.png") != read("usual.png")) << option;
    }
}

TEST_F(RecordVerb, RunsSettingsOneAfterTheOther) {
    write("two.toml", kSet + kTeeth + R"(
[[setting]]
name = "first"
hold = ["ring"]
drive = { sun = 30 }
[[setting]]
name = "second"
hold = ["carrier"]
drive = { sun = 30 }
)");
    const Result plan = run("record two.toml --plan --seconds 4 --setting first --setting second -o clip.mp4");
    EXPECT_EQ(plan.status, 0) << plan.err;
    std::size_t legs = 0;
    for (std::size_t p = plan.err.find("sun makes"); p != std::string::npos; p = plan.err.find("sun makes", p + 1))
        ++legs;
    EXPECT_EQ(legs, 2U) << plan.err;
}

TEST_F(RecordVerb, TellsALockedSettingByItsStatus) {
    const std::string scene = (std::filesystem::path(COUPLET_ROOT) / "scenes/stuck_sluice.toml").string();
    const Result result = run("record '" + scene + "' --size 64x36 --quality light --seconds 0.1 -o clip.gif");
    EXPECT_EQ(result.status, 1);
    EXPECT_NE(result.err.find("The train stands: its setting is locked."), std::string::npos) << result.err;
    EXPECT_EQ(stream_of("clip.gif")["nb_read_frames"], "3");
}

TEST_F(RecordVerb, GoesThroughTheShotsOfTheScene) {
    write("shots.toml", kSet + kTeeth + R"(
[[setting]]
hold = ["ring"]
name = "low"
drive = { sun = 30 }
[[shot]]
at = 0
azimuth = 10
elevation = 60
zoom = 2
[[shot]]
at = 0.5
azimuth = 120
look_at = "planet"
)");
    record("shots.toml --seconds 1 --fps 10 --path shots -o shots/");
    record(
        "shots.toml --seconds 1 --fps 10 --path fixed --azimuth 10 --elevation 60 --zoom 2 --frames 1-1 -o first.png");
    EXPECT_TRUE(picture("shots/000001.png") == picture("first.png")) << "at its own instant a shot is that view";
    EXPECT_GT(mean_difference(picture("shots/000001.png"), picture("shots/000006.png")), 3.0);
}

TEST_F(RecordVerb, WithoutTheEncoderSaysSoAndStillWritesPictures) {
    std::filesystem::create_directory(folder_ / "nothing");
    const std::string small = std::string("record ") + kSmall + "--seconds 0.1 ";
    const auto without = [&](const std::string& arguments) {
        const std::string command = "cd '" + folder_.string() + "' && PATH=\"$PWD/nothing\" '" COUPLET_PROGRAM "' " +
                                    small + arguments + " >.out 2>.err";
        const int raw = std::system(command.c_str());  // NOLINT(cert-env33-c)
        return Result{WEXITSTATUS(raw), read(".out"), read(".err")};
    };
    expect_one_refusal(without("-o clip.mp4"),
                       "ffmpeg, which writes .mp4 clips, is not on this machine; install it, or "
                       "record a folder of pictures: -o clip/");
    EXPECT_EQ(everything(), (std::vector<std::string>{"nothing"}));
    EXPECT_EQ(without("-o pictures/").status, 0);
    EXPECT_EQ(picture("pictures/000003.png").width, 128);
}

TEST_F(RecordVerb, AFullDiskLeavesNothing) {
    // A limit on a file's size stands for it: a file system of a few blocks needs rights that a test does not have.
    const auto limited = [&](const std::string& arguments) {
        const std::string command = "cd '" + folder_.string() + "' && ulimit -f 8 && '" COUPLET_PROGRAM "' record " +
                                    std::string(kSmall) + arguments + " >.out 2>.err";
        const int raw = std::system(command.c_str());  // NOLINT(cert-env33-c)
        return Result{WIFEXITED(raw) ? WEXITSTATUS(raw) : -1, read(".out"), read(".err")};
    };
    expect_one_refusal(limited("--seconds 1 -o clip.mp4"), "File size limit exceeded");
    expect_one_refusal(limited("--seconds 0.2 -o pictures/"), "cannot be written: File too large");
    EXPECT_TRUE(everything().empty());
}

TEST_F(RecordVerb, RefusesWhatItCannotWrite) {
    const auto refused = [&](const std::string& arguments, const std::string& words) {
        expect_one_refusal(run(std::string("record ") + kSmall + arguments), words);
        EXPECT_TRUE(everything().empty()) << arguments;
    };
    refused("", "there is no file to record into; name one with -o, like -o clip.mp4");
    refused("-o clip.avi", "does not say what kind of clip it is to be");
    refused("-o nowhere/clip.mp4", "cannot be written: No such file or directory");
    expect_one_refusal(run("record --size 127x72 -o clip.mp4"), "128x72 would do");
    refused("--transparent -o clip.mp4", "--transparent needs a kind that keeps it");
    refused("--seconds 0 -o clip.mp4", "--seconds 0 must be above 0");
    refused("--seconds 1e9 -o clip.mp4", "");
    refused("--loop twice -o clip.mp4", "it takes one of 'strict', 'alike' and 'none'");
    refused("--path round -o clip.mp4", "--path has no 'round'");
    refused("--path shots -o clip.mp4", "write them into the scene as [[shot]]");
    refused("--captions names -o clip.mp4", "--captions has no 'names'");
    refused("--turns 2 --loop strict -o clip.mp4", "contradict each other");
    refused("--frames 5-2 -o slices/", "are no frames of this clip");
    refused("--frames 1-999 -o slices/", "are no frames of this clip");
    refused("--blur 0 -o clip.mp4", "it goes from 1 to 64");
    refused("--supersample 5 -o clip.mp4", "it goes from 1 to 4");
    refused("--fps abc -o clip.mp4", "--fps");
}

// In a process of its own that can be ended; long enough for that.
class Recording {
  public:
    Recording(const std::filesystem::path& folder, const std::string& output) : folder_(folder) {
        const std::string command = "cd '" + folder.string() + "' || exit 1; '" COUPLET_PROGRAM "' record " +
                                    "--size 320x180 --quiet --seconds 100 -o " + output +
                                    " >.out 2>.err & echo $! >.pid; wait $!; echo $? >.status";
        thread_ = std::thread([command] { (void)std::system(command.c_str()); });  // NOLINT(cert-env33-c)
        wait_for([&] { return encoder() > 0; });
    }
    ~Recording() {
        if (thread_.joinable()) thread_.join();
    }
    Recording(const Recording&) = delete;
    Recording& operator=(const Recording&) = delete;

    [[nodiscard]] int pid() const { return number_in(".pid"); }
    // The encoder that it started; 0: none.
    [[nodiscard]] int encoder() const {
        const int own = pid();
        if (own <= 0) return 0;
        const std::string list = "/proc/" + std::to_string(own) + "/task/" + std::to_string(own) + "/children";
        std::ifstream file(list);
        int child = 0;
        file >> child;
        return child;
    }
    [[nodiscard]] int status() {
        thread_.join();
        return number_in(".status");
    }

    static void wait_for(const std::function<bool()>& done) {
        for (int i = 0; i < 1200 && !done(); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(50));
        EXPECT_TRUE(done());
    }
    [[nodiscard]] static bool runs(int pid) { return kill(pid, 0) == 0; }

  private:
    [[nodiscard]] int number_in(const char* name) const {
        std::ifstream file(folder_ / name);
        int number = 0;
        file >> number;
        return number;
    }

    std::filesystem::path folder_;
    std::thread thread_;
};

TEST_F(RecordVerb, AnInterruptLeavesNothing) {
    for (const int signal : {SIGINT, SIGTERM}) {
        Recording recording(folder_, "clip.mp4");
        const int encoder = recording.encoder();
        kill(recording.pid(), signal);
        EXPECT_EQ(recording.status(), 2);
        EXPECT_EQ(read(".err"), "couplet: stopped; nothing was written\n");
        EXPECT_FALSE(Recording::runs(encoder));
        EXPECT_EQ(everything(), (std::vector<std::string>{".pid", ".status"}));
    }
}

TEST_F(RecordVerb, ADeadEncoderEndsInOneMessage) {
    Recording recording(folder_, "clip.mp4");
    kill(recording.encoder(), SIGKILL);
    EXPECT_EQ(recording.status(), 2);
    EXPECT_EQ(read(".err"), "couplet: the encoder ffmpeg was ended by a signal (Killed); nothing was written\n");
    EXPECT_EQ(everything(), (std::vector<std::string>{".pid", ".status"}));
}

TEST_F(RecordVerb, AKilledRecorderLeavesNoProcessAndNoClip) {
    Recording recording(folder_, "clip.mp4");
    const int encoder = recording.encoder();
    kill(recording.pid(), SIGKILL);
    (void)recording.status();
    Recording::wait_for([&] { return !Recording::runs(encoder); });
    EXPECT_FALSE(std::filesystem::exists(folder_ / "clip.mp4"));
}

}  // namespace
}  // namespace couplet
