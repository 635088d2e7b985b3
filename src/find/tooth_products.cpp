#include "find/tooth_products.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <span>
#include <stdexcept>
#include <string>
#include <tuple>
#include <utility>

namespace couplet {

namespace {

__extension__ using Wide = unsigned __int128;
using Table = ToothProducts::Table;
using Value = ToothProducts::Value;

constexpr std::size_t kMostPairs = 3;

// Whether no smaller gears within the ranges have the same ratio.
bool is_smallest(const PairRange& range, int driving, int driven) {
    const int shared = std::gcd(driving, driven);
    if (shared == 1) return true;
    const int fewer = shared - 1;
    return driving / shared * fewer < range.driving.fewest || driven / shared * fewer < range.driven.fewest;
}

Table table_of(const PairRange& range) {
    std::vector<std::pair<double, Value>> found;
    for (int driving = range.driving.fewest; driving <= range.driving.most; ++driving)
        for (int driven = range.driven.fewest; driven <= range.driven.most; ++driven)
            if (is_smallest(range, driving, driven))
                found.push_back({static_cast<double>(driven) / driving, {driving, driven}});
    std::ranges::sort(found, {}, &std::pair<double, Value>::first);
    Table table;
    for (const auto& [value, gears] : found) {
        table.values.push_back(value);
        table.gears.push_back(gears);
    }
    return table;
}

// The best rows so far.
class Nearest {
  public:
    Nearest(const Ratio& target, const NearestWish& wish, bool pairs_are_alike)
        : target_(target), wish_(wish), pairs_are_alike_(pairs_are_alike), target_value_(target.to_double()) {
        if (wish.tolerance) {
            largest_error_ = *wish.tolerance * target;
            narrow_to(*largest_error_);
        }
    }

    [[nodiscard]] double target() const { return target_value_; }
    // How far a ratio may lie from the target and still be wanted; wider than exact by more than doubles round.
    [[nodiscard]] double bound() const { return bound_; }

    // Of ratios that are known to be made, before any is offered: where as many distinct ones as are wanted lie within
    // a bound, no row lies outside.
    void narrow_to_some(std::vector<double> ratios) {
        std::ranges::sort(ratios);
        // What doubles cannot tell apart counts once.
        const auto same = std::ranges::unique(ratios, [](double a, double b) { return b - a <= 1e-12 * b; });
        ratios.erase(same.begin(), same.end());
        if (ratios.size() < wish_.rows) return;
        for (double& ratio : ratios) ratio = std::abs(ratio - target_value_);
        std::ranges::nth_element(ratios, ratios.begin() + static_cast<std::ptrdiff_t>(wish_.rows) - 1);
        bound_ = std::min(bound_, ratios[wish_.rows - 1] * (1.0 + 1e-12) + 1e-14 * target_value_);
    }

    void offer(std::span<const Value> gears) {
        Row row;
        for (const Value& pair : gears) {
            row.driving *= static_cast<std::uint64_t>(pair.driving);
            row.driven *= static_cast<std::uint64_t>(pair.driven);
            row.teeth += pair.driving + pair.driven;
        }
        const auto same = std::ranges::find_if(rows_, [&](const Row& other) { return is_same_ratio(row, other); });
        if (same == rows_.end())
            add(std::move(row), gears);
        else if (row.teeth <= same->teeth)
            replace(*same, std::move(row), gears);
    }

    [[nodiscard]] std::vector<ToothProduct> take() const {
        std::vector<ToothProduct> products;
        for (const Row& row : rows_) {
            const Ratio ratio = ratio_of(row);
            products.push_back(
                {row.driving_gears, row.driven_gears, ratio, (ratio / target_ - Ratio(1)) * Ratio(1000000)});
        }
        return products;
    }

  private:
    struct Row {
        std::uint64_t driving = 1;
        std::uint64_t driven = 1;
        std::int64_t teeth = 0;
        Ratio error;
        std::vector<int> driving_gears;
        std::vector<int> driven_gears;
    };

    static bool is_same_ratio(const Row& a, const Row& b) {
        return static_cast<Wide>(a.driven) * b.driving == static_cast<Wide>(b.driven) * a.driving;
    }
    static Ratio ratio_of(const Row& row) {
        return {static_cast<std::int64_t>(row.driven), static_cast<std::int64_t>(row.driving)};
    }
    static bool comes_before(const Row& a, const Row& b) {
        if (a.error != b.error) return a.error < b.error;
        if (a.teeth != b.teeth) return a.teeth < b.teeth;
        return static_cast<Wide>(a.driven) * b.driving < static_cast<Wide>(b.driven) * a.driving;
    }

    void list_gears(Row& row, std::span<const Value> gears) const {
        for (const Value& pair : gears) {
            row.driving_gears.push_back(pair.driving);
            row.driven_gears.push_back(pair.driven);
        }
        if (!pairs_are_alike_) return;
        std::ranges::sort(row.driving_gears);
        std::ranges::sort(row.driven_gears);
    }

    void add(Row row, std::span<const Value> gears) {
        row.error = (ratio_of(row) - target_).magnitude();
        if (largest_error_ && row.error > *largest_error_) return;
        if (rows_.size() == wish_.rows && (rows_.empty() || !comes_before(row, rows_.back()))) return;
        list_gears(row, gears);
        insert(std::move(row));
    }

    void insert(Row row) {
        const auto place = std::ranges::find_if(rows_, [&](const Row& other) { return comes_before(row, other); });
        rows_.insert(place, std::move(row));
        if (rows_.size() > wish_.rows) rows_.pop_back();
        if (rows_.size() == wish_.rows) narrow_to(rows_.back().error);
    }

    // The row has the same ratio by as few teeth or fewer, and may come before its equals in error now.
    void replace(Row& old, Row row, std::span<const Value> gears) {
        list_gears(row, gears);
        if (row.teeth == old.teeth &&
            std::tie(old.driving_gears, old.driven_gears) <= std::tie(row.driving_gears, row.driven_gears))
            return;
        row.error = old.error;
        rows_.erase(rows_.begin() + (&old - rows_.data()));
        insert(std::move(row));
    }

    void narrow_to(const Ratio& error) {
        bound_ = std::min(bound_, error.to_double() * (1.0 + 1e-12) + 1e-14 * target_value_);
    }

    const Ratio target_;
    const NearestWish wish_;
    const bool pairs_are_alike_;
    const double target_value_;
    std::optional<Ratio> largest_error_;
    double bound_ = std::numeric_limits<double>::infinity();
    std::vector<Row> rows_;
};

// The pairs before the one or two that are searched, as one.
struct Begun {
    std::array<Value, kMostPairs> gears{};
    std::size_t pairs = 0;
    double value = 1.0;

    [[nodiscard]] Begun with(const Table& table, std::size_t entry) const {
        Begun longer = *this;
        longer.gears[longer.pairs++] = table.gears[entry];
        longer.value *= table.values[entry];
        return longer;
    }
    void offer(Nearest& nearest) const { nearest.offer({gears.data(), pairs}); }
};

// Offers begun x each entry from `first` on that lies within the bound, outwards from `above`, the first entry beyond
// the target.
void offer_around(const Begun& begun, const Table& table, std::size_t first, std::size_t above, Nearest& nearest) {
    for (std::size_t up = above; up < table.values.size(); ++up) {
        if (begun.value * table.values[up] - nearest.target() > nearest.bound()) break;
        begun.with(table, up).offer(nearest);
    }
    for (std::size_t down = above; down > first; --down) {
        if (nearest.target() - begun.value * table.values[down - 1] > nearest.bound()) break;
        begun.with(table, down - 1).offer(nearest);
    }
}

void search_one(const Table& table, Nearest& nearest) {
    const auto above = std::ranges::lower_bound(table.values, nearest.target());
    offer_around({}, table, 0, static_cast<std::size_t>(above - table.values.begin()), nearest);
}

// Pointers: `low` climbs the one table, `above` descends the other so that it stays the first entry beyond the target.
// Where `rising`, both tables are one, and the second value is not below the first.
void search_two(const Begun& begun, const Table& one, const Table& other, std::size_t from, bool rising,
                Nearest& nearest) {
    std::size_t above = other.values.size();
    const double target = nearest.target();
    double bound = nearest.bound();
    for (std::size_t low = from; low < one.values.size(); ++low) {
        const double value = begun.value * one.values[low];
        const std::size_t first = rising ? low : 0;
        while (above > first && value * other.values[above - 1] >= target) --above;
        const std::size_t start = std::max(above, first);
        const bool near_above = start < other.values.size() && value * other.values[start] - target <= bound;
        const bool near_below = start > first && target - value * other.values[start - 1] <= bound;
        if (near_above || near_below) {
            offer_around(begun.with(one, low), other, first, start, nearest);
            bound = nearest.bound();
        }
        // From here on the smallest product only grows.
        if (rising && value * one.values[low] - target > bound) break;
    }
}

// Some products near the target, from all over the first table.
std::vector<double> some_products(const Table& one, const Table& other, double target) {
    constexpr std::size_t kSamples = 128;
    std::vector<double> products;
    const std::size_t step = std::max<std::size_t>(1, one.values.size() / kSamples);
    for (std::size_t low = 0; low < one.values.size(); low += step) {
        const auto near = std::ranges::lower_bound(other.values, target / one.values[low]);
        if (near != other.values.end()) products.push_back(one.values[low] * *near);
    }
    return products;
}

void search_three(const std::array<const Table*, 3>& tables, bool rising, Nearest& nearest) {
    const std::vector<double>& values = tables[0]->values;
    for (std::size_t low = 0; low < values.size(); ++low) {
        search_two(Begun{}.with(*tables[0], low), *tables[1], *tables[2], rising ? low : 0, rising, nearest);
        if (rising && values[low] * values[low] * values[low] - nearest.target() > nearest.bound()) break;
    }
}

}  // namespace

ToothProducts::ToothProducts(std::vector<PairRange> pairs) : pairs_(std::move(pairs)) {
    if (pairs_.empty() || pairs_.size() > kMostPairs)
        throw std::invalid_argument("tooth products are made of one to three pairs");
    for (const PairRange& range : pairs_) {
        if (range.driving.fewest < 1 || range.driven.fewest < 1)
            throw std::invalid_argument("a gear has at least one tooth");
        if (range.driving.most > kMostTableTeeth || range.driven.most > kMostTableTeeth ||
            range.driving.size() * range.driven.size() > kMostTableValues)
            throw std::length_error("a pair may have at most " + std::to_string(kMostTableValues) +
                                    " choices of teeth, and a gear " + std::to_string(kMostTableTeeth) + " teeth");
    }
    const bool alike = std::ranges::all_of(pairs_, [&](const PairRange& range) { return range == pairs_.front(); });
    for (const PairRange& range : pairs_)
        if (tables_.empty() || !alike) tables_.push_back(table_of(range));
}

std::vector<ToothProduct> ToothProducts::nearest(const Ratio& target, const NearestWish& wish) const {
    if (target.sign() <= 0) throw std::invalid_argument("a product of teeth has no sense: its target is above 0");
    const bool alike = tables_.size() == 1;
    const auto table = [&](std::size_t pair) -> const Table& { return alike ? tables_.front() : tables_[pair]; };
    Nearest nearest(target, wish, alike);
    if (wish.rows == 0) return {};
    if (pairs_.size() == 1) search_one(table(0), nearest);
    if (pairs_.size() == 2) nearest.narrow_to_some(some_products(table(0), table(1), nearest.target()));
    if (pairs_.size() == 2) search_two({}, table(0), table(1), 0, alike, nearest);
    if (pairs_.size() == 3) search_three({&table(0), &table(1), &table(2)}, alike, nearest);
    return nearest.take();
}

}  // namespace couplet
