// Stage hand: what the mouse does on the stage.
//
// On a part: dragging turns the train, so that the point taken hold of stays under the cursor. On the bench: dragging
// goes round the train; with the right or middle button, or Shift, it shifts the view. The wheel comes closer. While a
// joint is being picked, clicking a part names its member. Without Dear ImGui, so that it can be tested by numbers.
#pragma once

#include <glm/vec2.hpp>
#include <optional>
#include <string>

#include "app/session.hpp"
#include "view/pick.hpp"

namespace couplet {

struct MouseOnStage {
    glm::dvec2 cursor{0.0};  // window coordinates of camera.hpp
    glm::dvec2 cursor_px{0.0};
    bool is_over_stage = false;  // and not over a panel
    bool left_down = false;
    bool shift_down = false;  // right or middle button, or left with Shift
    double wheel = 0.0;       // notches; positive comes closer
    double width_over_height = 1.0;
    Camera shown;            // the camera that the picture was made with
    glm::dvec2 middle{0.0};  // where the handled camera's target shows
};

class StageHand {
  public:
    void move(const MouseOnStage& mouse, const Session& session, const Standing& standing, const Picker& picker,
              Edits& edits);

    // True while a part or the view is being dragged.
    [[nodiscard]] bool is_busy() const { return grip_ != Grip::none; }
    // What lies under the cursor; nothing on the bench.
    [[nodiscard]] const std::optional<Picked>& under_cursor() const { return under_; }

  private:
    enum class Grip { none, part, orbit, shift };
    void press(const MouseOnStage& mouse);
    void drag_part(const MouseOnStage& mouse, const Session& session, const Standing& standing, Edits& edits);
    void click(const Session& session, Edits& edits) const;

    Grip grip_ = Grip::none;
    bool was_down_ = false;
    bool moved_ = false;  // far enough to be no click
    glm::dvec2 pressed_px_{0.0};
    glm::dvec2 last_{0.0};
    std::optional<Picked> pressed_on_;
    std::optional<Picked> held_;  // what is being turned
    std::optional<Picked> under_;
};

}  // namespace couplet
