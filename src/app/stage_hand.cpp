#include "app/stage_hand.hpp"

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <numbers>

#include "app/joint_edits.hpp"

namespace couplet {

namespace {

constexpr double kClickReach_px = 4;
constexpr double kOrbitPerWindow_rad = 3.2;
constexpr double kZoomPerNotch = 1.15;

// How the place's point moves in the picture per turn of the member against the observer: by a small turn either way.
std::optional<glm::dvec2> moves_by(const Session& session, const Picked& held, const MouseOnStage& mouse) {
    constexpr double kProbe_turns = 1.0 / 4096;
    const Study& study = *session.study;
    std::optional<glm::dvec2> ends[2];
    for (int side = 0; side < 2; ++side) {
        Crank probe = session.crank;
        if (!probe.turn_member(study.train(), study.motion(), held.member, session.view.look.observer,
                               side == 0 ? -kProbe_turns : kProbe_turns))
            return std::nullopt;
        const Standing there = standing_with(*session.stage, study.motion(), probe.joint_phases());
        ends[side] =
            shown_at(mouse.shown, point_of(*session.stage, there, session.view.look, held), mouse.width_over_height);
    }
    if (!ends[0] || !ends[1]) return std::nullopt;
    return (*ends[1] - *ends[0]) / (2 * kProbe_turns);
}

}  // namespace

void StageHand::press(const MouseOnStage& mouse) {
    pressed_px_ = mouse.cursor_px;
    last_ = mouse.cursor;
    moved_ = false;
    pressed_on_ = under_;
    held_ = under_ && under_->member != kFrame ? under_ : std::nullopt;
    grip_ = mouse.shift_down ? Grip::shift : held_ ? Grip::part : Grip::orbit;
}

// The point held goes to the cursor as nearly as its path allows: one step of Newton's method for each move.
void StageHand::drag_part(const MouseOnStage& mouse, const Session& session, const Standing& standing, Edits& edits) {
    const std::optional<glm::dvec2> per_turn = moves_by(session, *held_, mouse);
    const std::optional<glm::dvec2> now =
        shown_at(mouse.shown, point_of(*session.stage, standing, session.view.look, *held_), mouse.width_over_height);
    if (!per_turn || !now) {
        // The session says why it cannot turn.
        edits.ask(TurnMember{held_->member, 0.0});
        return;
    }
    // In units of the picture's height, so that both directions count alike.
    const glm::dvec2 square(mouse.width_over_height, 1.0);
    const glm::dvec2 step = *per_turn * square;
    const glm::dvec2 wish = (mouse.cursor - *now) * square;
    const double length2 = glm::dot(step, step);
    if (length2 < 1e-9) return;
    constexpr double kMostAtOnce_turns = 0.2;
    edits.ask(
        TurnMember{held_->member, std::clamp(glm::dot(step, wish) / length2, -kMostAtOnce_turns, kMostAtOnce_turns)});
}

void StageHand::click(const Session& session, Edits& edits) const {
    if (!session.view.joint_pick || !pressed_on_) return;
    const MemberIndex member = pressed_on_->member;
    JointPick& pick = *edits.view.joint_pick;
    if (!pick.turns) {
        if (member != kFrame) pick.turns = member;
        return;
    }
    if (*pick.turns == member) return;
    ChangedTrain changed = with_joint(session.train(), *pick.turns, member);
    // A joint that is there already stays as it is.
    if (changed.train) {
        Draft draft = session.draft();
        draft.train = std::move(*changed.train);
        edits.change("add joint " + default_joint_name(session.train(), *pick.turns, member), std::move(draft));
    }
    edits.view.joint_pick.reset();
}

void StageHand::move(const MouseOnStage& mouse, const Session& session, const Standing& standing, const Picker& picker,
                     Edits& edits) {
    const bool down = mouse.left_down || mouse.shift_down;
    if (!down && was_down_) {
        if (!moved_) click(session, edits);
        grip_ = Grip::none;
        held_.reset();
    }
    if (grip_ == Grip::none) {
        under_.reset();
        if (mouse.is_over_stage && session.stage)
            under_ = picker.under(ray_under(mouse.shown, mouse.cursor, mouse.width_over_height), *session.stage,
                                  standing, session.view.look, mouse.shown);
        if (down && !was_down_ && mouse.is_over_stage) press(mouse);
        if (mouse.is_over_stage && mouse.wheel != 0.0)
            edits.view.camera = zoomed_at(edits.view.camera, mouse.cursor - mouse.middle,
                                          std::pow(kZoomPerNotch, mouse.wheel), mouse.width_over_height);
    }
    was_down_ = down;
    if (under_ && under_->member != kFrame) edits.view.pointed = under_->member;
    if (grip_ == Grip::none) return;
    moved_ = moved_ || glm::length(mouse.cursor_px - pressed_px_) > kClickReach_px;
    if (!moved_) return;
    const glm::dvec2 by = mouse.cursor - last_;
    if (grip_ == Grip::part) {
        drag_part(mouse, session, standing, edits);
    } else if (grip_ == Grip::orbit) {
        edits.view.camera = orbited(edits.view.camera, -by.x * mouse.width_over_height * kOrbitPerWindow_rad / 2,
                                    -by.y * kOrbitPerWindow_rad / 2);
    } else {
        edits.view.camera = panned(edits.view.camera, last_, mouse.cursor, mouse.width_over_height);
    }
    last_ = mouse.cursor;
}

}  // namespace couplet
