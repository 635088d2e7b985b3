#include "find/gear_sets.hpp"

#include <algorithm>
#include <stdexcept>
#include <tuple>

namespace couplet {

namespace {

void add_gear_sets(std::span<const ToothRange> ranges, GearOrder order, std::size_t gear, GearSet& set,
                   std::vector<GearSet>& sets) {
    if (gear == ranges.size()) {
        sets.push_back(set);
        return;
    }
    int fewest = ranges[gear].fewest;
    if (order == GearOrder::rising && gear > 0) fewest = std::max<int>(fewest, set.teeth[gear - 1]);
    const std::int64_t before = set.product;
    for (int teeth = fewest; teeth <= ranges[gear].most; ++teeth) {
        set.teeth[gear] = static_cast<std::int16_t>(teeth);
        set.product = before * teeth;
        add_gear_sets(ranges, order, gear + 1, set, sets);
    }
    set.product = before;
}

}  // namespace

double gear_set_count(std::span<const ToothRange> ranges, GearOrder order) {
    double count = 1.0;
    for (std::size_t gear = 0; gear < ranges.size(); ++gear) {
        const double size = static_cast<double>(ranges[gear].size());
        const double place = static_cast<double>(gear);
        // Choices with repetition: (size + k - 1)! / (k! (size - 1)!).
        count *= order == GearOrder::rising ? (size + place) / (place + 1.0) : size;
    }
    return count;
}

std::vector<GearSet> gear_sets(std::span<const ToothRange> ranges, GearOrder order) {
    const double count = gear_set_count(ranges, order);
    if (count > static_cast<double>(kMostGearSets))
        throw std::length_error("these ranges hold too many choices of gears: narrow them");
    std::vector<GearSet> sets;
    sets.reserve(static_cast<std::size_t>(count + 0.5));
    GearSet set;
    add_gear_sets(ranges, order, 0, set, sets);
    std::ranges::sort(sets, [](const GearSet& a, const GearSet& b) {
        return std::tie(a.product, a.teeth) < std::tie(b.product, b.teeth);
    });
    return sets;
}

}  // namespace couplet
