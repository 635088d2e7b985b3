// How fast frames are drawn, read out of the GPU, and encoded: each alone, and all at once as the recorder does it.
// The bound of a clip on one machine's cores is 1 / (1 / draw + 1 / encode); where a GPU draws, it is the slower of
// both.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <filesystem>

#include "record/clip_plan.hpp"
#include "record/conveyor.hpp"
#include "record/recorder.hpp"
#include "scene/scene.hpp"
#include "view/context.hpp"
#include "view/pixel_ring.hpp"
#include "view/renderer.hpp"

namespace couplet {
namespace {

Clip clip_of(int height, const Quality& quality) {
    Clip clip;
    const std::string scene = COUPLET_ROOT "/scenes/harbour_capstan.toml";
    clip.stage = stage_of(read_scene(load_scene_text(scene), scene));
    const Train& train = clip.stage.train;
    ClipWish wish;
    wish.settings = {train.settings.front()};
    wish.seconds = 20;
    const ClipPlan plan = plan_clip(train, clip.stage.placement, clip.stage.rotations, wish);
    clip.schedule = plan.schedule;
    clip.look.plain = plan.plain;
    clip.quality = quality;
    clip.size_px = {height * 16 / 9, height};
    clip.path.camera = fitted_all_round(turned_to(Camera{}, NamedView::iso), clip.stage, clip.look, 16.0 / 9.0);
    return clip;
}

// 0: full, as clips have it; 1: light; 2: four samples a pixel and nothing beyond the window's.
const Quality& quality_of(std::int64_t which) {
    static const Quality kinds[] = {kStillQuality, kLightQuality, kFullQuality};
    return kinds[which];
}

struct Nowhere : FrameSink {
    void take(int, const Image& image) override { benchmark::DoNotOptimize(image.rgba.data()); }
    void finish() override {}
};

int frames_of(const benchmark::State& state) {
    return static_cast<int>(state.range(2));
}

void count(benchmark::State& state) {
    state.counters["fps"] =
        benchmark::Counter(static_cast<double>(state.iterations() * state.range(2)), benchmark::Counter::kIsRate);
}

void draw_only(benchmark::State& state) {
    const OffscreenContext context;
    const Clip clip = clip_of(static_cast<int>(state.range(0)), quality_of(state.range(1)));
    Renderer renderer;
    for (auto _ : state) {
        for (int k = 0; k < frames_of(state); ++k)
            renderer.draw(picture_at(clip, k), clip.quality, clip.size_px, renderer.own_target(clip.size_px));
        renderer.finish();
    }
    count(state);
}

// Each frame waited for.
void draw_and_read_at_once(benchmark::State& state) {
    const OffscreenContext context;
    const Clip clip = clip_of(static_cast<int>(state.range(0)), quality_of(state.range(1)));
    Renderer renderer;
    for (auto _ : state)
        for (int k = 0; k < frames_of(state); ++k)
            benchmark::DoNotOptimize(renderer.image_of(picture_at(clip, k), clip.quality, clip.size_px));
    count(state);
}

void draw_and_read_by_ring(benchmark::State& state) {
    const OffscreenContext context;
    const Clip clip = clip_of(static_cast<int>(state.range(0)), quality_of(state.range(1)));
    for (auto _ : state) {
        Nowhere sink;
        record(clip, {0, frames_of(state)}, sink);
    }
    count(state);
}

std::filesystem::path target() {
    return std::filesystem::temp_directory_path() / "couplet_bench.mp4";
}

constexpr int kKept = 60;  // 1080p frames take 8 MB each

std::vector<Image> drawn_frames(const Clip& clip, int frames) {
    struct Keep : FrameSink {
        std::vector<Image> images;
        void take(int, const Image& image) override { images.push_back(image); }
        void finish() override {}
    } keep;
    record(clip, {0, frames}, keep);
    return std::move(keep.images);
}

void encode_only(benchmark::State& state) {
    const OffscreenContext context;
    const Clip clip = clip_of(static_cast<int>(state.range(0)), quality_of(state.range(1)));
    const std::vector<Image> frames = drawn_frames(clip, std::min(frames_of(state), kKept));
    for (auto _ : state) {
        const auto sink = sink_for(ClipKind::mp4, target(), {clip.size_px, 30});
        for (int k = 0; k < frames_of(state); ++k) sink->take(k, frames[static_cast<std::size_t>(k) % frames.size()]);
        sink->finish();
    }
    count(state);
}

void record_clip(benchmark::State& state) {
    const OffscreenContext context;
    const Clip clip = clip_of(static_cast<int>(state.range(0)), quality_of(state.range(1)));
    for (auto _ : state) {
        const auto sink = sink_for(ClipKind::mp4, target(), {clip.size_px, 30});
        record(clip, {0, frames_of(state)}, *sink);
    }
    count(state);
}

// A sink that does its work on the drawing thread, as without the conveyor's.
void record_without_thread(benchmark::State& state) {
    const OffscreenContext context;
    const Clip clip = clip_of(static_cast<int>(state.range(0)), quality_of(state.range(1)));
    for (auto _ : state) {
        const auto sink = sink_for(ClipKind::mp4, target(), {clip.size_px, 30});
        Renderer renderer;
        PixelRing ring(clip.size_px, 3);
        int out = 0;
        for (int k = 0; k < frames_of(state); ++k) {
            if (ring.is_full()) sink->take(out++, ring.fetch(Alpha::opaque));
            renderer.draw(picture_at(clip, k), clip.quality, clip.size_px, renderer.own_target(clip.size_px));
            ring.ask(renderer.own_target(clip.size_px));
        }
        while (!ring.is_empty()) sink->take(out++, ring.fetch(Alpha::opaque));
        sink->finish();
    }
    count(state);
}

// Each clip also makes a renderer and starts an encoder: two lengths tell what one more frame takes. 600 frames are for
// a GPU.
void sizes(benchmark::internal::Benchmark* benchmark) {
    benchmark->ArgNames({"height", "quality", "frames"})
        ->Args({720, 1, 20})
        ->Args({720, 1, 60})
        ->Args({1080, 2, 20})
        ->Args({1080, 2, 60})
        ->Args({1080, 2, 600})
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
}

BENCHMARK(draw_only)->Apply(sizes);
BENCHMARK(draw_and_read_at_once)->Apply(sizes);
BENCHMARK(draw_and_read_by_ring)->Apply(sizes);
BENCHMARK(encode_only)->Apply(sizes);
BENCHMARK(record_clip)->Apply(sizes);
BENCHMARK(record_without_thread)->Apply(sizes);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
