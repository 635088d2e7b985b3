// Assembly: whether all copies can be put in, by how much they miss, and where they could stand instead.
//
// Judged by the loops of meshes themselves (starting_rotation.hpp); the texts' conditions are given beside them with
// their arithmetic. Angles in degrees, lengths in mm.
//
//     simple    (S + R) / n whole                            S, R sun and ring teeth, n equal copies
//     stepped   (S P2 + R P1) / (n gcd(P1, P2)) whole        P1 in mesh with S, P2 with R, on one body
//     paired    (R - S) / n whole                            S - P1 - P2 - R
// (Texts on planetary gears, from memory; a central gear that is external where R stands, or internal where S stands,
// counts with the other sign.) Copies may stand at multiples of the least mesh angle, 360 over that sum.
#pragma once

#include <optional>
#include <vector>

#include "place/starting_rotation.hpp"

namespace couplet {

enum class AssemblyOutcome { assembles, does_not_assemble };
enum class AssemblyForm { simple, stepped, paired };

struct AssemblyCondition {
    AssemblyForm form;
    // The way from one central gear to the other: central gear, planet's gear, planet's gear (the same one where
    // simple), central gear.
    GearIndex first_central;
    GearIndex first_planet;
    GearIndex second_planet;
    GearIndex second_central;
    Ratio sum;  // whole, above 0; 0: every place suits
    int copies = 1;
    std::optional<Ratio> quotient;              // sum / copies, where the copies are equally spaced
    bool holds = true;                          // of the places that the copies have
    std::optional<Ratio> least_mesh_angle_deg;  // 360 / sum; nothing where every place suits
};

// A copy that does not fit where it stands.
struct MisplacedCopy {
    PlaceIndex place;
    Ratio stands_at_deg;   // from the first copy
    ShownAngle misses_by;  // the smallest way round its centre to a place that suits; 0: no place suits all its loops
    // The nearest places below and above, from the first copy; exact where the miss is.
    std::optional<ShownAngle> below;
    std::optional<ShownAngle> above;
};

// The nearer of the two, from the first copy; nothing where there is none that is exact.
[[nodiscard]] std::optional<Ratio> nearest_place_deg(const MisplacedCopy& copy);

// Places are written into a train with so many decimals of a degree: no tooth can tell the difference.
inline constexpr int kPlaceDecimals = 12;

struct NeighbourClearance {
    PlaceIndex first;
    PlaceIndex second;
    double clearance_mm = 0.0;  // between tip circles; negative: they collide
};

// Which teeth meet again. gcd 1: a hunting pair, each tooth meets all of the other gear.
struct Hunting {
    MeshIndex mesh;
    int phases = 1;       // gcd of the teeth
    int first_turns = 1;  // turns of the first gear, against the arm, until the same teeth meet
    int second_turns = 1;
};

struct Assembly {
    AssemblyOutcome outcome = AssemblyOutcome::assembles;
    std::vector<AssemblyCondition> conditions;
    std::vector<MisplacedCopy> misplaced;
    std::vector<NeighbourClearance>
        clearances;                 // the closest pair of each member, and of members in mesh on one carrier
    std::vector<Hunting> hunting;   // by mesh
    std::vector<Finding> findings;  // those of the placement first
};

[[nodiscard]] Assembly assembly_of(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                                   const StartingRotations& rotations);

// Of every member with copies all of which suit their meshes where they stand: that they do, with the largest miss
// left.
[[nodiscard]] std::vector<Finding> suiting_copies(const Train& train, const Placement& placement,
                                                  const StartingRotations& rotations);

// The most equal copies with room between their tip circles; at most kMostCopiesCounted.
inline constexpr int kMostCopiesCounted = 100000;
[[nodiscard]] int most_equal_copies(double centre_distance_mm, double tip_diameter_mm);

[[nodiscard]] Hunting hunting_of(const Train& train, MeshIndex mesh);

}  // namespace couplet
