#include "record/recorder.hpp"

#include <algorithm>

#include "record/conveyor.hpp"
#include "view/pixel_ring.hpp"
#include "view/renderer.hpp"

namespace couplet {

namespace {

constexpr int kFramesUnderWay = 3;

// Draws frames; they come out some frames later.
class Camcorder {
  public:
    explicit Camcorder(const Clip& clip)
        : clip_(clip),
          exposure_(renderer_, clip.size_px, clip.grain),
          ring_(clip.size_px, kFramesUnderWay),
          alpha_(clip.look.transparent ? Alpha::straightened : Alpha::opaque) {}

    void draw(int frame) {
        for (int i = 0; i < clip_.grain.drawings; ++i) exposure_.add(picture_at(clip_, frame, i), clip_.quality);
        ring_.ask(exposure_.framebuffer());
    }
    [[nodiscard]] bool is_full() const { return ring_.is_full(); }
    [[nodiscard]] bool is_empty() const { return ring_.is_empty(); }
    [[nodiscard]] Image fetch(Image spare = {}) { return ring_.fetch(alpha_, std::move(spare)); }

  private:
    const Clip& clip_;
    Renderer renderer_;
    Exposure exposure_;
    PixelRing ring_;
    Alpha alpha_;
};

void stop_if_wanted(const RecordingWatch& watch) {
    if (watch.wants_stop()) throw Stopped();
}

// The k-th of the frames that the sink wants to see, spread over the clip.
int sample_frame(int k, int samples, int frames) {
    return static_cast<int>(std::int64_t{k} * frames / samples);
}

void give_samples(int frames, FrameSink& sink, const std::function<Image(int)>& picture, const RecordingWatch& watch) {
    const int samples = std::min(sink.samples(), frames);
    for (int k = 0; k < samples; ++k) {
        stop_if_wanted(watch);
        sink.sample(picture(sample_frame(k, samples, frames)));
    }
}

}  // namespace

void record(const Clip& clip, const FrameRange& range, FrameSink& sink, const RecordingWatch& watch) {
    Camcorder camcorder(clip);
    // The whole clip's: slices of it must look alike.
    give_samples(
        clip.schedule.frames, sink,
        [&](int frame) {
            camcorder.draw(frame);
            return camcorder.fetch();
        },
        watch);
    Conveyor conveyor(sink);
    int out = range.first;
    const auto hand_over = [&] {
        conveyor.put(out, camcorder.fetch(conveyor.spare()));
        watch.progress(++out - range.first);
    };
    for (int frame = range.first; frame < range.end; ++frame) {
        stop_if_wanted(watch);
        if (camcorder.is_full()) hand_over();
        camcorder.draw(frame);
    }
    while (!camcorder.is_empty()) hand_over();
    conveyor.finish();
    stop_if_wanted(watch);
    sink.finish();
}

void record_pictures(int frames, const std::function<Image(int frame)>& picture, FrameSink& sink,
                     const RecordingWatch& watch) {
    give_samples(frames, sink, picture, watch);
    Conveyor conveyor(sink);
    for (int frame = 0; frame < frames; ++frame) {
        stop_if_wanted(watch);
        conveyor.put(frame, picture(frame));
        watch.progress(frame + 1);
    }
    conveyor.finish();
    stop_if_wanted(watch);
    sink.finish();
}

}  // namespace couplet
