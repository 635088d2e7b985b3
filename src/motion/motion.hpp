// Motion: how fast every joint of a train turns in one setting, exactly.
//
// The unknowns are joint rates: q_m, the rate of member m against the member it rides on. Every rate is a linear
// combination of a few parameters: the setting's drivers first, in their order, then, where the setting is free,
// members that could take the missing drivers. A combination's coefficients are exact turns per turn of each
// parameter. Copies of a member share one rate. The equations are in equations.hpp, their solution in elimination.hpp.
#pragma once

#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "exact/ratio.hpp"
#include "train/train.hpp"

namespace couplet {

// moves: the drivers fix every member's rate. free: drivers are missing. locked: the drivers cannot move.
// conflicting: the drivers' speeds contradict each other.
enum class Outcome { moves, free, locked, conflicting };

// Exact coefficients, one per parameter of a Motion.
using Combination = std::vector<Ratio>;

// Drivers whose speeds cannot be had together: sum of coefficient x rpm over the drivers must be 0 and is `excess_rpm`.
struct Contradiction {
    Combination coefficients;  // one per driver; the last nonzero one is 1
    Ratio excess_rpm;
};

struct Motion {
    Outcome outcome = Outcome::moves;
    // How many drivers the holds, ties and meshes leave room for (mobility).
    int freedom = 0;
    // How many drivers are still missing; 0 unless free.
    int missing_drivers = 0;
    std::vector<Drive> drivers;
    // Parameters behind the drivers: the rates of these members' joints, against what they ride on. Where more than
    // kMostFreeParameters are missing the list is empty, and the free joints share a few parameters without a meaning
    // of their own (elimination.hpp); a rate still depends on a missing driver exactly where a coefficient of theirs is
    // not 0, and two rates are parallel exactly where their combinations are.
    std::vector<MemberIndex> free_joints;
    std::size_t free_parameters = 0;
    std::vector<Contradiction> contradictions;

    static constexpr int kMostFreeParameters = 6;

    [[nodiscard]] std::size_t parameter_count() const { return drivers.size() + free_parameters; }
    // q_m; one coefficient per parameter. Meaningless where the outcome is locked or conflicting.
    [[nodiscard]] std::span<const Ratio> joint_rate(MemberIndex member) const {
        return {joint_rates.data() + member.position() * parameter_count(), parameter_count()};
    }
    std::vector<Ratio> joint_rates;  // by member, then by parameter

    // How the elimination went: steps that left machine words (0 in every train of ordinary size).
    int steps_beyond_words = 0;
};

// Thrown where the answer itself would not fit: the exact rates together need more than kMostRateBytes.
struct RatesTooLarge : std::runtime_error {
    using std::runtime_error::runtime_error;
};
inline constexpr std::size_t kMostRateBytes = std::size_t{512} << 20;

// That of a train which no setting moves: free, without drivers or rates.
[[nodiscard]] Motion resting_motion();

// Solves the setting. The train must have no faults (train/faults.hpp); std::invalid_argument where a mesh has no arm
// or where a member's axis crosses Z (crossing axes are read and kept but not solved).
[[nodiscard]] Motion solve(const Train& train, const Setting& setting);

// The rate of member a against member b (kFrame allowed for either), as a combination of the parameters.
[[nodiscard]] Combination rate_on(const Train& train, const Motion& motion, MemberIndex a, MemberIndex b);

// The rate of every member against the frame, by member.
[[nodiscard]] std::vector<Combination> rates_on_frame(const Train& train, const Motion& motion);

// True where the rate cannot be told before a missing driver is given.
[[nodiscard]] bool needs_missing_driver(const Motion& motion, std::span<const Ratio> combination);

// The parameter that rates "per driver turn" refer to: the first driver listed whose speed is not 0, else the first;
// nothing where there is no driver.
[[nodiscard]] std::optional<std::size_t> reference_driver(const Motion& motion);

// Turns per turn of the reference driver, all drivers running at the speeds given; nothing where the rate depends on a
// missing driver.
[[nodiscard]] std::optional<Ratio> turns_per_driver_turn(const Motion& motion, std::span<const Ratio> combination);

}  // namespace couplet
