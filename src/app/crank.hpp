// Crank: how far the train has been turned, exactly, by running or by hand.
//
// A pose is the phase of every joint where the present motion began, and the turns of each parameter of the motion
// (motion.hpp: drivers, then free joints) since then. Meshes are linear, so a new motion goes on from the phases of the
// old one and teeth stay in their gaps. Every turn given is a multiple of 1 / kGrain, so that numbers stay small.
#pragma once

#include <optional>
#include <vector>

#include "motion/motion.hpp"
#include "train/train.hpp"

namespace couplet {

class Crank {
  public:
    static constexpr std::int64_t kGrain = 1 << 20;

    // The start pose, nothing turned. The motion and the train must be those given to every later call until the next
    // go_on_with or start_again.
    void start_again(const Train& train, const Motion& motion);
    // Another motion of a train with as many members from where everything stands; else as start_again.
    void go_on_with(const Train& train, const Motion& motion);

    // All drivers at their speeds, for so many turns of the reference driver the way that it is driven (negative:
    // backwards). Without drivers, or locked or conflicting: nothing.
    void run(const Motion& motion, double turns);
    // The same by exactly one tooth of the reference driver's gear with the most teeth (of a driver without teeth: by
    // the turn that moves some gear in mesh with a carried member by one tooth against its arm, else 1/36).
    void step_one_tooth(const Train& train, const Motion& motion, int direction);
    // Turns the train so that the member turns by so many turns against `observer`: by its own driver where it is one,
    // else by all drivers at their speeds, else by a free joint. False where it cannot turn.
    bool turn_member(const Train& train, const Motion& motion, MemberIndex member, MemberIndex observer, double turns);
    // Whether and how the member turns when it is turned so: which turns of each parameter turn it once. Empty where
    // it cannot.
    [[nodiscard]] static std::vector<Ratio> parameter_turns_for(const Train& train, const Motion& motion,
                                                                MemberIndex member, MemberIndex observer);
    void turn_parameters(const Motion& motion, const std::vector<Ratio>& per_turn, double turns);

    // The phases of all joints now, by member, in [0, 1).
    [[nodiscard]] std::vector<Ratio> joint_phases(const Motion& motion) const;
    // Turns of the reference driver since the start or the last change of motion.
    [[nodiscard]] Ratio driver_turns(const Motion& motion) const;
    // Rises with every change of pose.
    [[nodiscard]] std::uint64_t changes() const { return changes_; }

  private:
    std::vector<Ratio> base_;             // by member
    std::vector<Ratio> parameter_turns_;  // by parameter
    std::uint64_t changes_ = 0;
};

}  // namespace couplet
