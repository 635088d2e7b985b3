#include "find/search.hpp"

#include <algorithm>
#include <exception>
#include <mutex>
#include <set>
#include <stdexcept>
#include <thread>
#include <utility>

#include "find/walk.hpp"

namespace couplet {

namespace {

void keep_first_of_each_ratio(SearchResult& result) {
    std::set<Ratio> seen;
    const auto rest = std::erase_if(result.rows, [&](const SearchRow& row) { return !seen.insert(row.ratio).second; });
    result.rejected[static_cast<std::size_t>(Rule::ratio)] += static_cast<std::int64_t>(rest);
}

SearchResult added_up(const SearchWish& wish, std::span<const SearchResult> parts) {
    SearchResult all;
    all.target = wish.target;
    for (const SearchResult& part : parts) {
        all.examined += part.examined;
        for (std::size_t rule = 0; rule < kRules; ++rule) all.rejected[rule] += part.rejected[rule];
        all.rows.insert(all.rows.end(), part.rows.begin(), part.rows.end());
        if (part.extent == SearchExtent::partial) all.extent = SearchExtent::partial;
    }
    std::ranges::sort(all.rows, comes_before);
    if (wish.rows == RowsUse::each_ratio) keep_first_of_each_ratio(all);
    if (wish.tolerance || all.rows.size() <= wish.most_nearest) return all;
    all.rejected[static_cast<std::size_t>(Rule::ratio)] +=
        static_cast<std::int64_t>(all.rows.size() - wish.most_nearest);
    all.rows.resize(wish.most_nearest);
    return all;
}

// Once through the outermost loop, its steps dealt out to threads as they become free.
class Round {
  public:
    struct Steps {
        int first;   // value of the loop's first step
        int stride;  // from one step to the next
        std::size_t all;
        std::size_t told_before;  // steps of rounds before, in what the listener is told
        std::size_t told_all;
    };

    Round(const SearchWish& wish, const Walk& walk, const Steps& steps, const SearchListener& listener)
        : wish_(wish), walk_(walk), steps_(steps), listener_(listener) {}

    // `found`: the rows of a round before, for what is rejected before them.
    SearchResult run(unsigned threads, const std::vector<SearchRow>* found = nullptr) {
        std::vector<std::thread> others;
        for (unsigned thread = 1; thread < std::min<std::size_t>(threads, steps_.all); ++thread)
            others.emplace_back([&] { work(found); });
        work(found);
        for (std::thread& other : others) other.join();
        if (failure_) std::rethrow_exception(failure_);
        SearchResult result = added_up(wish_, parts_);
        if (done_ < steps_.all) result.extent = SearchExtent::partial;
        return result;
    }

  private:
    // Leaves a step that lasts.
    struct Stopped {};

    void work(const std::vector<SearchRow>* found) {
        try {
            std::size_t told = 0;
            const Sieve* own = nullptr;
            Sieve sieve(wish_, found, [&] { tell_within_step(own->rows(), told); });
            own = &sieve;
            try {
                while (const std::optional<int> value = next_step()) {
                    walk_.run(*value, sieve);
                    tell_after_step(sieve.rows(), told);
                }
            } catch (const Stopped&) {  // the rows of the step so far stay
            }
            const std::lock_guard lock(mutex_);
            parts_.push_back(sieve.finish());
        } catch (...) {
            const std::lock_guard lock(mutex_);
            failure_ = std::current_exception();
            stopped_ = true;
        }
    }

    std::optional<int> next_step() {
        const std::lock_guard lock(mutex_);
        if (stopped_ || begun_ == steps_.all) return std::nullopt;
        return steps_.first + static_cast<int>(begun_++) * steps_.stride;
    }

    void tell_after_step(const std::vector<SearchRow>& rows, std::size_t& told) {
        const std::lock_guard lock(mutex_);
        ++done_;
        tell(rows, told);
    }

    void tell_within_step(const std::vector<SearchRow>& rows, std::size_t& told) {
        const std::lock_guard lock(mutex_);
        tell(rows, told);
        if (stopped_) throw Stopped{};
    }

    // With the lock held.
    void tell(const std::vector<SearchRow>& rows, std::size_t& told) {
        if (!listener_) return;
        // Nearest rows move up as nearer ones come: all of them are new then.
        const std::size_t from = wish_.tolerance ? std::exchange(told, rows.size()) : 0;
        const SearchProgress progress{steps_.told_before + done_, steps_.told_all, std::span(rows).subspan(from)};
        if (listener_(progress) == SearchPace::stop) stopped_ = true;
    }

    const SearchWish& wish_;
    const Walk& walk_;
    const Steps steps_;
    const SearchListener& listener_;
    std::mutex mutex_;
    std::size_t begun_ = 0;
    std::size_t done_ = 0;
    bool stopped_ = false;
    std::vector<SearchResult> parts_;
    std::exception_ptr failure_;
};

}  // namespace

SearchResult search(const SearchWish& wish, const Slice& slice, const SearchListener& listener, unsigned threads) {
    require_meant(wish);
    if (slice.count == 0 || slice.index >= slice.count) throw std::invalid_argument("there is no such slice");
    if (threads == 0) throw std::invalid_argument("a search needs a thread");
    const Walk walk(wish);
    const ToothRange first = ranges_of(wish).front();
    const std::size_t all = (first.size() + slice.count - 1 - std::min(slice.index, first.size())) / slice.count;
    const bool once = wish.tolerance && wish.rows == RowsUse::each_train;
    Round::Steps steps{first.fewest + static_cast<int>(slice.index), static_cast<int>(slice.count), all, 0,
                       once ? all : 2 * all};
    SearchResult found = Round(wish, walk, steps, listener).run(threads);
    if (once || found.extent == SearchExtent::partial || found.rows.empty()) return found;
    // With fewer rows than are wanted, nothing was sorted out for being far.
    if (wish.rows == RowsUse::each_train && found.rows.size() < wish.most_nearest) return found;
    steps.told_before = all;
    SearchResult counted = Round(wish, walk, steps, listener).run(threads, &found.rows);
    // Stopped by now, the rows are whole and the counts are not.
    counted.rows = std::move(found.rows);
    return counted;
}

SearchResult join(const SearchWish& wish, std::span<const SearchResult> slices) {
    SearchResult joined = added_up(wish, slices);
    if (joined.rows.size() > kMostSearchRows)
        throw std::length_error("too many trains suit: narrow a range or tolerance");
    return joined;
}

}  // namespace couplet
