// DrawingPace: how finely the stage is drawn, so that a moving train stays smooth on a slow machine.
//
// While something moves the finest quality that keeps up is used; at rest one full picture follows. The qualities, from
// fine to coarse: full, light, and light at half the size. All in seconds of the window's clock. No OpenGL.
#pragma once

#include <array>
#include <cstddef>
#include <optional>

namespace couplet {

enum class Fineness { full, light, half };

class DrawingPace {
  public:
    // A moving picture that takes longer than this is drawn more lightly; one is drawn more finely again where the
    // finer one took less than half of it.
    static constexpr double kSlowFrame_s = 1.0 / 24;
    // How long nothing moves before the full picture follows.
    static constexpr double kRest_s = 0.18;

    // What a picture is to be drawn in that has just changed.
    [[nodiscard]] Fineness for_moving() const { return moving_; }
    // Whether a picture that does not change any more, last changed at `changed_s` and drawn as `shown`, is due to be
    // drawn in full; and if it is not yet, how long that is to wait.
    [[nodiscard]] bool full_is_due(Fineness shown, double changed_s, double now_s) const {
        return shown != Fineness::full && now_s - changed_s >= kRest_s;
    }
    // How long a picture took, drawn so.
    void took(Fineness fineness, double seconds);
    // Another train or another size: what was learnt does not count any more.
    void forget();

  private:
    Fineness moving_ = Fineness::light;
    std::array<std::optional<double>, 3> seconds_{};  // smoothed, by fineness
};

}  // namespace couplet
