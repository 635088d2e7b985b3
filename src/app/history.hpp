// History: undo and redo by keeping old drafts.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "app/draft.hpp"

namespace couplet {

class History {
  public:
    explicit History(Draft first) : steps_{{"", "", std::move(first)}} {}

    [[nodiscard]] const Draft& now() const { return steps_[at_].draft; }
    // A new step, which forgets what was undone. `what` says what it did ("teeth of sun: 24"). Changes with the same
    // key, not empty, directly after each other are one step: the dragging of a number is undone at once, and is no
    // step where it ends as it began. A draft like the present one makes no step. At most kMostSteps are kept, the
    // oldest go.
    void change(std::string what, Draft draft, std::string key = {});
    // The next change makes a step of its own, whatever its key.
    void pause() { steps_[at_].key.clear(); }
    // The chosen setting of the present step, without a step of its own and without its trial. Then as pause().
    void choose(SettingIndex setting);

    [[nodiscard]] bool can_undo() const { return at_ > 0; }
    [[nodiscard]] bool can_redo() const { return at_ + 1 < steps_.size(); }
    // What undo would take back and redo would do again; empty where there is nothing.
    [[nodiscard]] std::string undo_what() const { return can_undo() ? steps_[at_].what : ""; }
    [[nodiscard]] std::string redo_what() const { return can_redo() ? steps_[at_ + 1].what : ""; }
    // Then as pause().
    void undo();
    void redo();

    static constexpr std::size_t kMostSteps = 500;

  private:
    struct Step {
        std::string what;
        std::string key;
        Draft draft;
    };
    std::vector<Step> steps_;
    std::size_t at_ = 0;
};

}  // namespace couplet
