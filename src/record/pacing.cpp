#include "record/pacing.hpp"

#include <algorithm>

namespace couplet {

namespace {

constexpr std::int64_t kMostLoops = 1'000'000;

Ratio turns_at_own_speed(const PaceWish& wish) {
    return wish.rpm / Ratio(60) * Ratio(wish.frames) / wish.fps;
}

Ratio rounded(const Ratio& value) {
    return (value + Ratio(1, 2)).floor();
}

// Whole loops near the driver's own speed that can be followed; at least one.
Pace loops_near(const PaceWish& wish, LoopKind kind, const Ratio& loop, const Teeth& teeth) {
    Ratio count = rounded(turns_at_own_speed(wish) / loop);
    if (!teeth.pitches_per_turn.is_zero())
        count = std::min(count, (Ratio(wish.frames) / (Ratio(2) * teeth.pitches_per_turn * loop)).floor());
    count = std::clamp(count, Ratio(1), Ratio(kMostLoops));
    const Ratio turns = count * loop;
    return {kind, static_cast<int>(count.small_numerator()), turns, is_followable(teeth, turns, wish.frames)};
}

}  // namespace

Teeth fastest_teeth(const Train& train, const Motion& motion, MemberIndex observer) {
    Teeth teeth;
    for (const Gear& gear : train.gears) {
        const Combination rate = rate_on(train, motion, gear.member, observer);
        const Ratio turns = turns_per_driver_turn(motion, rate).value_or(Ratio(0)).magnitude();
        teeth.pitches_per_turn = std::max(teeth.pitches_per_turn, turns * Ratio(gear.teeth));
    }
    return teeth;
}

bool is_followable(const Teeth& teeth, const Ratio& turns, int frames) {
    return Ratio(2) * teeth.pitches_per_turn * turns <= Ratio(frames);
}

int fewest_frames(const Teeth& teeth, const Ratio& turns) {
    const Ratio least = -(-(Ratio(2) * teeth.pitches_per_turn * turns)).floor();
    return static_cast<int>(std::clamp(least, Ratio(1), Ratio(INT32_MAX)).small_numerator());
}

Pace pace_of(const PaceWish& wish, const Loops& loops, const Teeth& teeth) {
    const Ratio own = turns_at_own_speed(wish);
    const Pace no_loop = {LoopKind::none, 0, own, is_followable(teeth, own, wish.frames)};
    if (wish.loop == LoopKind::none) return no_loop;
    const Pace strict = loops_near(wish, LoopKind::strict, loops.strict, teeth);
    const Pace alike = loops_near(wish, LoopKind::alike, loops.alike, teeth);
    if (wish.loop) return *wish.loop == LoopKind::strict ? strict : alike;
    const bool calm = strict.turns <= Ratio(2) * own || loops.strict == loops.alike;
    if (strict.followable && calm) return strict;
    return alike.followable ? alike : no_loop;
}

}  // namespace couplet
