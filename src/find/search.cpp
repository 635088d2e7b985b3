#include "find/search.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <string>

#include "find/sieve.hpp"

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

// A simple set of the second place in a series.
struct SecondSet {
    double ratio;
    int sun;
    int planet;
    int ring;
};

// Runs through the candidates of every arrangement.
class Walk {
  public:
    Walk(const SearchWish& wish, Sieve& sieve)
        : wish_(wish),
          sieve_(sieve),
          ranges_(ranges_of(wish)),
          mended_(wish.shift == ShiftUse::allowed ? kMostMendedTeeth : 0) {
        const std::vector<std::string> members = central_members(wish.arrangement);
        const CentralChoice choice = choice_of(wish);
        const auto place = [&](const std::string& name) {
            return static_cast<std::size_t>(std::ranges::find(members, name) - members.begin());
        };
        if (!members.empty()) choice_ = {place(choice.held), place(choice.driver), place(choice.output)};
        if (wish.arrangement == Arrangement::in_series) list_second_sets();
        const bool alike = [&] {
            for (std::size_t count = 2; count < ranges_.size(); ++count)
                if (ranges_[count] != ranges_[count - 2]) return false;
            return true;
        }();
        pairs_rise_ = wish.arrangement == Arrangement::pairs && alike;
    }

    // Of the candidates that share a first count.
    void run(int first) {
        switch (wish_.arrangement) {
            case Arrangement::simple:
                return run_simple(first);
            case Arrangement::stepped:
                return run_stepped(first);
            case Arrangement::paired:
                return run_paired(first);
            case Arrangement::two_rings:
                return run_two_rings(first);
            case Arrangement::in_series:
                return run_in_series(first);
            case Arrangement::pairs:
                return run_pairs(first);
            case Arrangement::reverted:
                return run_reverted(first);
            case Arrangement::differential:
                break;
        }
        throw std::invalid_argument("this arrangement has no single ratio to look for");
    }

    // How many candidates there are at most, without copies.
    [[nodiscard]] double candidates() const {
        const auto sizes = [&](std::initializer_list<std::size_t> counts) {
            double all = 1.0;
            for (const std::size_t count : counts) all *= static_cast<double>(ranges_[count].size());
            return all;
        };
        const double rings = 2.0 * mended_ + 1.0;
        switch (wish_.arrangement) {
            case Arrangement::simple:
                return sizes({0, 1}) * rings;
            case Arrangement::stepped:
                return sizes({0, 1, 2}) * rings;
            case Arrangement::two_rings:
                return sizes({0, 1, 3}) * rings * rings;
            case Arrangement::paired:
                return sizes({0, 1, 2}) * static_cast<double>(paired_rings().size());
            case Arrangement::in_series:
                return sizes({0, 1, 3, 4}) * rings * rings;
            case Arrangement::reverted:
                return sizes({0, 1, 2});
            default:
                break;
        }
        double all = 1.0;
        for (std::size_t count = 0; count + 1 < ranges_.size(); ++count)
            all *= static_cast<double>(ranges_[count].size());
        return all;
    }

  private:
    struct Choice {
        std::size_t held = 0;
        std::size_t driver = 0;
        std::size_t output = 0;
    };

    [[nodiscard]] ClosedRatio ratio_of(const CentralRates& rates) const {
        return {rates[choice_.driver] - rates[choice_.held], rates[choice_.output] - rates[choice_.held]};
    }

    template <class Visit>
    void each(std::size_t count, const Visit& visit) const {
        for (int teeth = ranges_[count].fewest; teeth <= ranges_[count].most; ++teeth) visit(teeth);
    }
    // The counts of a ring that fits with `teeth`, exactly or by a shift.
    template <class Visit>
    void each_ring(int teeth, const Visit& visit) const {
        for (int ring = teeth - mended_; ring <= teeth + mended_; ++ring) visit(ring);
    }

    // Most candidates end at their ratio, and the rates are linear in sun and ring: nothing else is computed for these.
    void run_simple(int sun) {
        const ClosedRatio by_sun = ratio_of(simple_rates(sun, 0));
        const ClosedRatio per_ring = ratio_of(simple_rates(0, 1));
        const auto value_of = [numerator = static_cast<double>(by_sun.numerator),
                               denominator = static_cast<double>(by_sun.denominator),
                               numerator_per_ring = static_cast<double>(per_ring.numerator),
                               denominator_per_ring = static_cast<double>(per_ring.denominator)](double ring) {
            return (numerator + ring * numerator_per_ring) / (denominator + ring * denominator_per_ring);
        };
        const Window window = sieve_.window();
        std::int64_t passed_over = 0;
        each(1, [&](int planet) {
            each_ring(sun + 2 * planet, [&](int ring) {
                if (window.contains(value_of(ring)))
                    sieve_.take(ratio_of(simple_rates(sun, ring)), [&] { return simple_candidate(sun, planet, ring); });
                else
                    ++passed_over;
            });
        });
        sieve_.pass_over(passed_over);
    }

    void run_stepped(int sun) {
        each(1, [&](int first) {
            each(2, [&](int second) {
                each_ring(sun + first + second, [&](int ring) {
                    sieve_.take(ratio_of(stepped_rates(sun, first, second, ring)), [&] {
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

    void run_two_rings(int sun) {
        each(1, [&](int first) {
            each(3, [&](int second) {
                each_ring(sun + 2 * first, [&](int held) {
                    each_ring(sun + first + second, [&](int output) {
                        sieve_.take(ratio_of(two_rings_rates(sun, first, held, second, output)), [&] {
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
    [[nodiscard]] ToothRange paired_rings() const {
        return {std::max(ranges_[3].fewest, ranges_[0].fewest + 1),
                std::min(ranges_[3].most, ranges_[0].most + 2 * ranges_[1].most + 2 * ranges_[2].most)};
    }

    // The ratio depends on sun and ring alone.
    void run_paired(int sun) {
        const std::int64_t planets = static_cast<std::int64_t>(ranges_[1].size() * ranges_[2].size());
        const ToothRange rings = paired_rings();
        for (int ring = rings.fewest; ring <= rings.most; ++ring) {
            const ClosedRatio ratio = ratio_of(paired_rates(sun, ring));
            if (!sieve_.window().contains(ratio)) {
                sieve_.pass_over(planets);
                continue;
            }
            each(1, [&](int inner) {
                each(2, [&](int outer) {
                    sieve_.take(ratio, [&] {
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

    void list_second_sets() {
        each(3, [&](int sun) {
            each(4, [&](int planet) {
                each_ring(sun + 2 * planet, [&](int ring) {
                    second_sets_.push_back({static_cast<double>(sun + ring) / sun, sun, planet, ring});
                });
            });
        });
        std::ranges::stable_sort(second_sets_, {}, &SecondSet::ratio);
    }

    void run_in_series(int sun) {
        each(1,
             [&](int planet) { each_ring(sun + 2 * planet, [&](int ring) { run_second_sets(sun, planet, ring); }); });
    }

    void run_second_sets(int sun, int planet, int ring) {
        const double before = static_cast<double>(sun + ring) / sun;
        const Window window = sieve_.window();
        const auto from =
            std::ranges::lower_bound(second_sets_, window.low / before * (1.0 - kRounding), {}, &SecondSet::ratio);
        auto at = from;
        for (; at != second_sets_.end() && at->ratio <= window.high / before * (1.0 + kRounding); ++at) {
            const ClosedRatio ratio{std::int64_t{sun + ring} * (at->sun + at->ring), std::int64_t{sun} * at->sun};
            sieve_.take(ratio, [&] {
                Candidate candidate = simple_candidate(sun, planet, ring);
                const Candidate second = simple_candidate(at->sun, at->planet, at->ring);
                candidate.add_counts({at->sun, at->planet, at->ring});
                candidate.add_sum(second.sums[0]);
                candidate.add_room(second.rooms[0].centre_teeth, second.rooms[0].tip_teeth);
                return candidate;
            });
        }
        sieve_.pass_over(static_cast<std::int64_t>(second_sets_.size()) - (at - from));
    }

    void run_pairs(int first) {
        gears_[0] = first;
        run_driven(0, {1, first});
    }

    // Of pairs that may stand in any order, one order is enough: by driving gear, then by driven gear.
    [[nodiscard]] ToothRange driving_range(std::size_t driving) const {
        ToothRange range = ranges_[driving];
        if (pairs_rise_) range.fewest = std::max(range.fewest, gears_[driving - 2]);
        return range;
    }
    [[nodiscard]] ToothRange driven_range(std::size_t driven) const {
        ToothRange range = ranges_[driven];
        const bool follows_its_equal = pairs_rise_ && driven > 1 && gears_[driven - 1] == gears_[driven - 3];
        if (follows_its_equal) range.fewest = std::max(range.fewest, gears_[driven - 2]);
        return range;
    }

    // The pairs from here on; `made` is of the pairs before, and of this one's driving gear.
    void run_driven(std::size_t pair, const ClosedRatio& made) {
        const std::size_t driven = 2 * pair + 1;
        if (driven + 1 == ranges_.size()) return run_last_driven(driven, made);
        const ToothRange range = driven_range(driven);
        for (int teeth = range.fewest; teeth <= range.most; ++teeth) {
            gears_[driven] = teeth;
            const ToothRange next_range = driving_range(driven + 1);
            for (int next = next_range.fewest; next <= next_range.most; ++next) {
                gears_[driven + 1] = next;
                run_driven(pair + 1, {-made.numerator * teeth, made.denominator * next});
            }
        }
    }

    // Only the counts whose ratio may suit, two more for rounding.
    void run_last_driven(std::size_t driven, const ClosedRatio& made) {
        const ToothRange range = driven_range(driven);
        if (range.size() == 0) return;
        const double per_tooth = -static_cast<double>(made.numerator) / static_cast<double>(made.denominator);
        const Window& window = sieve_.window();
        const double one = window.low / per_tooth;
        const double other = window.high / per_tooth;
        const auto clamped = [&](double teeth) {
            return static_cast<int>(std::clamp(teeth, range.fewest - 1.0, range.most + 1.0));
        };
        const int from = std::max(range.fewest, clamped(std::floor(std::min(one, other))) - 1);
        const int to = std::min(range.most, clamped(std::ceil(std::max(one, other))) + 1);
        for (int teeth = from; teeth <= to; ++teeth) {
            gears_[driven] = teeth;
            sieve_.take({-made.numerator * teeth, made.denominator}, [&] { return gears(driven + 1); });
        }
        const std::int64_t looked_at = std::max(0, to - from + 1);
        sieve_.pass_over(static_cast<std::int64_t>(range.size()) - looked_at);
    }

    [[nodiscard]] Candidate gears(std::size_t size) const {
        Candidate candidate;
        candidate.counts = gears_;
        candidate.size = size;
        return candidate;
    }

    // The second pair has the centre distance of the first.
    void run_reverted(int driving) {
        each(1, [&](int driven) {
            each(2, [&](int second) {
                const int last = driving + driven - second;
                sieve_.take({std::int64_t{driven} * last, std::int64_t{driving} * second}, [&] {
                    Candidate candidate;
                    candidate.add_counts({driving, driven, second, last});
                    return candidate;
                });
            });
        });
    }

    const SearchWish& wish_;
    Sieve& sieve_;
    const std::vector<ToothRange> ranges_;
    const int mended_;
    Choice choice_;
    std::vector<SecondSet> second_sets_;
    bool pairs_rise_ = false;
    std::array<int, kMostCounts> gears_{};
};

}  // namespace

SearchResult search(const SearchWish& wish, const Slice& slice, const SearchListener& listener) {
    require_meant(wish);
    if (slice.count == 0 || slice.index >= slice.count) throw std::invalid_argument("there is no such slice");
    Sieve sieve(wish);
    Walk walk(wish, sieve);
    if (walk.candidates() > kMostCandidates)
        throw std::length_error("these ranges hold too many trains to look at each: narrow them");
    const ToothRange first = ranges_of(wish).front();
    const std::size_t all = (first.size() + slice.count - 1 - slice.index) / slice.count;
    for (std::size_t done = 0; done < all; ++done) {
        walk.run(first.fewest + static_cast<int>(slice.index + done * slice.count));
        if (listener && listener({done + 1, all, sieve.rows()}) == SearchPace::stop && done + 1 < all)
            return sieve.finish(SearchExtent::partial);
    }
    return sieve.finish(SearchExtent::whole);
}

SearchResult join(const SearchWish& wish, std::span<const SearchResult> slices) {
    SearchResult joined;
    joined.target = wish.target;
    for (const SearchResult& slice : slices) {
        joined.examined += slice.examined;
        for (std::size_t rule = 0; rule < kRules; ++rule) joined.rejected[rule] += slice.rejected[rule];
        joined.rows.insert(joined.rows.end(), slice.rows.begin(), slice.rows.end());
        if (slice.extent == SearchExtent::partial) joined.extent = SearchExtent::partial;
    }
    std::ranges::sort(joined.rows, comes_before);
    if (wish.tolerance || joined.rows.size() <= wish.most_nearest) return joined;
    joined.rejected[static_cast<std::size_t>(Rule::ratio)] +=
        static_cast<std::int64_t>(joined.rows.size() - wish.most_nearest);
    joined.rows.resize(wish.most_nearest);
    return joined;
}

}  // namespace couplet
