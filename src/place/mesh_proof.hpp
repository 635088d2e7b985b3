// Proof of mesh: the smallest gap between the teeth of every mesh through one full mesh cycle.
//
// INPUT     profiles, places, starting rotations, and the exact motion where there is one.
// OUTPUT    for every mesh of places the smallest gap between flanks on either side and that of everything else
//           (negative: overlap), with place and instant. Lengths in mm, in the normal section (transverse gaps times
//           cos of the base helix).
// ALPHABET  a the distance of the axes as placed, r_b base radii, p_b base pitch, e the miss of the mesh in pitches.
// METHOD    1  In the frame of the arm both gears only turn, and all teeth of a gear are alike: after one pitch the
//              picture repeats. One pitch is the full cycle, at any speed of the arm.
//           2  Flank against flank is exact: the common normal of two involutes is the tangent of both base circles,
//           cos
//              (a_w) = (r_b1 +- r_b2) / a, and along it their distance stays the same all the while. Teeth centred in
//              their gaps have half of the backlash j_b = p_b - (thickness of both at the circles r_b / cos(a_w))
//              cos(a_w) on either side; a miss of e pitches moves e p_b from one side to the other.
//           3  Everything else (tips, fillets, roots, flanks beyond their ends) is seen by the distance of the two
//              outlines where each lies within the other's reach, at steps of the cycle. Sampled to a two-hundredth of
//              the expected gap, and stepped so finely that no more is hidden between two steps: a smallest gap is
//              level in time, so that half a step s of sliding over a curvature of m / 2 or more hides s^2 / m.
//           4  A point of one outline inside the other's metal is an overlap, as deep as its way out.
//           Up to 48 teeth to either side of the line of centres are looked at.
// COST      one sweep over the points in reach per step; meshes that are alike (same gears, distance and miss) are
//           proved once.
#pragma once

#include <optional>
#include <vector>

#include "motion/motion.hpp"
#include "place/starting_rotation.hpp"

namespace couplet {

enum class MeshVerdict {
    meshes,      // both sides show half of the backlash within kProofTolerance
    off_centre,  // no overlap, but a tooth stands nearer to one side of its gap
    overlaps,
    no_contact,  // the flanks never reach each other
    no_profile   // a gear has no profile or the pair no operating angle: nothing to prove
};

enum class GapPlace { flank_ahead, flank_behind, elsewhere };

struct MeshGap {
    PlacedMeshIndex mesh;
    MeshVerdict verdict = MeshVerdict::no_profile;
    // The smallest gap between flanks; where anything else overlaps, or flanks never touch, that of everything else; 0
    // where there is nothing to prove.
    double gap_mm = 0.0;
    double ahead_mm = 0.0;       // on the side of the first (or external) gear's teeth that lies counter-clockwise
    double behind_mm = 0.0;      // on the other side
    double elsewhere_mm = 0.0;   // of tips, fillets and roots where that is smaller than both, else the smaller of both
    double expected_mm = 0.0;    // half of the normal backlash of the pair at its own centre distance
    double resolution_mm = 0.0;  // of elsewhere_mm
    int steps = 0;
    // Of gap_mm:
    GapPlace where = GapPlace::flank_ahead;
    // In the middle of the gap, in the frame, at that instant with the arm in its start pose; at mid face.
    PlanePoint at_mm{};
    Ratio cycle_part;  // the instant, in pitches of the cycle, in [0, 1)
    // The instant in turns of the reference driver, 0 or more; nothing where no motion is given or this mesh stands
    // still.
    std::optional<Ratio> at_driver_turns;
    Ratio at_first_gear_turns;  // the instant in turns of the mesh's first gear against the arm
};

inline constexpr double kProofTolerance = 0.02;

struct MeshProof {
    std::vector<MeshGap> meshes;  // by PlacedMeshIndex
    bool all_mesh = true;
    std::vector<Finding> findings;  // of each mesh that is not true, then one of each mesh that is in all its copies
};

// `motion` may be null; where it does not move, instants are given by the gears' own turns only.
[[nodiscard]] MeshProof prove_mesh(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                                   const StartingRotations& rotations, const Motion* motion);

}  // namespace couplet
