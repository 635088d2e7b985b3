// Audit: our verdict on a coupling that the user has typed.
//
// Right, or wrong by how much, and which mistake explains it where one does.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "couple/typable.hpp"
#include "motion/motion.hpp"
#include "train/train.hpp"

namespace couplet {

// What explains a typed pair, in the order in which explanations are tried.
enum class Mistake {
    none,                    // right
    sense_reversed,          // one joint's axis is flipped
    bare_tooth_ratio,        // tooth counts alone: the carrier correction is missing
    bare_tooth_ratio_sense,  // the same, and the sense of the tooth counts too
    swapped,                 // the two angles in each other's place
    swapped_and_reversed,
    other_joints,  // right for another pair of joints
    other_held,    // right for another held member
    rounded,       // right but for rounding
    stands_still,  // an angle of 0 for a joint that turns, or an angle for one that stands still
    unexplained
};

struct Audit {
    Mistake mistake = Mistake::none;
    // How far the second joint is off after one turn of the first, and after 1000 turns, in degrees; 0 where right, and
    // where the first angle is 0.
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
    // A reversed sense: the joint whose axis is probably flipped, the one that is not driven.
    std::optional<Joint> probably_flipped;
    DegreePair corrected;

    [[nodiscard]] bool is_right() const { return mistake == Mistake::none; }
};

// What a typed pair is judged against.
struct AuditCase {
    const Train& train;
    const Setting& setting;
    const Motion& motion;
    const std::vector<Joint>& joints;  // those of the train, to look for another pair among
    const Joint& first;
    const Joint& second;
    Ratio second_per_first;
    std::optional<Ratio> bare_second_per_first;  // by tooth counts alone, where there is such a ratio
    DegreePair corrected;
};

[[nodiscard]] Audit audit(const AuditCase& facts, const DegreePair& typed);

// The gear by which an error in the second joint shows: the one of the member it turns with the most teeth, else of
// the member it turns against. Degrees of a quarter of its tooth; nothing where neither has teeth.
[[nodiscard]] std::optional<Ratio> quarter_tooth_deg(const Train& train, const Joint& joint);

// Turns of the first joint until a drift has grown to a quarter tooth of the second; nothing where it never does.
[[nodiscard]] std::optional<Ratio> turns_to_quarter_tooth(const Train& train, const Joint& second,
                                                          const Ratio& drift_deg_per_1000_turns);

}  // namespace couplet
