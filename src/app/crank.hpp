// Crank: how far the train has been turned, exactly, by running or by hand.
//
// The pose is the phase of every joint. Each turn of the parameters of the present motion (motion.hpp: drivers, then
// free joints) is added to it, exactly, so that nothing drifts; meshes are linear, so another motion goes on from there
// and teeth stay in their gaps. What is run or turned by hand is a multiple of 1 / kGrain, so that numbers stay small.
// Turns must be finite and less than kMostTurns at once (std::invalid_argument).
#pragma once

#include <cstdint>
#include <vector>

#include "motion/motion.hpp"
#include "train/train.hpp"

namespace couplet {

class Crank {
  public:
    static constexpr std::int64_t kGrain = 1 << 20;
    static constexpr double kMostTurns = 1e12;

    // The start pose, nothing turned. The motion and the train must be those given to every later call until the next
    // go_on_with or start_again.
    void start_again(const Train& train, const Motion& motion);
    // Another motion of a train with as many members from where everything stands; else as start_again.
    void go_on_with(const Train& train, const Motion& motion);

    // All drivers at their speeds, for so many turns of the reference driver the way that it is driven (negative:
    // backwards); free joints stand. What is less than a grain waits for the next run, so that the slowest crawl moves.
    // Without drivers, or locked or conflicting: nothing.
    void run(const Motion& motion, double turns);
    // The same by exactly one tooth of the reference driver's gear with the most teeth (of a driver without teeth: by
    // the turn that moves some gear in mesh with a carried member by one tooth against its arm, else 1/36).
    void step_one_tooth(const Train& train, const Motion& motion, int direction);
    // Turns the train so that the member turns by so many turns against `observer`, as parameter_turns_for says. False
    // where it cannot turn.
    bool turn_member(const Train& train, const Motion& motion, MemberIndex member, MemberIndex observer, double turns);
    // Which turns of each parameter turn the member once against `observer`: those of its own driver where it is one;
    // else of all drivers at their speeds; but where that depends on a missing driver, those of a free joint, the
    // drivers standing. Empty where it cannot turn.
    [[nodiscard]] static std::vector<Ratio> parameter_turns_for(const Train& train, const Motion& motion,
                                                                MemberIndex member, MemberIndex observer);
    // `turns` times the turns of each parameter; no `per_turn`, or locked or conflicting: nothing.
    void turn_parameters(const Motion& motion, const std::vector<Ratio>& per_turn, double turns);

    // The phases of all joints now, by member, in [0, 1).
    [[nodiscard]] const std::vector<Ratio>& joint_phases() const { return phases_; }
    // Turns of the reference driver since the start or the last change of motion.
    [[nodiscard]] Ratio driver_turns(const Motion& motion) const;
    // Rises with every change of pose.
    [[nodiscard]] std::uint64_t changes() const { return changes_; }

  private:
    void turn(const Motion& motion, const std::vector<Ratio>& parameter_turns);

    std::vector<Ratio> phases_;           // by member
    std::vector<Ratio> parameter_turns_;  // by parameter, since the motion began
    double left_to_run_ = 0.0;            // turns of the reference driver, less than a grain
    std::uint64_t changes_ = 0;
};

}  // namespace couplet
