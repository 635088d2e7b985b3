// The speed and size of exports.
//
// The targets: each export of the default scene within 0.5 s; of a train of a thousand members within 20 s and 1 GiB;
// tables of a million rows at 100 MB/s or more, in a memory that does not grow with them.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <filesystem>
#include <fstream>

#include "export/dxf.hpp"
#include "export/gltf.hpp"
#include "export/motion_table.hpp"
#include "export/printable.hpp"
#include "export/stl.hpp"
#include "export/svg.hpp"
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

void write_dxf(benchmark::State& state) {
    const ExportModel model = model_of(state.range(0));
    std::size_t bytes = 0;
    for (auto _ : state) bytes = dxf_of(model, {}).size();
    tell(state, bytes);
}

void write_svg(benchmark::State& state) {
    const ExportModel model = model_of(state.range(0));
    std::size_t bytes = 0;
    for (auto _ : state) bytes = svg_of(model, {}).size();
    tell(state, bytes);
}

// A million rows of the default scene, into nothing or into a file: plain, wrapped, in radians, with exact turns, and
// of a train of 61 members whose ratios leave machine words.
enum Table : std::int64_t { plain, wrapped, radians, wrapped_radians, exact, long_ratios };

void write_table(benchmark::State& state, bool to_file) {
    const auto which = static_cast<Table>(state.range(0));
    MotionTableOptions options{.step = MotionSpan{Ratio(7, 3600)}, .until = MotionSpan{Ratio(7'000'000, 3600)}};
    options.wrap = which == wrapped || which == wrapped_radians;
    options.unit = which == radians || which == wrapped_radians ? AngleUnit::radians : AngleUnit::degrees;
    options.exact = which == exact;
    const FamilyTrain family = family_a(61);
    const Train train = shipped_train("harbour_capstan");
    const ExportModel model = which == long_ratios ? moving_model_of(family.train, family.setting)
                                                   : moving_model_of(train, train.settings.front());
    const std::filesystem::path path = std::filesystem::temp_directory_path() / "couplet_bench_table.csv";
    std::size_t bytes = 0;
    for (auto _ : state) {
        bytes = 0;
        std::ofstream file;
        if (to_file) file.open(path, std::ios::binary | std::ios::trunc);
        write_motion_table(motion_table_of(model, options), [&](std::string_view piece) {
            if (to_file) file.write(piece.data(), static_cast<std::streamsize>(piece.size()));
            bytes += piece.size();
        });
    }
    std::filesystem::remove(path);
    tell(state, bytes);
    state.SetBytesProcessed(static_cast<std::int64_t>(bytes) * state.iterations());
}

void make_table(benchmark::State& state) {
    write_table(state, false);
}
void write_table_file(benchmark::State& state) {
    write_table(state, true);
}

BENCHMARK(make_model)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_glb)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_urdf)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_stl)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_three_mf)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_dxf)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(write_svg)->DenseRange(0, 3)->Unit(benchmark::kMillisecond);
BENCHMARK(make_table)->DenseRange(plain, long_ratios)->Unit(benchmark::kMillisecond);
BENCHMARK(write_table_file)->DenseRange(plain, long_ratios)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
