// The speed of tooth geometry: what every frame, sheet and search asks for.
#include <benchmark/benchmark.h>

#include "support/train_notation.hpp"
#include "tooth/measure.hpp"
#include "tooth/mesh_checks.hpp"
#include "tooth/profile.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {
namespace {

GearSpec gear_of(int teeth) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.rack = *iso_53_rack('A');
    spec.face_width_mm = 10.0;
    return spec;
}

// From the gear's data to the closed outline, at 0.001 module. 12 teeth are undercut.
void outline(benchmark::State& state) {
    const GearSpec spec = gear_of(static_cast<int>(state.range(0)));
    std::size_t points = 0;
    for (auto _ : state) {
        const ProfileResult result = profile_of(sizes_of(spec));
        const std::vector<PlanePoint> polygon = gear_polygon(*result.profile, 0.001);
        benchmark::DoNotOptimize(polygon.data());
        points = polygon.size();
    }
    state.counters["points"] = static_cast<double>(points);
}
BENCHMARK(outline)->Arg(12)->Arg(100)->Arg(1000)->Unit(benchmark::kMicrosecond);

Train three_planets() {
    Train train = train_from("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)");
    for (Member& member : train.members)
        if (member.name == "planet") member.copies = 3;
    train.teeth.module_mm = Ratio(3);
    train.teeth.backlash = Ratio(1, 10);
    return train;
}

void teeth_of_three_planets(benchmark::State& state) {
    const Train train = three_planets();
    for (auto _ : state) benchmark::DoNotOptimize(teeth_of(train));
}
BENCHMARK(teeth_of_three_planets)->Unit(benchmark::kMicrosecond);

void sizes_and_rules_of_three_planets(benchmark::State& state) {
    const Train train = three_planets();
    for (auto _ : state) {
        const TrainTeeth teeth = teeth_of(train);
        for (const GearSizes& gear : teeth.gears) {
            benchmark::DoNotOptimize(span_of(gear));
            benchmark::DoNotOptimize(over_pins_of(gear));
        }
        benchmark::DoNotOptimize(mesh_findings(train, teeth));
    }
}
BENCHMARK(sizes_and_rules_of_three_planets)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
