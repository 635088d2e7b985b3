// Schedule: which instant of the motion each frame of a clip shows, exactly.
//
// A clip is one leg, or several of equal length: a leg runs one setting. A single leg runs evenly, so that its end
// flows into its beginning; each of several starts and stops gently, since gears are changed at a standstill. The
// parts turn on from where they are. Frames count from 0 and need not be whole: frame `frames` is the instant after
// the last one, which a loop shows again as frame 0.
#pragma once

#include <cstddef>
#include <vector>

#include "motion/motion.hpp"

namespace couplet {

struct Leg {
    Motion motion;
    Ratio turns;  // of its reference driver; negative: clockwise. A motion that does not move stands still.
};

// How much faster than its mean speed a leg runs at most: one of several does so in its middle.
[[nodiscard]] Ratio top_speed(std::size_t legs);

struct Schedule {
    Ratio fps = 30;
    int frames = 1;
    std::vector<Leg> legs;  // at least one
};

struct Instant {
    Ratio part;  // of the clip, 0 to 1
    std::size_t leg = 0;
    Ratio leg_turns;                        // of the leg's reference driver since the leg began
    std::vector<Ratio> joint_phases_turns;  // of every member, in [0, 1) (motion/pose.hpp)
};

// std::invalid_argument where the schedule has no leg or no frame, or where the frame lies outside it.
[[nodiscard]] Instant instant_at(const Schedule& schedule, const Ratio& frame);

}  // namespace couplet
