// The speed of placing and proving: a three-planet set from the train to the proof, and long trains.
//
// The targets: sizes and places of the set within 1 ms, its proof of mesh within 50 ms, the proof linear in the meshes
// and within 10 s for a thousand of them.
#include <benchmark/benchmark.h>

#include <string>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

// The default scene's counts, backlash and module.
Train capstan() {
    Train train = simple_set(21, 24, 69, 3);
    train.teeth.module_mm = Ratio(3);
    train.teeth.backlash = Ratio(1, 10);
    return train;
}

// Wheels of many counts, each in mesh with the next: no two meshes are alike.
Train chain(int meshes) {
    std::string text;
    for (int m = 0; m < meshes; ++m) {
        const auto wheel = [](int k) { return "w" + std::to_string(k) + " " + std::to_string(20 + k * 37 % 61); };
        text += (m == 0 ? "" : "; ") + wheel(m) + " x " + wheel(m + 1);
    }
    return sized_train(text);
}

void size_set(benchmark::State& state) {
    const Train train = capstan();
    for (auto _ : state) benchmark::DoNotOptimize(teeth_of(train).gears.data());
}

void place_set(benchmark::State& state) {
    const Train train = capstan();
    for (auto _ : state) {
        const PlacedTrain set = placed(train);
        benchmark::DoNotOptimize(set.assembly().findings.data());
    }
}

void prove_set(benchmark::State& state) {
    const PlacedTrain set = placed(capstan());
    for (auto _ : state) benchmark::DoNotOptimize(set.proof().meshes.data());
}

// Three different places, so that no mesh is proved by another one that is alike.
void prove_set_of_unlike_meshes(benchmark::State& state) {
    PlacedTrain set = placed(capstan());
    for (GearStart& start : set.rotations.gears)
        start.tooth = start.tooth + exact_angle(Ratio(start.place.value, 1000000));
    for (auto _ : state) benchmark::DoNotOptimize(set.proof().meshes.data());
}

void prove_chain(benchmark::State& state) {
    const PlacedTrain set = placed(chain(static_cast<int>(state.range(0))));
    for (auto _ : state) benchmark::DoNotOptimize(set.proof().meshes.data());
    state.SetComplexityN(state.range(0));
}

void place_chain(benchmark::State& state) {
    const Train train = chain(static_cast<int>(state.range(0)));
    for (auto _ : state) benchmark::DoNotOptimize(placed(train).rotations.gears.data());
}

BENCHMARK(size_set)->Unit(benchmark::kMicrosecond);
BENCHMARK(place_set)->Unit(benchmark::kMicrosecond);
BENCHMARK(prove_set)->Unit(benchmark::kMillisecond);
BENCHMARK(prove_set_of_unlike_meshes)->Unit(benchmark::kMillisecond);
BENCHMARK(prove_chain)->RangeMultiplier(10)->Range(10, 1000)->Unit(benchmark::kMillisecond)->Complexity(benchmark::oN);
BENCHMARK(place_chain)->RangeMultiplier(10)->Range(10, 1000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
