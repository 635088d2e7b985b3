#include "find/walk.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "find/search.hpp"

namespace couplet {

namespace {

constexpr int kAddenda_teeth = 2;  // a tip diameter in teeth beyond the pitch diameter

Candidate simple_candidate(int sun, int planet, int ring) {
    Candidate candidate;
    candidate.add_counts({sun, planet, ring});
    candidate.add_sum(sun + ring);
    candidate.add_room(sun + planet, planet + kAddenda_teeth);
    return candidate;
}

// S P2 + R P1 over what P1 and P2 share, as AssemblyCondition::sum.
std::int64_t stepped_sum(std::int64_t sun, std::int64_t first, std::int64_t second, std::int64_t ring) {
    return (sun * second + ring * first) / std::gcd(first, second);
}

// The trains that driving and driven gears make when they are joined to pairs, one after the other. In rising order
// each is met once: where two driving gears are alike, their driven gears rise.
class PairedGears {
  public:
    PairedGears(const GearSet& driving, const GearSet& driven, std::size_t pairs, GearOrder order)
        : driving_(driving), driven_(driven), pairs_(pairs), order_(order) {}

    [[nodiscard]] Candidate candidate() const {
        Candidate candidate;
        for (std::size_t pair = 0; pair < pairs_; ++pair)
            candidate.add_counts({driving_.teeth[pair], driven_.teeth[pair]});
        return candidate;
    }

    bool next() {
        if (order_ == GearOrder::as_given) return false;
        const auto from = driven_.teeth.begin();
        while (std::next_permutation(from, from + static_cast<std::ptrdiff_t>(pairs_)))
            if (is_in_order()) return true;
        return false;
    }

  private:
    [[nodiscard]] bool is_in_order() const {
        for (std::size_t pair = 1; pair < pairs_; ++pair)
            if (driving_.teeth[pair] == driving_.teeth[pair - 1] && driven_.teeth[pair] < driven_.teeth[pair - 1])
                return false;
        return true;
    }

    const GearSet& driving_;
    GearSet driven_;
    std::size_t pairs_;
    GearOrder order_;
};

std::vector<ToothRange> without_undercut(const SearchWish& wish) {
    std::vector<ToothRange> ranges = ranges_of(wish);
    if (wish.shift == ShiftUse::allowed) return ranges;
    const int fewest = Judge(wish).fewest_teeth_without_undercut();
    const std::vector<std::size_t> rings = count_places(wish).rings;
    for (std::size_t count = 0; count < ranges.size(); ++count)
        if (std::ranges::find(rings, count) == rings.end())
            ranges[count].fewest = std::max(ranges[count].fewest, fewest);
    return ranges;
}

}  // namespace

Walk::Walk(const SearchWish& wish)
    : wish_(wish),
      asked_(ranges_of(wish)),
      ranges_(without_undercut(wish)),
      mended_(wish.shift == ShiftUse::allowed ? kMostMendedTeeth : 0) {
    const std::vector<std::string> members = central_members(wish.arrangement);
    const CentralChoice choice = choice_of(wish);
    const auto place = [&](const std::string& name) {
        return static_cast<std::size_t>(std::ranges::find(members, name) - members.begin());
    };
    if (!members.empty()) choice_ = {place(choice.held), place(choice.driver), place(choice.output)};
    if (wish.arrangement == Arrangement::pairs) list_driven_sets();
    double all = 0.0;
    for (int first = asked_[0].fewest; first <= asked_[0].most; ++first) all += candidates_of(first, asked_);
    if (wish.arrangement != Arrangement::pairs && all > kMostCandidates)
        throw std::length_error("these ranges hold too many trains to look at each: narrow them");
    if (wish.arrangement == Arrangement::in_series) list_second_sets();
}

// What is sorted out beforehand counts as undercut, whatever its ratio.
void Walk::run(int first, Sieve& sieve) const {
    const double all = candidates_of(first, asked_);
    const double sound = ranges_[0].contains(first) ? candidates_of(first, ranges_) : 0.0;
    sieve.pass_over(Rule::undercut, std::llround(all - sound));
    if (sound > 0.0) walk(first, sieve);
}

void Walk::walk(int first, Sieve& sieve) const {
    switch (wish_.arrangement) {
        case Arrangement::simple:
            return run_simple(first, sieve);
        case Arrangement::stepped:
            return run_stepped(first, sieve);
        case Arrangement::paired:
            return run_paired(first, sieve);
        case Arrangement::two_rings:
            return run_two_rings(first, sieve);
        case Arrangement::in_series:
            return run_in_series(first, sieve);
        case Arrangement::pairs:
            return run_pairs(first, sieve);
        case Arrangement::reverted:
            return run_reverted(first, sieve);
        case Arrangement::differential:
            break;
    }
    throw std::invalid_argument("this arrangement has no single ratio to look for");
}

double Walk::candidates_of(int first, const Ranges& ranges) const {
    const auto sizes = [&](std::initializer_list<std::size_t> counts) {
        double all = 1.0;
        for (const std::size_t count : counts) all *= static_cast<double>(ranges[count].size());
        return all;
    };
    const double rings = 2.0 * mended_ + 1.0;
    switch (wish_.arrangement) {
        case Arrangement::simple:
            return sizes({1}) * rings;
        case Arrangement::stepped:
        case Arrangement::reverted:
            return sizes({1, 2}) * rings;
        case Arrangement::two_rings:
            return sizes({1, 3}) * rings * rings;
        case Arrangement::paired:
            return sizes({1, 2}) * static_cast<double>(paired_rings().size());
        case Arrangement::in_series:
            return sizes({1, 3, 4}) * rings * rings;
        default:
            return trains_of_pairs(first, ranges);
    }
}

ClosedRatio Walk::ratio_of(const CentralRates& rates) const {
    return {rates[choice_.driver] - rates[choice_.held], rates[choice_.output] - rates[choice_.held]};
}

template <class Visit>
void Walk::each(std::size_t count, const Visit& visit) const {
    for (int teeth = ranges_[count].fewest; teeth <= ranges_[count].most; ++teeth) visit(teeth);
}

// The counts of a ring that fits with `teeth`, exactly or by a shift.
template <class Visit>
void Walk::each_ring(int teeth, const Visit& visit) const {
    for (int ring = teeth - mended_; ring <= teeth + mended_; ++ring) visit(ring);
}

// Most candidates end at their ratio, and the rates are linear in sun and ring: nothing else is computed for these.
void Walk::run_simple(int sun, Sieve& sieve) const {
    const ClosedRatio by_sun = ratio_of(simple_rates(sun, 0));
    const ClosedRatio per_ring = ratio_of(simple_rates(0, 1));
    const auto value_of = [numerator = static_cast<double>(by_sun.numerator),
                           denominator = static_cast<double>(by_sun.denominator),
                           numerator_per_ring = static_cast<double>(per_ring.numerator),
                           denominator_per_ring = static_cast<double>(per_ring.denominator)](double ring) {
        return (numerator + ring * numerator_per_ring) / (denominator + ring * denominator_per_ring);
    };
    const Window window = sieve.window();
    std::int64_t passed_over = 0;
    each(1, [&](int planet) {
        each_ring(sun + 2 * planet, [&](int ring) {
            if (window.contains(value_of(ring)))
                sieve.take(ratio_of(simple_rates(sun, ring)), [&] { return simple_candidate(sun, planet, ring); });
            else
                ++passed_over;
        });
    });
    sieve.pass_over(Rule::ratio, passed_over);
}

void Walk::run_stepped(int sun, Sieve& sieve) const {
    each(1, [&](int first) {
        each(2, [&](int second) {
            each_ring(sun + first + second, [&](int ring) {
                sieve.take(ratio_of(stepped_rates(sun, first, second, ring)), [&] {
                    Candidate candidate;
                    candidate.add_counts({sun, first, second, ring});
                    candidate.add_sum(stepped_sum(sun, first, second, ring));
                    candidate.add_room(sun + first, std::max(first, second) + kAddenda_teeth);
                    return candidate;
                });
            });
        });
    });
}

void Walk::run_two_rings(int sun, Sieve& sieve) const {
    each(1, [&](int first) {
        each(3, [&](int second) {
            each_ring(sun + 2 * first, [&](int held) {
                each_ring(sun + first + second, [&](int output) {
                    sieve.take(ratio_of(two_rings_rates(sun, first, held, second, output)), [&] {
                        Candidate candidate;
                        candidate.add_counts({sun, first, held, second, output});
                        candidate.add_sum(sun + held);
                        candidate.add_sum(stepped_sum(sun, first, second, output));
                        candidate.add_room(sun + first, std::max(first, second) + kAddenda_teeth);
                        return candidate;
                    });
                });
            });
        });
    });
}

// The rings whose two triangles of axes can close at all: S < R <= S + 2 I + 2 O, whatever the sun.
ToothRange Walk::paired_rings() const {
    return {std::max(asked_[3].fewest, asked_[0].fewest + 1),
            std::min(asked_[3].most, asked_[0].most + 2 * asked_[1].most + 2 * asked_[2].most)};
}

// The ratio depends on sun and ring alone.
void Walk::run_paired(int sun, Sieve& sieve) const {
    const std::int64_t planets = static_cast<std::int64_t>(ranges_[1].size() * ranges_[2].size());
    const ToothRange rings = paired_rings();
    for (int ring = rings.fewest; ring <= rings.most; ++ring) {
        const ClosedRatio ratio = ratio_of(paired_rates(sun, ring));
        if (!sieve.window().contains(ratio)) {
            sieve.pass_over(Rule::ratio, planets);
            continue;
        }
        each(1, [&](int inner) {
            each(2, [&](int outer) {
                sieve.take(ratio, [&] {
                    Candidate candidate;
                    candidate.add_counts({sun, inner, outer, ring});
                    candidate.add_sum(std::abs(ring - sun));
                    candidate.add_room(sun + inner, inner + kAddenda_teeth);
                    candidate.add_room(ring - outer, outer + kAddenda_teeth);
                    candidate.closes = ring <= sun + 2 * (inner + outer + mended_);
                    return candidate;
                });
            });
        });
    }
}

void Walk::list_second_sets() {
    each(3, [&](int sun) {
        each(4, [&](int planet) {
            each_ring(sun + 2 * planet, [&](int ring) {
                second_sets_.push_back({static_cast<double>(sun + ring) / sun, sun, planet, ring});
            });
        });
    });
    std::ranges::stable_sort(second_sets_, {}, &SecondSet::ratio);
}

void Walk::run_in_series(int sun, Sieve& sieve) const {
    each(1, [&](int planet) {
        each_ring(sun + 2 * planet, [&](int ring) { run_second_sets(sun, planet, ring, sieve); });
    });
}

void Walk::run_second_sets(int sun, int planet, int ring, Sieve& sieve) const {
    const double before = static_cast<double>(sun + ring) / sun;
    const Window window = sieve.window();
    const auto from =
        std::ranges::lower_bound(second_sets_, window.low / before * (1.0 - kRounding), {}, &SecondSet::ratio);
    auto at = from;
    for (; at != second_sets_.end() && at->ratio <= window.high / before * (1.0 + kRounding); ++at) {
        const ClosedRatio ratio{std::int64_t{sun + ring} * (at->sun + at->ring), std::int64_t{sun} * at->sun};
        sieve.take(ratio, [&] {
            Candidate candidate = simple_candidate(sun, planet, ring);
            const Candidate second = simple_candidate(at->sun, at->planet, at->ring);
            candidate.add_counts({at->sun, at->planet, at->ring});
            candidate.add_sum(second.sums[0]);
            candidate.add_room(second.rooms[0].centre_teeth, second.rooms[0].tip_teeth);
            return candidate;
        });
    }
    sieve.pass_over(Rule::ratio, static_cast<std::int64_t>(second_sets_.size()) - (at - from));
}

// Pairs whose ranges are alike may stand in any order: one order is enough, by driving gear, then by driven gear.
void Walk::list_driven_sets() {
    pairs_ = ranges_.size() / 2;
    order_ = GearOrder::rising;
    std::vector<ToothRange> driving;
    std::vector<ToothRange> driven;
    for (std::size_t pair = 0; pair < pairs_; ++pair) {
        driving.push_back(ranges_[2 * pair]);
        driven.push_back(ranges_[2 * pair + 1]);
        if (driving.back() != driving.front() || driven.back() != driven.front()) order_ = GearOrder::as_given;
    }
    if (gear_set_count(driving, order_) > static_cast<double>(kMostGearSets))
        throw std::length_error("these ranges hold too many choices of driving gears: narrow them");
    driven_sets_ = gear_sets(driven, order_);
}

// For each choice of driving gears, the driven ones whose product makes a ratio that may suit.
void Walk::run_pairs(int first, Sieve& sieve) const {
    GearSet driving;
    driving.teeth[0] = static_cast<std::int16_t>(first);
    driving.product = first;
    std::int64_t looked_at = 0;
    if (wish_.target.sign() == (pairs_ % 2 == 0 ? 1 : -1)) run_driving(driving, 1, sieve, looked_at);
    sieve.pass_over(Rule::ratio, std::llround(trains_of_pairs(first, ranges_)) - looked_at);
}

void Walk::run_driving(GearSet& driving, std::size_t gear, Sieve& sieve, std::int64_t& looked_at) const {
    if (gear == pairs_) {
        looked_at += run_driven(driving, sieve);
        return;
    }
    int fewest = ranges_[2 * gear].fewest;
    if (order_ == GearOrder::rising) fewest = std::max<int>(fewest, driving.teeth[gear - 1]);
    const std::int64_t before = driving.product;
    for (int teeth = fewest; teeth <= ranges_[2 * gear].most; ++teeth) {
        driving.teeth[gear] = static_cast<std::int16_t>(teeth);
        driving.product = before * teeth;
        run_driving(driving, gear + 1, sieve, looked_at);
    }
    driving.product = before;
}

// From the product that the target asks for upwards, then downwards: the nearest rows close the window early.
std::int64_t Walk::run_driven(const GearSet& driving, Sieve& sieve) const {
    const double sense = pairs_ % 2 == 0 ? 1.0 : -1.0;
    const double wanted = sense * wish_.target.to_double() * static_cast<double>(driving.product);
    std::int64_t looked_at = 0;
    const auto take = [&](const GearSet& driven) {
        PairedGears paired(driving, driven, pairs_, order_);
        do {
            ++looked_at;
            sieve.take({static_cast<std::int64_t>(sense) * driven.product, driving.product},
                       [&] { return paired.candidate(); });
        } while (paired.next());
    };
    const auto suits = [&](const GearSet& driven) {
        return sieve.window().contains(ClosedRatio{static_cast<std::int64_t>(sense) * driven.product, driving.product});
    };
    const auto middle = std::ranges::lower_bound(driven_sets_, wanted, {},
                                                 [](const GearSet& set) { return static_cast<double>(set.product); });
    for (auto above = middle; above != driven_sets_.end() && suits(*above); ++above) take(*above);
    for (auto below = middle; below != driven_sets_.begin() && suits(*(below - 1)); --below) take(*(below - 1));
    return looked_at;
}

// As multisets of pairs where these may stand in any order: (kinds + pairs - 1)! / (pairs! (kinds - 1)!) of them. Below
// 2^53, since the gear sets of either side are limited.
double Walk::trains_of_pairs(int first, const Ranges& ranges) const {
    double all = 1.0;
    if (order_ == GearOrder::as_given) {
        for (std::size_t count = 1; count < ranges.size(); ++count) all *= static_cast<double>(ranges[count].size());
        return all;
    }
    const auto multisets = [&](std::int64_t kinds) {
        std::int64_t count = 1;
        for (std::int64_t place = 0; place < static_cast<std::int64_t>(pairs_); ++place)
            count = count * (kinds + place) / (place + 1);
        return static_cast<double>(count);
    };
    const std::int64_t driven = static_cast<std::int64_t>(ranges[1].size());
    const std::int64_t from_here = (ranges[0].most - first + 1) * driven;
    return multisets(from_here) - multisets(from_here - driven);
}

// The second pair has the centre distance of the first.
void Walk::run_reverted(int driving, Sieve& sieve) const {
    each(1, [&](int driven) {
        each(2, [&](int second) {
            const int last = driving + driven - second;
            sieve.take({std::int64_t{driven} * last, std::int64_t{driving} * second}, [&] {
                Candidate candidate;
                candidate.add_counts({driving, driven, second, last});
                return candidate;
            });
        });
    });
}

}  // namespace couplet
