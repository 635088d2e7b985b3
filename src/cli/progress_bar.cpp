#include "cli/progress_bar.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

#include "record/clip_plan.hpp"

namespace couplet {

ProgressBar::ProgressBar(bool shown) : shown_(shown && isatty(STDERR_FILENO) == 1) {}

ProgressBar::~ProgressBar() {
    if (last_ != Clock::time_point{}) std::fputc('\n', stderr);
}

double ProgressBar::seconds() const {
    return std::chrono::duration<double>(Clock::now() - start_).count();
}

void ProgressBar::show(std::int64_t done, std::int64_t all, std::string_view words) {
    const auto now = Clock::now();
    if (!shown_ || (done < all && now - last_ < std::chrono::milliseconds(200))) return;
    last_ = now;
    constexpr int kCells = 30;
    const int full = all > 0 ? static_cast<int>(kCells * done / all) : 0;
    const double left = done > 0 ? seconds() * static_cast<double>(all - done) / static_cast<double>(done) : 0.0;
    fmt::print(stderr, "\r[{:=<{}}{: <{}}] {}, {} left   ", "", full, "", kCells - full, words, time_text(left));
    std::fflush(stderr);
}

}  // namespace couplet
