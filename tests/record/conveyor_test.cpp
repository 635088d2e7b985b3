#include "record/conveyor.hpp"

#include <atomic>
#include <chrono>
#include <functional>
#include <latch>
#include <set>
#include <stdexcept>

#include <gtest/gtest.h>

namespace couplet {
namespace {

// Calls something for each frame.
class CallingSink : public FrameSink {
  public:
    CallingSink(int threads, std::function<void(int, const Image&)> call) : threads_(threads), call_(std::move(call)) {}
    [[nodiscard]] int threads() const override { return threads_; }
    void take(int frame, const Image& image) override { call_(frame, image); }
    void finish() override {}

  private:
    int threads_;
    std::function<void(int, const Image&)> call_;
};

Image image_of_frame(int frame) {
    return {1, 1, std::vector<std::uint8_t>(4, static_cast<std::uint8_t>(frame))};
}

TEST(Conveyor, KeepsTheOrderForASinkOfOneThread) {
    std::vector<int> taken;
    CallingSink sink(1, [&](int frame, const Image& image) {
        EXPECT_EQ(image, image_of_frame(frame));
        taken.push_back(frame);
    });
    Conveyor conveyor(sink);
    for (int k = 0; k < 200; ++k) conveyor.put(k, image_of_frame(k));
    conveyor.finish();
    ASSERT_EQ(taken.size(), 200U);
    for (int k = 0; k < 200; ++k) EXPECT_EQ(taken[static_cast<std::size_t>(k)], k);
}

TEST(Conveyor, BringsEachFrameOnceToSeveralThreads) {
    std::mutex mutex;
    std::multiset<int> taken;
    // Goes on once all four threads are in it: they do work side by side.
    std::latch all_there(4);
    std::atomic<int> come = 0;
    CallingSink sink(4, [&](int frame, const Image& image) {
        EXPECT_EQ(image, image_of_frame(frame));
        if (come++ < 4) all_there.arrive_and_wait();
        const std::scoped_lock lock(mutex);
        taken.insert(frame);
    });
    Conveyor conveyor(sink);
    for (int k = 0; k < 100; ++k) conveyor.put(k, image_of_frame(k));
    conveyor.finish();
    EXPECT_EQ(taken.size(), 100U);
    for (int k = 0; k < 100; ++k) EXPECT_EQ(taken.count(k), 1U) << k;
}

TEST(Conveyor, LetsASinksFailureOut) {
    for (const int threads : {1, 3})
        for (const int failing : {0, 5, 19}) {
            CallingSink sink(threads, [&](int frame, const Image&) {
                if (frame == failing) throw std::runtime_error("the disk is full");
            });
            Conveyor conveyor(sink);
            const auto all = [&] {
                for (int k = 0; k < 20; ++k) conveyor.put(k, image_of_frame(k));
                conveyor.finish();
            };
            try {
                all();
                ADD_FAILURE() << "no failure of frame " << failing;
            } catch (const std::runtime_error& error) {
                EXPECT_STREQ(error.what(), "the disk is full");
            }
        }
}

TEST(Conveyor, TakesNoMoreAfterAFailure) {
    std::atomic<int> taken = 0;
    CallingSink sink(1, [&](int, const Image&) {
        ++taken;
        throw std::runtime_error("the disk is full");
    });
    Conveyor conveyor(sink);
    EXPECT_THROW(
        {
            for (int k = 0; k < 1000; ++k) conveyor.put(k, image_of_frame(k));
        },
        std::runtime_error)
        << "the one who draws need not wait for the end";
    EXPECT_THROW(conveyor.finish(), std::runtime_error);
    EXPECT_EQ(taken, 1);
}

TEST(Conveyor, ThatIsDroppedDropsWhatIsOnTheWay) {
    std::latch begun(1);
    std::latch may_end(1);
    std::atomic<int> taken = 0;
    CallingSink sink(1, [&](int, const Image&) {
        if (taken++ == 0) begun.count_down();
        may_end.wait();
    });
    std::jthread releasing;
    {
        Conveyor conveyor(sink);
        conveyor.put(0, image_of_frame(0));
        begun.wait();
        conveyor.put(1, image_of_frame(1));
        conveyor.put(2, image_of_frame(2));
        // Long after the conveyor has begun to go.
        releasing = std::jthread([&] {
            std::this_thread::sleep_for(std::chrono::milliseconds(300));
            may_end.count_down();
        });
    }
    EXPECT_EQ(taken, 1);
}

TEST(Conveyor, ThatWasNeverUsedEnds) {
    CallingSink sink(3, [](int, const Image&) {});
    const Conveyor dropped(sink);
    Conveyor finished(sink);
    finished.finish();
}

// A sink that stands still for a while: the one who draws gets two frames ahead of the one that it holds, and no more.
TEST(Conveyor, KeepsFewFramesOnTheWay) {
    std::atomic<int> put = 0;
    int ahead = 0;
    CallingSink sink(1, [&](int frame, const Image&) {
        if (frame % 10 != 0) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(30));
        ahead = std::max(ahead, put - frame);
    });
    Conveyor conveyor(sink);
    for (int k = 0; k < 60; ++k) {
        conveyor.put(k, image_of_frame(k));
        put = k + 1;
    }
    conveyor.finish();
    EXPECT_LE(ahead, 3);
    EXPECT_GE(ahead, 2) << "and does get ahead";
}

// 2026-11-28: of a clip whose pictures are read rather than drawn every image was kept to be used again.
TEST(Conveyor, KeepsFewImagesToBeUsedAgain) {
    for (const int threads : {1, 4}) {
        CallingSink sink(threads, [](int, const Image&) {});
        Conveyor conveyor(sink);
        for (int k = 0; k < 100; ++k) conveyor.put(k, image_of_frame(k));
        conveyor.finish();
        int spares = 0;
        while (!conveyor.spare().rgba.empty()) ++spares;
        EXPECT_GE(spares, 1);
        EXPECT_LE(spares, std::max(2, threads));
    }
}

TEST(Conveyor, GivesTheMemoryOfDoneImagesBack) {
    CallingSink sink(1, [](int, const Image&) {});
    Conveyor conveyor(sink);
    EXPECT_TRUE(conveyor.spare().rgba.empty());
    Image image = image_of_frame(1);
    const std::uint8_t* memory = image.rgba.data();
    conveyor.put(0, std::move(image));
    conveyor.finish();
    EXPECT_EQ(conveyor.spare().rgba.data(), memory);
}

}  // namespace
}  // namespace couplet
