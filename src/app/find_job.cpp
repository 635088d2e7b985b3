#include "app/find_job.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace couplet {

// What both threads touch.
struct FindJob::Shared {
    std::atomic<bool> stop = false;
    std::atomic<bool> at_rest = false;
    std::mutex mutex;
    FindProgress progress;
    bool changed = false;
};

namespace {

// Rows that are there already are left out; where the nearest are wanted, only so many are kept.
void take_rows(std::vector<SearchRow>& rows, std::span<const SearchRow> new_rows, const SearchWish& wish) {
    const auto before = static_cast<std::ptrdiff_t>(rows.size());
    rows.insert(rows.end(), new_rows.begin(), new_rows.end());
    std::ranges::sort(rows.begin() + before, rows.end(), comes_before);
    std::ranges::inplace_merge(rows, rows.begin() + before, comes_before);
    const auto doubled =
        std::ranges::unique(rows, {}, [](const SearchRow& row) { return std::tie(row.teeth, row.copies); });
    rows.erase(doubled.begin(), doubled.end());
    if (!wish.tolerance && rows.size() > wish.most_nearest) rows.resize(wish.most_nearest);
}

}  // namespace

FindJob::FindJob(SearchWish wish, unsigned threads) : wish_(std::move(wish)), shared_(std::make_shared<Shared>()) {
    thread_ = std::thread([shared = shared_, wish = wish_, threads] {
        const auto pace = [&] { return shared->stop ? SearchPace::stop : SearchPace::go_on; };
        const auto listen = [&](const SearchProgress& progress) {
            const std::lock_guard lock(shared->mutex);
            shared->progress.done = progress.done;
            shared->progress.all = progress.all;
            take_rows(shared->progress.result.rows, progress.new_rows, wish);
            shared->changed = true;
            return pace();
        };
        SearchResult result;
        std::vector<Loosening> loosenings;
        std::string why_not;
        try {
            result = search(wish, {}, listen, threads);
            if (result.rows.empty() && !shared->stop)
                loosenings = couplet::loosenings(wish, [&](const SearchProgress&) { return pace(); });
        } catch (const std::exception& error) {  // the wish cannot be meant, or asks for too much
            why_not = error.what();
        }
        {
            const std::lock_guard lock(shared->mutex);
            shared->progress.result = std::move(result);
            shared->progress.loosenings = std::move(loosenings);
            shared->progress.why_not = std::move(why_not);
            shared->progress.is_over = true;
            shared->changed = true;
        }
        shared->at_rest = true;
    });
}

FindJob::~FindJob() {
    stop();
    thread_.join();
}

bool FindJob::look() {
    const std::lock_guard lock(shared_->mutex);
    if (!std::exchange(shared_->changed, false)) return false;
    seen_ = shared_->progress;
    ranked_.clear();
    unbeaten_.reset();
    return true;
}

const std::vector<std::size_t>& FindJob::ranked_by(RankKey key) const {
    const auto [known, is_new] = ranked_.try_emplace(key);
    if (is_new) known->second = ranked(seen_.result.rows, key);
    return known->second;
}

const std::vector<bool>& FindJob::unbeaten_rows() const {
    if (!unbeaten_) unbeaten_ = unbeaten(seen_.result.rows);
    return *unbeaten_;
}

void FindJob::stop() {
    shared_->stop = true;
}

bool FindJob::is_at_rest() const {
    return shared_->at_rest;
}

}  // namespace couplet
