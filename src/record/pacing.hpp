// Pacing: how many turns a clip's driver makes, so that the clip is a loop that the eye can follow.
//
// Teeth that pass by more than half a pitch from frame to frame seem to stand or to run backwards (the sampling
// theorem, for a row of teeth), so a loop that needs a long way needs a long clip.
#pragma once

#include <optional>

#include "motion/motion.hpp"

namespace couplet {

// strict: every member is back, marks and all. alike: the picture looks the same, teeth and copies being alike (marks
// off). none: the clip ends where it ends.
enum class LoopKind { strict, alike, none };

// Turns of the reference driver, all positive; the clip may take any multiple.
struct Loops {
    Ratio strict;
    Ratio alike;
};

// What the eye sees of a motion.
struct Teeth {
    // Of the gear whose teeth pass fastest: pitches per turn of the reference driver. 0 where no gear turns.
    Ratio pitches_per_turn;
};
// Seen from the observer (kFrame allowed). The motion must move.
[[nodiscard]] Teeth fastest_teeth(const Train& train, const Motion& motion, MemberIndex observer);

struct Pace {
    LoopKind loop = LoopKind::none;
    int loops = 0;  // 0: none
    Ratio turns;    // of the reference driver, positive
    bool followable = true;
};

struct PaceWish {
    // None: strict where that can be followed at no more than twice the driver's speed, else alike where that can be
    // followed, else no loop.
    std::optional<LoopKind> loop;
    int frames = 1;
    Ratio fps = 30;
    Ratio rpm = 30;  // the driver's, positive: what the pace comes near to
};

[[nodiscard]] bool is_followable(const Teeth& teeth, const Ratio& turns, int frames);
// The fewest frames in which so many turns can be followed.
[[nodiscard]] int fewest_frames(const Teeth& teeth, const Ratio& turns);

// As many whole loops as come nearest to the driver's speed, at least one, and fewer where that lets the teeth be
// followed. Without a loop: the driver's own speed.
[[nodiscard]] Pace pace_of(const PaceWish& wish, const Loops& loops, const Teeth& teeth);

}  // namespace couplet
