// Dial: a member as a small round instrument: where it stands and how fast it turns against the observer, whether it is
// held or drives.
#pragma once

#include <optional>
#include <span>

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

inline constexpr float kDialWidth_u = 124;

// The member that everything is seen from: the view's, where the train still has it, else the frame.
[[nodiscard]] MemberIndex observer_of(const Session& session);

// Turns of the member against the observer per turn of the reference driver; nothing where it depends on a missing
// driver or where there is no motion.
[[nodiscard]] std::optional<Ratio> turns_seen(const Session& session, MemberIndex member);

// Within a column of kDialWidth_u from there; `frame_phases_turns` by member, as motion/pose.hpp gives them. What is
// asked of the dial (turned by hand, pinned, driven, pointed at) goes into the edits. True where the keyboard stands on
// one of its parts.
[[nodiscard]] bool draw_dial(Screen& screen, const Session& session, Edits& edits, MemberIndex member,
                             std::span<const Ratio> frame_phases_turns, ImVec2 top_left);

// How far the cursor has gone round the middle since the last frame, in turns, counter-clockwise on the screen; within
// half a turn either way, and nothing where it is so near to the middle that its angle says little.
[[nodiscard]] double turns_round(ImVec2 middle, ImVec2 before, ImVec2 now, float least_px);

}  // namespace couplet
