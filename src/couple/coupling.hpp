// Coupling: two joints and the turns of the second per turn of the first, with everything that is typed from it.
//
// A ratio here always belongs to two joints, and each joint names both of its members. Facts only: the sheet makes
// text of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "couple/audit.hpp"
#include "couple/joints.hpp"
#include "couple/typable.hpp"
#include "motion/explain.hpp"
#include "motion/motion.hpp"

namespace couplet {

// What tooth counts alone would have said, and what the joint needs: the difference is the carrier's own motion.
struct CarrierCorrection {
    Ratio bare_second_per_first;
    Ratio second_per_first;
    // How far the second joint would be off after one turn of the first, in degrees.
    Ratio difference_deg_per_turn;
};

enum class Obstacle {
    none,
    first_stands_still,  // the first joint never turns
    independent,         // with the freedom that is left each joint can turn on its own
    undetermined         // the setting is locked or conflicting: there is no motion
};

struct Coupling {
    Joint first;
    Joint second;
    // Nothing: there is an obstacle.
    std::optional<Ratio> second_per_first;
    Obstacle obstacle = Obstacle::none;
    // independent: members whose hold would make the coupling exist.
    std::vector<MemberIndex> holds_to_exist;

    // The rest stands only where second_per_first does.
    DegreePair degrees;                           // the wished first angle and the exact second one
    DegreePair whole_degrees;                     // the smallest exact pair
    TypablePair to_type;                          // what fits the modeller's fields
    std::optional<Ratio> turns_to_quarter_tooth;  // of the first joint, by to_type's drift; nothing where exact
    bool opposite = false;                        // the joints turn in opposite senses
    std::string expression;                       // the second angle of `degrees` in tooth counts
    std::optional<CarrierCorrection> correction;

    std::optional<DegreePair> typed;
    std::optional<Audit> audit;
};

// A joint with its rate in a setting.
struct JointRate {
    Joint joint;
    Combination combination;                     // per parameter of the motion
    std::optional<Ratio> turns_per_driver_turn;  // nothing where it depends on a missing driver
};

struct MemberRate {
    MemberIndex member;
    Combination combination;
    std::optional<Ratio> turns_per_driver_turn;  // against the frame
    std::optional<Ratio> rpm;                    // against the frame; nothing where no driver has a speed
};

// Everything that `couple` knows of one setting.
struct CouplingSheet {
    Setting setting;
    Motion motion;
    std::optional<Explanation> explanation;  // where the outcome is not moves
    std::optional<Drive> reference_driver;   // that "per driver turn" refers to
    std::vector<MemberRate> members;
    std::vector<JointRate> joints;
    std::vector<Coupling> couplings;
};

struct CoupleOptions {
    TypableLimits limits;
    // The joint to couple from; nothing: the reference driver's. Only for the default couplings.
    std::optional<Joint> from;

    friend bool operator==(const CoupleOptions&, const CoupleOptions&) = default;
};

// The couplings that the train asks for; where it asks for none, those from one joint to every other one. With freedom
// 1 that is the smallest set that moves n joints: n - 1 couplings. The train must have no faults.
[[nodiscard]] CouplingSheet couple(const Train& train, const Setting& setting, const CoupleOptions& options);

}  // namespace couplet
