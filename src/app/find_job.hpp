// Find job: a search for tooth counts that goes on in the background, on threads of this process.
//
// What is found is seen by look; nothing here waits but the destructor, for the step of the search that is in hand.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "find/loosen.hpp"
#include "find/ranking.hpp"
#include "find/search.hpp"

namespace couplet {

struct FindProgress {
    std::size_t done = 0;  // steps
    std::size_t all = 0;   // 0: not begun
    SearchResult result;   // so far: rows only, in their order; at the end all of it
    bool is_over = false;
    std::vector<Loosening> loosenings;  // at the end, where nothing was found
    std::string why_not;                // the wish cannot be searched; empty: it can
};

class FindJob {
  public:
    FindJob(SearchWish wish, unsigned threads);
    ~FindJob();
    FindJob(const FindJob&) = delete;
    FindJob& operator=(const FindJob&) = delete;

    // Sees how far it has come. True where something changed.
    bool look();
    // Asks it to end soon.
    void stop();

    [[nodiscard]] const SearchWish& wish() const { return wish_; }
    [[nodiscard]] const FindProgress& progress() const { return seen_; }
    // Of the rows that were seen; worked out once after each look that changed them.
    [[nodiscard]] const std::vector<std::size_t>& ranked_by(RankKey key) const;
    [[nodiscard]] const std::vector<bool>& unbeaten_rows() const;
    // True when nothing of it runs any more: it can go without being waited for.
    [[nodiscard]] bool is_at_rest() const;

  private:
    struct Shared;

    SearchWish wish_;
    FindProgress seen_;
    mutable std::map<RankKey, std::vector<std::size_t>> ranked_;
    mutable std::optional<std::vector<bool>> unbeaten_;
    std::shared_ptr<Shared> shared_;
    std::thread thread_;
};

}  // namespace couplet
