// Machine: every part that a train needs to stand on a bench and turn, as shapes and where they sit.
//
// Gears as sized, rings with their rims, carriers as plates with pins, shafts with keys, and the stand that carries it
// all. Shapes that are alike are listed once, however many places use them. Frame: the train's own, Z up, the top of
// the stand at z = 0 (it reaches below), lengths in mm. No strength is calculated: proportions are those that such
// exhibits usually have.
#pragma once

#include <cstddef>
#include <vector>

#include "place/starting_rotation.hpp"
#include "solid/shape.hpp"
#include "solid/stack.hpp"

namespace couplet {

// What a part is, for its material.
enum class PartRole { sun_or_wheel, planet, ring, carrier, shaft, fastener, stand };

// One shape at one place, fixed to that place's member.
struct Part {
    std::size_t shape;  // in Machine::shapes
    PlaceIndex
        place;  // whose frame it stands in: origin on the place's axis, level with the frame's z = 0; -1: the frame
    GearIndex gear;  // -1 where it is no gear
    PartRole role;
    double z_mm;        // where the shape's z = 0 is
    double turned_rad;  // how far the shape is turned about its axis in the place's frame; a gear's starting rotation
    PlanePoint offset_mm{};    // of the shape's axis from the place's (a pin on a carrier)
    bool opens = false;        // taken away by a cutaway: what hides the mesh (ring, upper plate)
    int layer = 0;             // rising with z; the spread view pulls layers apart
    bool singles_out = false;  // tells one tooth of its member from another: a key, a ring's screw
};

struct Machine {
    std::vector<Shape> shapes;
    std::vector<Part> parts;
    Stack stack;
    // A cylinder round all that turns, and its middle.
    PlanePoint middle_mm{};
    double radius_mm = 0.0;
    double bottom_mm = 0.0;  // of the stand: the bench top
    double top_mm = 0.0;
};

[[nodiscard]] Machine machine_of(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                                 const StartingRotations& rotations);

}  // namespace couplet
