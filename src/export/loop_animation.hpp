// Loop animation: one loop of a train as key poses of its joints, for programs that turn joints from key to key.
//
// A joint turns at a constant rate about one axis, so a program that goes from key to key by the shorter way (spherical
// linear interpolation of the two rotations) is right at every instant, as long as two keys are less than half a turn
// apart. Keys stand no more than an eighth of a turn apart, so that one that only mixes the rotations and scales the
// result is right to a tenth of a degree too. Each member has keys as dense as its own rate asks for; all begin and end
// together. A key's time is a float, and its phase is the exact one at that very float's instant; the last key is the
// loop's exact end.
#pragma once

#include <optional>
#include <vector>

#include "export/export_model.hpp"

namespace couplet {

// Where an animation ends: every tooth back in its place; all as it looked, teeth and copies being alike (the picture
// must be plain, solid/detail.hpp); or anywhere, where either takes more than kMostKeys keys.
enum class LoopEnd { every_tooth_back, looks_alike, open };

// What is asked for: every tooth back where that takes no longer than kLongestUsualLoop_s, else alike; or one of them
// whatever time it takes. A loop of either kind ends with every tooth back where both are equally long.
enum class LoopWish { usual, strict, alike };

inline constexpr int kLongestUsualLoop_s = 30;
inline constexpr int kKeysPerTurn = 8;
inline constexpr int kMostKeys = 200'000;  // of all members together

struct LoopAnimation {
    LoopEnd end = LoopEnd::open;
    Ratio driver_turns;      // of the reference driver, from start to end; negative where it is driven clockwise
    Ratio seconds;           // the drivers run at their own speeds, or slower or faster where nobody could watch that
    std::vector<int> steps;  // by member: from key to key; 0 where its joint stands
};

// Nothing where nothing turns. ExportRefused where a strict loop is asked for that takes more than kMostKeys keys.
[[nodiscard]] std::optional<LoopAnimation> loop_animation_of(const ExportModel& model, LoopWish wish = LoopWish::usual);

struct JointKey {
    float seconds;
    // Of the member's joint, in [0, 2): two turns, so that a rotation's quaternion, which needs them to come back to
    // itself, goes on from key to key without a change of sign.
    Ratio phase_turns;
};

// steps + 1 keys; the member must turn.
[[nodiscard]] std::vector<JointKey> keys_of(const ExportModel& model, const LoopAnimation& animation,
                                            MemberIndex member);

}  // namespace couplet
