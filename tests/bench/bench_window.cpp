// The window's own work between an edit and the picture of it: history, study, stage and description; no drawing.
#include <benchmark/benchmark.h>

#include <filesystem>

#include "app/session.hpp"

namespace couplet {
namespace {

// A tooth count typed to and fro: everything that follows from it, up to what the renderer is given.
void edit_a_tooth_count(benchmark::State& state) {
    Session session = open_session({}, std::filesystem::temp_directory_path() / "couplet_bench_window");
    const Camera camera = camera_for(*session.stage, {}, NamedView::iso, 16.0 / 9);
    double now_s = 0;
    for (auto _ : state) {
        Draft draft = session.draft();
        int& teeth = draft.train.gears.front().teeth;
        teeth = teeth == 21 ? 24 : 21;
        apply(session, {session.view, {ChangeDraft{"teeth", draft, ""}}}, now_s += 0.01);
        benchmark::DoNotOptimize(picture_of(*session.stage, standing_now(session), session.view.look, camera));
    }
}
BENCHMARK(edit_a_tooth_count)->Unit(benchmark::kMillisecond);

// A pin: the train stays, its motion is another.
void pin_another_member(benchmark::State& state) {
    Session session = open_session({}, std::filesystem::temp_directory_path() / "couplet_bench_window");
    double now_s = 0;
    std::int32_t next = 0;
    for (auto _ : state) {
        next = (next + 1) % static_cast<std::int32_t>(session.train().settings.size());
        apply(session, {session.view, {ChooseSetting{{next}}}}, now_s += 0.01);
        benchmark::DoNotOptimize(standing_now(session));
    }
}
BENCHMARK(pin_another_member)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
