// The stage: frames a second with all effects and in the lighter look, and the time outside OpenGL.
//
// Needs a way to draw (a GPU's EGL device, or Mesa's software renderer); the context's label says which.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "place/placed_train.hpp"
#include "scene/scene.hpp"
#include "view/context.hpp"
#include "view/renderer.hpp"
#include "view/stage.hpp"

namespace couplet {
namespace {

struct Drawn {
    OffscreenContext context;
    Renderer renderer;
};

Drawn& drawn() {
    static Drawn made;
    return made;
}

Stage default_stage() {
    const std::string file = COUPLET_ROOT "/scenes/harbour_capstan.toml";
    return stage_of(read_scene(load_scene_text(file), file));
}

// As a window or a recorder does, the next frame is described while the last ones are still drawn.
constexpr int kFramesAhead = 4;

// One turn of the crank in 100 frames, all effects.
void frames(benchmark::State& state, const Quality& quality, glm::ivec2 size_px) {
    Drawn& with = drawn();
    const Stage stage = default_stage();
    const Motion motion = solve(stage.train, stage.train.settings.front());
    const StageLook look;
    const Camera camera = camera_for(stage, look, NamedView::iso, static_cast<double>(size_px.x) / size_px.y);
    int frame = 0;
    for (auto _ : state) {
        const Standing standing = standing_at(stage, motion, Ratio(frame++, 100));
        with.renderer.draw(picture_of(stage, standing, look, camera), quality, size_px,
                           with.renderer.own_target(size_px));
        if (frame % kFramesAhead == 0) with.renderer.finish();
    }
    state.counters["fps"] = benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
    state.counters["triangles"] = static_cast<double>(with.renderer.counts().triangles);
    state.SetLabel(renderer_name());
}

void full_720(benchmark::State& state) {
    frames(state, kFullQuality, {1280, 720});
}
void light_720(benchmark::State& state) {
    frames(state, kLightQuality, {1280, 720});
}
void full_1080(benchmark::State& state) {
    frames(state, kFullQuality, {1920, 1080});
}
void full_2160(benchmark::State& state) {
    frames(state, kFullQuality, {3840, 2160});
}
BENCHMARK(full_720)->Name("view/full/1280x720")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(light_720)->Name("view/light/1280x720")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(full_1080)->Name("view/full/1920x1080")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(full_2160)->Name("view/full/3840x2160")->Unit(benchmark::kMillisecond)->UseRealTime();

// Pose, matrices and the picture's description.
void description(benchmark::State& state, const Train& train) {
    const Stage stage = stage_of(train);
    const Motion motion = solve(stage.train, stage.train.settings.front());
    const StageLook look;
    const Camera camera = camera_for(stage, look, NamedView::iso, 16.0 / 9);
    int frame = 0;
    for (auto _ : state)
        benchmark::DoNotOptimize(picture_of(stage, standing_at(stage, motion, Ratio(frame++, 100)), look, camera));
    state.SetLabel(fmt::format("{} members, {} parts", train.members.size(), stage.machine.parts.size()));
}

// Wheels in a row, each in mesh with the next, the first one driven.
Train driven_chain(int wheels) {
    std::string text;
    for (int w = 0; w + 1 < wheels; ++w)
        text +=
            fmt::format("{}w{} {} x w{} {}", w == 0 ? "" : "; ", w, 20 + w * 37 % 61, w + 1, 20 + (w + 1) * 37 % 61);
    Train train = sized_train(text);
    train.settings = {{"turning", {}, {}, {{MemberIndex{0}, Ratio(1)}}}};
    return train;
}

void description_20(benchmark::State& state) {
    description(state, driven_chain(20));
}
void description_1000(benchmark::State& state) {
    description(state, driven_chain(1000));
}
BENCHMARK(description_20)->Name("view/description/20")->Unit(benchmark::kMicrosecond);
BENCHMARK(description_1000)->Name("view/description/1000")->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace couplet
BENCHMARK_MAIN();
