#include "app/pace.hpp"

namespace couplet {

void DrawingPace::took(Fineness fineness, double seconds) {
    std::optional<double>& known = seconds_[static_cast<std::size_t>(fineness)];
    known = known ? 0.7 * *known + 0.3 * seconds : seconds;
    if (fineness != moving_) {
        // A full picture at rest may show that it would keep up.
        if (static_cast<int>(fineness) + 1 == static_cast<int>(moving_) && *known < kSlowFrame_s / 2)
            moving_ = fineness;
        return;
    }
    if (*known > kSlowFrame_s && moving_ != Fineness::half) {
        moving_ = static_cast<Fineness>(static_cast<int>(moving_) + 1);
        return;
    }
    // From half to light a picture has four times the pixels.
    if (moving_ == Fineness::half && *known * 4 < kSlowFrame_s / 2) moving_ = Fineness::light;
}

void DrawingPace::forget() {
    *this = DrawingPace();
}

}  // namespace couplet
