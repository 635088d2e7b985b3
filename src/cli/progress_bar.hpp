// Progress bar: how far long work is, for eyes, on one line of the terminal (standard error).
#pragma once

#include <chrono>
#include <cstdint>
#include <string_view>

namespace couplet {

class ProgressBar {
  public:
    // With `shown` false, or where standard error is no terminal, nothing is written.
    explicit ProgressBar(bool shown);
    // Ends the line.
    ~ProgressBar();
    ProgressBar(const ProgressBar&) = delete;
    ProgressBar& operator=(const ProgressBar&) = delete;

    // A few times a second at most; `words` stand behind the bar, before the time that is left.
    void show(std::int64_t done, std::int64_t all, std::string_view words);

    // Since it was made.
    [[nodiscard]] double seconds() const;

  private:
    using Clock = std::chrono::steady_clock;

    bool shown_;
    Clock::time_point start_ = Clock::now();
    Clock::time_point last_{};
};

}  // namespace couplet
