// Faults: what makes a Train impossible to read as a gear train at all.
//
// Facts about the description, not about a setting: a train with faults has no equations of motion. A train without
// faults may still be locked or free; that is an outcome (motion/). Geometry is not looked at here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "train/train.hpp"

namespace couplet {

// The list of the Train in which the faulty entry stands, for whoever knows the entry's line in a file.
enum class TrainList { members, gears, meshes, settings, joints, shots };

struct TrainFault {
    TrainList list;
    std::size_t position;
    // What of the entry is at fault, as a scene file calls it ("on", "gears", "hold"); empty: the entry as a whole.
    std::string key;
    std::string wrong;  // "member 'a' rides on itself by way of 'b'"
    std::string right;  // "what a member rides on must lead to the frame"
};

// Every fault, in the order of the lists. Names cycles of riding, meshes without an arm, two gears of one member in
// mesh, two internal gears in mesh, a member held, tied or driven twice, ties of a member to itself or to the frame,
// joints of a member against itself, shots that do not rise, numbers outside the limits of train.hpp. Time
// linear in the size of the train.
[[nodiscard]] std::vector<TrainFault> faults(const Train& train);

// The arm of a mesh: the member in which both axes stand still. That is what both gears ride on, or what the one
// rides on whose axis is carried by a member beside the other (a planet's carrier beside a sun); nothing where there
// is none. kFrame is an arm.
[[nodiscard]] std::optional<MemberIndex> arm_of(const Train& train, const Mesh& mesh);

}  // namespace couplet
