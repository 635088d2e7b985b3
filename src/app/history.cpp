#include "app/history.hpp"

namespace couplet {

void History::change(std::string what, Draft draft, std::string key) {
    if (draft == now()) return;
    steps_.erase(steps_.begin() + static_cast<std::ptrdiff_t>(at_) + 1, steps_.end());
    const bool goes_on = at_ > 0 && !key.empty() && steps_[at_].key == key;
    if (goes_on && draft == steps_[at_ - 1].draft) {
        // Dragged back to where it was.
        steps_.pop_back();
        --at_;
        pause();
    } else if (goes_on) {
        steps_[at_] = {std::move(what), std::move(key), std::move(draft)};
    } else {
        steps_.push_back({std::move(what), std::move(key), std::move(draft)});
        ++at_;
    }
    if (steps_.size() > kMostSteps) {
        steps_.erase(steps_.begin());
        --at_;
    }
}

void History::choose(SettingIndex setting) {
    Draft& draft = steps_[at_].draft;
    if (draft.chosen == setting && !draft.trial) return;
    draft.chosen = setting;
    draft.trial.reset();
    pause();
}

void History::undo() {
    if (can_undo()) --at_;
    pause();
}

void History::redo() {
    if (can_redo()) ++at_;
    pause();
}

}  // namespace couplet
