// Conveyor: carries frames from the thread that draws to the threads that a sink works on, a few at a time.
//
// The drawing thread waits only while the sink is the slower of the two; memory does not grow with the clip. What a
// sink throws on its thread comes out of the next put, or of finish.
#pragma once

#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "record/frame_sink.hpp"

namespace couplet {

class Conveyor {
  public:
    explicit Conveyor(FrameSink& sink);
    // Frames still on the way are dropped.
    ~Conveyor();
    Conveyor(const Conveyor&) = delete;
    Conveyor& operator=(const Conveyor&) = delete;

    void put(int frame, Image image);
    // An image that the sink is done with, its memory to be used again; empty where there is none.
    [[nodiscard]] Image spare();
    // Waits until the sink has taken every frame.
    void finish();

  private:
    struct Load {
        int frame;
        Image image;
    };
    void work();
    void end_threads();
    void throw_failure();

    FrameSink& sink_;
    std::size_t most_waiting_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Load> waiting_;
    std::vector<Image> spares_;
    std::exception_ptr failure_;
    bool over_ = false;
    std::vector<std::thread> threads_;
};

}  // namespace couplet
