// Speeds: the ratios that a train offers, over held members and over its settings.
#pragma once

#include <optional>
#include <vector>

#include "motion/motion.hpp"

namespace couplet {

// One choice that moves.
struct SpeedRow {
    std::vector<MemberIndex> held;
    MemberIndex driver;
    MemberIndex output;
    Ratio driver_per_output;  // driver turns per turn of the output; negative where the sense reverses
};

struct SpeedChoices {
    // Turn as one in every row.
    std::vector<std::pair<MemberIndex, MemberIndex>> ties;
    // Held, driver and output are chosen among these; empty: the members that ride on the frame.
    std::vector<MemberIndex> members;
};

// Every choice of held members, driver and output in which the output turns: as many members are held as leave the
// train one driver. In the order of the members. std::length_error where that would take more than kMostSpeedSolves
// solves.
inline constexpr std::size_t kMostSpeedSolves = 20000;
[[nodiscard]] std::vector<SpeedRow> speed_rows(const Train& train, const SpeedChoices& choices);

// One setting of a change-speed train.
struct SettingRow {
    SettingIndex setting;
    Motion motion;
    std::optional<MemberIndex> driver;
    // Nothing where the setting does not move or its output stands still.
    std::optional<Ratio> driver_per_output;
    // This row's ratio over the next one's; nothing in the last row or where either is missing.
    std::optional<Ratio> step_to_next;
};

[[nodiscard]] std::vector<SettingRow> setting_rows(const Train& train, MemberIndex output);

// The member that is the output of every setting: rides on the frame, turns in each setting that moves, and is driven
// and held in none. Nothing where several or none are so.
[[nodiscard]] std::optional<MemberIndex> common_output(const Train& train);

}  // namespace couplet
