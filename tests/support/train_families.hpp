// Train families: the trains by which speed and growth of numbers are measured.
//
// Each has freedom 1 and one driver, the same counts on every machine. A stage is a simple planetary set.
#pragma once

#include "train/train.hpp"

namespace couplet {

struct FamilyTrain {
    Train train;
    Setting setting;
};

// A: each stage shares one member with the next, its carrier being the next one's sun; every ring is held, the first
// sun driven; random counts. The longest such train of at most `members` members (at least 4).
[[nodiscard]] FamilyTrain family_a(int members);

// C: A with the same counts, 30/18/66, in every stage: the ratio's numbers grow the most.
[[nodiscard]] FamilyTrain family_c(int members);

// B: each stage shares two coaxial members with the next: stage k stands on coaxial members k, k+1 and k+2, one of
// which (by chance) carries its planet, so that each stage is a relation of three rates; random counts. The first
// coaxial member is held. The longest such train of at most `members` members (at least 4).
enum class DriverPlace {
    beside_the_held,  // the second coaxial member: the rates follow one from another
    far_end           // the last one: they do not
};
[[nodiscard]] FamilyTrain family_b(int members, DriverPlace place);

// A chain of meshes: each shaft's second gear (five-digit count) drives the first gear of the next one (likewise), so
// that the numbers of its ratio grow by ten digits a mesh.
[[nodiscard]] FamilyTrain compound_chain(int meshes);

// A chain of wheels, each in mesh with the next.
[[nodiscard]] FamilyTrain idler_chain(int members);

// Many small sets on one driven sun shaft, each with a planet, a held ring and a carrier of its own. The longest such
// train of at most `members` members (at least 4).
[[nodiscard]] FamilyTrain many_small_sets(int members);

}  // namespace couplet
