// Clip plan: from what is wished of a clip's motion to its schedule, and what has to be said about it.
//
// Each setting wished for becomes a leg that makes whole loops, so the clip as a whole is one; the driver turns the way
// the setting drives it. A setting that does not move gives a leg that stands.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "place/starting_rotation.hpp"
#include "record/pacing.hpp"
#include "record/schedule.hpp"

namespace couplet {

struct ClipWish {
    std::vector<Setting> settings;  // at least one
    std::optional<Ratio> seconds;   // none: kUsualSeconds, or up to kLongestUsualSeconds where a loop needs that
    Ratio fps = 30;
    std::optional<LoopKind> loop;  // none: the best (pacing.hpp)
    std::optional<Ratio> turns;    // exactly so many of each leg's driver, and no loop
    MemberIndex observer = kFrame;
};

struct LegPlan {
    std::optional<Loops> loops;  // nothing where nothing turns
    Teeth teeth;                 // where the leg runs fastest
    Pace pace;
};

struct ClipPlan {
    Schedule schedule;
    std::vector<LegPlan> legs;  // as in the schedule
    // The picture must be plain (StageLook::plain) for the seam not to show.
    bool plain = false;
};

inline constexpr int kUsualSeconds = 10;
inline constexpr int kLongestUsualSeconds = 30;
inline constexpr int kMostFrames = 1'000'000;

// std::invalid_argument where no setting is wished for, or where seconds x fps are not 1 to kMostFrames frames.
[[nodiscard]] ClipPlan plan_clip(const Train& train, const Placement& placement, const StartingRotations& rotations,
                                 const ClipWish& wish);

// "10/7 turns (1.43)", "240 turns", "1 turn".
[[nodiscard]] std::string turns_text(const Ratio& turns);

// "42 s", "2:05 min".
[[nodiscard]] std::string time_text(double seconds);

// What the driver does, which loops there are, and what would be better where a loop cannot be followed; a sentence
// each. On the command line they name the options that would bring it about.
enum class PlanReader { command_line, window };
[[nodiscard]] std::vector<std::string> plan_words(const Train& train, const ClipPlan& plan, PlanReader reader);

}  // namespace couplet
