// Recorder: draws a clip's frames, one after the other, into a sink.
//
// Drawing, reading out and writing go on at the same time: frame k + 2 is drawn while frame k + 1 is on its way out of
// the GPU and frame k is being encoded. An OpenGL 3.3 context must be current on the calling thread.
#pragma once

#include <functional>
#include <stdexcept>

#include "record/clip.hpp"
#include "record/frame_sink.hpp"

namespace couplet {

// Frames [first, end) of a clip.
struct FrameRange {
    int first = 0;
    int end = 0;
};

// Somebody asked it to stop.
struct Stopped : std::runtime_error {
    Stopped() : std::runtime_error("stopped; nothing was written") {}
};

struct RecordingWatch {
    std::function<void(int frames_done)> progress = [](int) {};
    std::function<bool()> wants_stop = [] { return false; };
};

// The sink is finished when this returns. Throws Stopped, and what the sink throws.
void record(const Clip& clip, const FrameRange& range, FrameSink& sink, const RecordingWatch& watch = {});

// The same for frames that are there already: `picture` gives each. All must have the clip's size.
void record_pictures(int frames, const std::function<Image(int frame)>& picture, FrameSink& sink,
                     const RecordingWatch& watch = {});

}  // namespace couplet
