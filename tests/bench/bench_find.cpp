// The speed of the search for tooth counts.
//
// The targets, on one core: the ten best ratios of four gears of 12 to 150 teeth at least 1,000 times as fast as a
// naive exact loop in the same run; of six gears of 12 to 100 within 0.3 s, of 12 to 150 within 2 s and 1 GiB; simple
// sets with sun and planet of 12 to 150 and 2 to 8 copies tested at 4e8 candidates a second, the sweep with all rules
// within 10 ms.
#include <benchmark/benchmark.h>

#include <limits>
#include <string>
#include <vector>

#include "exact/decimal.hpp"
#include "find/search.hpp"
#include "find/tooth_products.hpp"

namespace couplet {
namespace {

const std::vector<Ratio>& awkward_targets() {
    static const std::vector<Ratio> targets = {*parse_ratio("3.14159265358979323846"),
                                               Ratio(77708431, 2640858),
                                               *parse_ratio("1.41421356237309504880"),
                                               Ratio(191, 23),
                                               *parse_ratio("29.530589"),
                                               Ratio(2)};
    return targets;
}

std::vector<PairRange> alike(std::size_t pairs, int most) {
    return std::vector<PairRange>(pairs, {{12, most}, {12, most}});
}

void build_table(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(ToothProducts(alike(2, 150)));
}

// Ten best a target; the rows are checked to be there, so that nothing can be left out.
void nearest_ten(benchmark::State& state) {
    const ToothProducts products(alike(static_cast<std::size_t>(state.range(0)), static_cast<int>(state.range(1))));
    const Ratio& target = awkward_targets()[static_cast<std::size_t>(state.range(2))];
    for (auto _ : state) {
        const std::vector<ToothProduct> rows = products.nearest(target);
        if (rows.size() != 10) state.SkipWithError("not ten rows");
        benchmark::DoNotOptimize(rows.data());
    }
    state.SetLabel(decimal_text(target, 6));
}

// The one best of four gears by trying all of them, in whole numbers: driven and driving gears in rising order.
void naive_four_gears(benchmark::State& state) {
    constexpr std::int64_t kNumerator = 314159265;
    constexpr std::int64_t kDenominator = 100000000;
    for (auto _ : state) {
        __extension__ using Wide = __int128;
        Wide best = std::numeric_limits<std::int64_t>::max();
        Wide best_denominator = 1;
        for (std::int64_t a = 12; a <= 150; ++a)
            for (std::int64_t b = a; b <= 150; ++b)
                for (std::int64_t c = 12; c <= 150; ++c)
                    for (std::int64_t d = c; d <= 150; ++d) {
                        const std::int64_t miss = a * b * kDenominator - c * d * kNumerator;
                        const Wide error = miss < 0 ? -miss : miss;
                        if (error * best_denominator < best * (c * d)) {
                            best = error;
                            best_denominator = c * d;
                        }
                    }
        benchmark::DoNotOptimize(best);
    }
}

SearchWish sweep(const Ratio& target, std::optional<Ratio> tolerance) {
    SearchWish wish;
    wish.target = target;
    wish.tolerance = std::move(tolerance);
    wish.teeth = {{"sun", {12, 150}}, {"planet", {12, 150}}};
    wish.copies = {2, 8};
    return wish;
}

void run_sweep(benchmark::State& state, const SearchWish& wish) {
    std::int64_t examined = 0;
    for (auto _ : state) {
        const SearchResult result = search(wish);
        benchmark::DoNotOptimize(result.rows.data());
        examined += result.examined;
        state.counters["rows"] = static_cast<double>(result.rows.size());
    }
    state.SetItemsProcessed(examined);
}

// Closed forms alone: a ratio that no set has, so that each sun and planet is tested and none is judged. The seven
// numbers of copies fall together with their ratio: a seventh of the items are tests.
void filter_simple_sets(benchmark::State& state) {
    run_sweep(state, sweep(*parse_ratio("4.00001"), Ratio(0)));
}

// All rules, each row by the exact solver and the code of size and place.
void sweep_simple_sets(benchmark::State& state) {
    run_sweep(state, sweep(Ratio(state.range(0), 10), Ratio(0)));
}

// The other arrangements with the usual ranges of 12 to 100 teeth, three copies: the hundred nearest.
void nearest_of_arrangement(benchmark::State& state) {
    SearchWish wish;
    wish.arrangement = searchable_arrangements()[static_cast<std::size_t>(state.range(0))];
    wish.target = Ratio(state.range(1), 9);
    run_sweep(state, wish);
    state.SetLabel(std::string(form_of(wish.arrangement).name));
}

// Pairs with all rules, one row for each ratio: gears, the most teeth, the target, threads.
void nearest_of_pairs(benchmark::State& state) {
    SearchWish wish;
    wish.arrangement = Arrangement::pairs;
    wish.pairs = static_cast<int>(state.range(0));
    const Ratio& target = awkward_targets()[static_cast<std::size_t>(state.range(2))];
    wish.target = wish.pairs % 2 == 0 ? target : -target;
    wish.rows = RowsUse::each_ratio;
    wish.most_nearest = 10;
    for (const std::string& name : count_names(wish)) wish.teeth[name] = {12, static_cast<int>(state.range(1))};
    for (auto _ : state) {
        const SearchResult result = search(wish, {}, {}, static_cast<unsigned>(state.range(3)));
        if (result.rows.size() != 10) state.SkipWithError("not ten rows");
        benchmark::DoNotOptimize(result.rows.data());
    }
    state.SetLabel(decimal_text(target, 6));
}

BENCHMARK(build_table)->Unit(benchmark::kMillisecond);
BENCHMARK(nearest_ten)->ArgsProduct({{2}, {150}, {0, 1, 2, 3, 4, 5}})->Unit(benchmark::kMicrosecond);
BENCHMARK(naive_four_gears)->Unit(benchmark::kMillisecond)->Iterations(1);
BENCHMARK(nearest_ten)->ArgsProduct({{3}, {100, 150}, {0, 1, 2, 3, 4, 5}})->Unit(benchmark::kMillisecond);
BENCHMARK(filter_simple_sets)->Unit(benchmark::kMicrosecond);
BENCHMARK(sweep_simple_sets)->Arg(60)->Arg(43)->Arg(40)->Arg(35)->Unit(benchmark::kMillisecond);

BENCHMARK(nearest_of_pairs)
    ->ArgsProduct({{2}, {150}, {0, 1, 4}, {1}})
    ->ArgsProduct({{3}, {100, 150}, {0, 1, 4}, {1, 2}})
    ->ArgsProduct({{4}, {100}, {0}, {1, 2}})
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK(nearest_of_arrangement)
    ->Args({0, 47})
    ->Args({1, 47})
    ->Args({3, 872})
    ->Args({4, 214})
    ->Args({5, 47})
    ->Args({6, 47})
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace couplet

BENCHMARK_MAIN();
