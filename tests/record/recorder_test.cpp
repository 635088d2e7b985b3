#include "record/recorder.hpp"

#include "motion/loop.hpp"
#include "record/own_folder.hpp"
#include "record/small_clip.hpp"
#include "view/drawing.hpp"

namespace couplet {
namespace {

// Keeps what it is given, and in which order.
struct KeepingSink : FrameSink {
    int wants = 0;
    int fails_at = -1;
    std::vector<Image> sampled;
    std::vector<std::pair<int, Image>> frames;
    bool finished = false;

    [[nodiscard]] int samples() const override { return wants; }
    void sample(const Image& frame) override {
        EXPECT_TRUE(frames.empty()) << "samples come before the first frame";
        sampled.push_back(frame);
    }
    void take(int frame, const Image& image) override {
        if (frame == fails_at) throw std::runtime_error("the disk is full");
        frames.emplace_back(frame, image);
    }
    void finish() override { finished = true; }
};

class Recorder : public DrawingTest {
  protected:
    static Image still_of(const Clip& clip, int frame) {
        return drawn(picture_at(clip, frame), clip.quality, clip.size_px);
    }
    static std::vector<Image> recorded(const Clip& clip) {
        (void)still_of(clip, 0);  // makes the context
        KeepingSink sink;
        record(clip, {0, clip.schedule.frames}, sink);
        EXPECT_TRUE(sink.finished);
        std::vector<Image> frames;
        for (std::size_t k = 0; k < sink.frames.size(); ++k) {
            EXPECT_EQ(sink.frames[k].first, static_cast<int>(k));
            frames.push_back(sink.frames[k].second);
        }
        return frames;
    }
    static double mean_difference(const Image& a, const Image& b) {
        double sum = 0.0;
        for (std::size_t i = 0; i < a.rgba.size(); ++i) sum += std::abs(int{a.rgba[i]} - int{b.rgba[i]});
        return sum / static_cast<double>(a.rgba.size());
    }
};

TEST_F(Recorder, GivesEachFrameAsTheStillOfItsInstant) {
    Clip clip = small_clip("harbour_capstan", 0, Ratio(40, 7), 8);
    clip.captions.title = true;
    for (const bool transparent : {false, true}) {
        clip.look.transparent = transparent;
        const std::vector<Image> frames = recorded(clip);
        ASSERT_EQ(frames.size(), 8U);
        for (int k = 0; k < 8; ++k) EXPECT_EQ(frames[static_cast<std::size_t>(k)], still_of(clip, k)) << k;
        EXPECT_NE(frames[0], frames[1]);
        EXPECT_EQ(frames[0].rgba[3], transparent ? 0 : 255) << "nothing stands in the corner";
    }
}

TEST_F(Recorder, GivesASliceAsTheSameFramesOfTheWhole) {
    Clip clip = small_clip("signal_arm", 0, 2, 9);
    clip.grain = {2, 2};
    const std::vector<Image> whole = recorded(clip);
    ASSERT_EQ(whole.size(), 9U);
    for (const FrameRange range : {FrameRange{0, 4}, {4, 5}, {5, 9}}) {
        KeepingSink sink;
        std::vector<int> told;
        RecordingWatch watch;
        watch.progress = [&](int done) { told.push_back(done); };
        record(clip, range, sink, watch);
        ASSERT_EQ(sink.frames.size(), static_cast<std::size_t>(range.end - range.first));
        for (std::size_t i = 0; i < sink.frames.size(); ++i) {
            EXPECT_EQ(sink.frames[i].first, range.first + static_cast<int>(i));
            EXPECT_EQ(sink.frames[i].second, whole[static_cast<std::size_t>(sink.frames[i].first)]);
            EXPECT_EQ(told.at(i), static_cast<int>(i) + 1);
        }
    }
}

TEST_F(Recorder, ShowsSamplesOfTheWholeClipBeforeTheFirstFrame) {
    const Clip clip = small_clip("harbour_capstan", 0, 2, 12);
    const std::vector<Image> whole = recorded(clip);
    for (const int wants : {3, 12, 50}) {
        KeepingSink sink;
        sink.wants = wants;
        record(clip, {8, 10}, sink);  // a slice chooses its colours by the whole clip
        const auto samples = static_cast<std::size_t>(std::min(wants, 12));
        ASSERT_EQ(sink.sampled.size(), samples);
        for (std::size_t i = 0; i < samples; ++i) EXPECT_EQ(sink.sampled[i], whole[i * 12 / samples]) << i;
        EXPECT_EQ(sink.frames.size(), 2U);
        EXPECT_EQ(sink.frames.at(0).second, whole[8]);
    }
}

// Going round and turning on, the last frame differs from the first as any frame does from the next.
TEST_F(Recorder, FlowsFromTheLastFrameOfALoopIntoTheFirst) {
    Clip clip = small_clip("signal_arm", 0, 1, 40);
    Leg& leg = clip.schedule.legs[0];
    leg.turns = strict_loop_turns(leg.motion).value();
    const std::vector<Image> frames = recorded(clip);
    double least = 1e9;
    double most = 0.0;
    for (std::size_t k = 0; k + 1 < frames.size(); ++k) {
        least = std::min(least, mean_difference(frames[k], frames[k + 1]));
        most = std::max(most, mean_difference(frames[k], frames[k + 1]));
    }
    const double seam = mean_difference(frames.back(), frames.front());
    EXPECT_GE(seam, least);
    EXPECT_LE(seam, most);
    EXPECT_GT(mean_difference(frames[20], frames[0]), most) << "a jump would be told from that";
}

TEST_F(Recorder, ThatIsStoppedLeavesNothing) {
    const Clip clip = small_clip("harbour_capstan", 0, 2, 10);
    (void)still_of(clip, 0);
    const std::filesystem::path folder = std::filesystem::path(testing::TempDir()) / "couplet_record_stopped";
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    for (const char* name : {"clip.mp4", "clip.gif", "pictures/", "one.png"})
        for (const int after : {0, 1, 6}) {
            RecordingWatch watch;
            int asked = 0;
            watch.wants_stop = [&] { return asked++ >= after; };
            {
                const std::unique_ptr<FrameSink> sink =
                    sink_for(clip_kind_of(name).value(), folder / name, {clip.size_px, 30, false});
                EXPECT_THROW(record(clip, {0, 10}, *sink, watch), Stopped) << name << " after " << after;
            }
            EXPECT_TRUE(std::filesystem::is_empty(folder)) << name << " after " << after;
        }
    std::filesystem::remove_all(folder);
}

TEST_F(Recorder, MayBeStoppedAtTheVeryLast) {
    const Clip clip = small_clip("harbour_capstan", 0, 2, 4);
    (void)still_of(clip, 0);
    KeepingSink sink;
    int done = 0;
    RecordingWatch watch;
    watch.progress = [&](int frames) { done = frames; };
    watch.wants_stop = [&] { return done == 4; };
    EXPECT_THROW(record(clip, {0, 4}, sink, watch), Stopped);
    EXPECT_FALSE(sink.finished);
}

TEST_F(Recorder, LetsASinksFailureOut) {
    const Clip clip = small_clip("harbour_capstan", 0, 2, 10);
    (void)still_of(clip, 0);
    for (const int failing : {0, 9}) {
        KeepingSink sink;
        sink.fails_at = failing;
        EXPECT_THROW(record(clip, {0, 10}, sink), std::runtime_error);
        EXPECT_FALSE(sink.finished);
        EXPECT_EQ(sink.frames.size(), static_cast<std::size_t>(failing));
    }
}

Image grey(int frame) {
    return {2, 2, std::vector<std::uint8_t>(16, static_cast<std::uint8_t>(frame))};
}

TEST(RecordedPictures, AreGivenInTheirOrder) {
    KeepingSink sink;
    sink.wants = 4;
    int told = 0;
    RecordingWatch watch;
    watch.progress = [&](int done) { told = done; };
    record_pictures(8, grey, sink, watch);
    ASSERT_EQ(sink.frames.size(), 8U);
    for (int k = 0; k < 8; ++k) {
        EXPECT_EQ(sink.frames[static_cast<std::size_t>(k)].first, k);
        EXPECT_EQ(sink.frames[static_cast<std::size_t>(k)].second, grey(k));
    }
    EXPECT_EQ(sink.sampled, (std::vector<Image>{grey(0), grey(2), grey(4), grey(6)}));
    EXPECT_EQ(told, 8);
    EXPECT_TRUE(sink.finished);
}

TEST(RecordedPictures, CanBeStoppedAndMayBeMissing) {
    KeepingSink sink;
    RecordingWatch watch;
    int asked = 0;
    watch.wants_stop = [&] { return asked++ == 3; };
    EXPECT_THROW(record_pictures(8, grey, sink, watch), Stopped);
    EXPECT_FALSE(sink.finished);
    const auto missing = [](int frame) {
        if (frame == 5) throw std::out_of_range("no picture");
        return grey(frame);
    };
    EXPECT_THROW(record_pictures(8, missing, sink), std::out_of_range);
    EXPECT_FALSE(sink.finished);
}

}  // namespace
}  // namespace couplet
