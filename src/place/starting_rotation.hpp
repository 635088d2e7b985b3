// Starting rotation: how far each gear is turned from how it is drawn, so that all teeth meet gaps in the start pose.
//
// Exact, in turns; counter-clockwise is positive. A gear of N teeth turned by phi has teeth at phi + k / N; for a ring
// a tooth is its metal. At direction t its phase is u = (t - phi) N.
//
//     external   u_A(t) + u_B(t + 1/2) = 1/2   (mod 1)    t from A to B
//     internal   u_planet(t) - u_ring(t) = 1/2 (mod 1)    t from the ring's axis to the planet's
//
// METHOD    1  From the first gear, every mesh gives its partner's rotation modulo one of the partner's teeth.
//           2  When no mesh leads on, a body with several gears does: a further gear that nothing has set yet is drawn
//           in
//              line with the body's first one, or at the angle that an earlier copy of the body needed.
//           3  When nothing leads on, the next gear begins at 0.
//           4  Every mesh between gears that are both set closes a loop: by how much it misses is exact, in pitches. A
//              body whose gears are all set closes one too: all copies must have the same angle between their gears,
//              modulo 1 / lcm of the teeth, since a body may stand on any of its teeth.
// (Derivation: walking along the common tangent at the contact, A shows its teeth in one sense and B in the other.)
#pragma once

#include <vector>

#include "place/placement.hpp"

namespace couplet {

// What a gear has on +X as its modeller draws it.
enum class Drawn { tooth, gap };

// Copies of a body with several gears: all alike, with one angle between their gears; or each made with its own.
enum class Copies { alike, timed_each };

struct StartOptions {
    Drawn drawn = Drawn::tooth;
    Copies copies = Copies::alike;
    Ratio first_gear_deg = 0;  // starting rotation of the train's first gear
};

// One gear of one place. Where copies are alike and a copy does not fit, its further gears stand where the common angle
// puts them, and their meshes miss.
struct GearStart {
    GearIndex gear;
    PlaceIndex place;
    Angle tooth;  // where a tooth stands, in turns: the rotation plus half a pitch where a gap is drawn on +X
    ShownAngle starting_rotation;  // in [0, one pitch)
    // What a copy still lacks after the first copy, rightly turned, was moved and rotated round the centre: within half
    // a pitch of 0; 0 for the first copy.
    ShownAngle extra_turn;
};

// One place as a rigid body, for members with gears.
struct BodyStart {
    PlaceIndex place;
    // Turns that set every gear of the body right at once, in [0, 360), where the gears stand at the common angles.
    ShownAngle rotation;
    ShownAngle extra_turn;  // as above, modulo what turns the whole body into itself
    bool fits =
        true;  // false: this copy needs other angles between its gears than the first copy; with these it misses least
};

// The angle that a further gear of a body needs to its first gear, both as drawn.
struct TimingMark {
    GearIndex gear;
    PlaceIndex place;
    ShownAngle relative;  // in [0, one pitch of the further gear)
};

// A loop that closes at a mesh, or at a body with several gears.
struct RotationLoop {
    PlacedMeshIndex mesh;  // -1: at a body
    GearIndex gear;        // at a body: the further gear
    PlaceIndex place;      // the copy whose standing elsewhere could mend it
    // What is missing, in periods, within half of 0: pitches at a mesh, 1 / lcm of the teeth at a body.
    Angle miss_periods;
    double miss = 0.0;        // its value
    Ratio periods_per_turn;   // how the miss grows as the copy moves round its centre; 0: no copy can move
    ShownAngle miss_of_gear;  // as a turn of the gear at `place`
};

// A loop that misses by less than this part of a period closes: far below what any tooth is made to, far above the
// rounding of directions.
inline constexpr double kClosedLoop_periods = 1e-9;

struct StartingRotations {
    Drawn drawn = Drawn::tooth;
    Copies copies = Copies::alike;
    std::vector<GearStart> gears;          // by place, then by gear of its member
    std::vector<int> first_gear;           // by place: where its gears begin in `gears`
    std::vector<BodyStart> bodies;         // in the order of the places
    std::vector<TimingMark> timing_marks;  // of bodies whose gears do not stand in line as drawn
    std::vector<RotationLoop> loops;

    // The gear must be one of the place's member.
    [[nodiscard]] const GearStart& of(GearIndex gear, PlaceIndex place) const;
};

[[nodiscard]] StartingRotations starting_rotations(const Train& train, const Placement& placement,
                                                   const StartOptions& options = {});

// By how much a mesh misses, in pitches within half of 0, with teeth where `rotations` puts them.
[[nodiscard]] Angle mesh_miss_pitches(const Train& train, const Placement& placement,
                                      const StartingRotations& rotations, const PlacedMesh& mesh);

}  // namespace couplet
