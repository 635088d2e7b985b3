// Tooth products: the ratios that one, two or three pairs of gears can make, and those nearest to a target.
//
// A ratio is the product of the driven teeth over the product of the driving teeth: turns of the first shaft per turn
// of the last one, without sense. A row is one value with its gears: of the sets of gears that make the value, the one
// with the fewest teeth in all, then the first in the order of its counts. Errors and ties are compared exactly.
//
// METHOD    1  A table per pair: each value once, by its smallest gears, sorted.
//           2  One pair: the neighbours of the target in the table. Two pairs: one pointer climbs the first table, the
//              other descends the second, and what lies between the present bound on both sides is looked at. Three
//              pairs: the same for each value of a third table.
//           3  The bound is the error of the last row that is still wanted, so it narrows as better rows are found. It
//              is a double, widened beyond its rounding; whatever passes is compared exactly. No row can be lost.
//           4  Where all pairs have the same ranges, values are taken in rising order only.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "exact/ratio.hpp"
#include "find/tooth_range.hpp"

namespace couplet {

struct PairRange {
    ToothRange driving;
    ToothRange driven;

    friend bool operator==(const PairRange&, const PairRange&) = default;
};

struct ToothProduct {
    // By pair; where all pairs have the same ranges any driving gear may meet any driven one, and both are sorted.
    std::vector<int> driving;
    std::vector<int> driven;
    Ratio ratio;
    Ratio error_ppm;  // (ratio / target - 1) x 10^6

    friend bool operator==(const ToothProduct&, const ToothProduct&) = default;
};

// What rows are wanted: the nearest ones, the exact one first; where a tolerance is given, none whose ratio / target
// differs from 1 by more.
struct NearestWish {
    std::size_t rows = 10;
    std::optional<Ratio> tolerance;
};

inline constexpr std::size_t kMostTableValues = std::size_t{1} << 24;
inline constexpr int kMostTableTeeth = 100000;  // products of three stay within a word

// Built once, then asked for any number of targets.
class ToothProducts {
  public:
    // One to three pairs, counts from 1 up: else std::invalid_argument. std::length_error where a pair has more than
    // kMostTableValues choices or more than kMostTableTeeth.
    explicit ToothProducts(std::vector<PairRange> pairs);

    // By error, then by the teeth in all, then the smaller ratio. std::invalid_argument unless the target is above 0.
    [[nodiscard]] std::vector<ToothProduct> nearest(const Ratio& target, const NearestWish& wish = {}) const;

    // One value of a pair, with its smallest gears.
    struct Value {
        std::int32_t driving;
        std::int32_t driven;
    };
    struct Table {
        std::vector<double> values;  // rising
        std::vector<Value> gears;    // by value
    };

  private:
    std::vector<PairRange> pairs_;
    std::vector<Table> tables_;  // by pair; one alone where all pairs are alike
};

}  // namespace couplet
