// Audit: our verdict on a coupling that the user has typed.
//
// Right, or wrong by how much, and which mistake explains it where one does.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "couple/typable.hpp"
#include "train/train.hpp"

namespace couplet {

// What explains a typed pair, in the order in which explanations are tried.
enum class Mistake {
    none,                   // right
    bare_tooth_ratio,       // tooth counts alone: the carrier correction is missing
    bare_tooth_ratio_sense, // the same, and the sense of the tooth counts too
    sense_reversed,         // one joint's axis is flipped
    swapped,                // the two angles in each other's place
    swapped_and_reversed,
    other_joints,           // right for another pair of joints
    other_held,             // right for another held member
    rounded,                // right but for rounding
    stands_still,           // an angle of 0 for a joint that turns, or the other way round
    unexplained
};

struct Audit {
    Mistake mistake = Mistake::none;
    // 0 degrees off: right. Otherwise how far the second joint is off after one turn of the first, in degrees.
    Ratio off_deg_per_turn;
    Ratio drift_deg_per_1000_turns;
    // Turns of the first joint until the second joint's gear is a quarter tooth out; nothing where right or toothless.
    std::optional<Ratio> turns_to_quarter_tooth;
    // The mistake holds but for rounding of the angles typed.
    bool also_rounded = false;
    // other_joints: the pair of joints that the typed angles fit.
    std::optional<std::array<Joint, 2>> fits_joints;
    // other_held: the members held in the setting that the typed angles fit.
    std::vector<MemberIndex> fits_held;
    // sense_reversed: the joint whose axis is probably flipped: the one that is not driven.
    std::optional<Joint> probably_flipped;
    DegreePair corrected;

    [[nodiscard]] bool is_right() const { return mistake == Mistake::none; }
};

}  // namespace couplet
