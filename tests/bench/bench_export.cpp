// The speed and size of exports.
//
// The targets: each export of the default scene within 0.5 s; of a train of a thousand members within 20 s and 1 GiB.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "export/gltf.hpp"
#include "export/printable.hpp"
#include "export/stl.hpp"
#include "export/three_mf.hpp"
#include "export/urdf.hpp"
#include "support/shipped_scenes.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

// The default scene, or trains of a thousand members: sets that share a sun shaft, wheels in a row, and sets in a row,
// whose ratios have hundreds of digits.
ExportModel model_of(std::int64_t which) {
    if (which == 0) {
        const Train train = shipped_train("harbour_capstan");
        return export_model_of(train, train.settings.front());
    }
    constexpr int kMany = 1000;
    FamilyTrain family = which == 1 ? many_small_sets(kMany) : which == 2 ? idler_chain(kMany) : family_a(kMany);
    family.train.teeth.module_mm = Ratio(1);
    family.train.teeth.backlash = Ratio(1, 25);
    return export_model_of(family.train, family.setting);
}

// The most memory that the process has had so far: run one benchmark at a time to tell them apart.
void tell(benchmark::State& state, std::size_t bytes) {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    state.counters["MiB"] = static_cast<double>(bytes) / (1U << 20U);
    state.counters["peak_MiB"] = static_cast<double>(usage.ru_maxrss) / 1024.0;
}

void make_model(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(model_of(state.range(0)).machine.parts.data());
    tell(state, 0);
}

void write_glb(benchmark::State& state) {
    const ExportModel model = model_of(state.range(0));
    std::size_t bytes = 0;
    for (auto _ : state) bytes = glb_of(model, {}).size();
    tell(state, bytes);
}

// The description and all its meshes.
void write_urdf(benchmark::State& state) {
    const ExportModel model = model_of(state.range(0));
    std::size_t bytes = 0;
    for (auto _ : state) {
        const std::vector<MemberBody> bodies = member_bodies(model);
        bytes = urdf_of(model, bodies, {"meshes"}).size();
        for (const MemberBody& body : bodies) bytes += stl_of(model.machine, body, {0.05}).size();
    }
    tell(state, bytes);
}

void write_stl(benchmark::State& state) {
    ExportModel model = model_of(state.range(0));
    model.machine = printable(model, 0.05);
    std::size_t bytes = 0;
    for (auto _ : state) {
        bytes = 0;
        for (const MemberBody& body : member_bodies(model)) bytes += stl_of(model.machine, body, {}).size();
    }
    tell(state, bytes);
}

void write_three_mf(benchmark::State& state) {
    ExportModel model = model_of(state.range(0));
    model.machine = printable(model, 0.05);
    std::size_t bytes = 0;
    for (auto _ : state) bytes = three_mf_of(model, model.machine, member_bodies(model), {}).size();
    tell(state, bytes);
}

BENCHMARK(make_model)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_glb)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_urdf)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_stl)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_three_mf)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
