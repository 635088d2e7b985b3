// Stage: a train as a machine on a bench, and the picture of it at any instant.
//
// A Stage is made once per train; standing_at and picture_of are cheap enough for every frame. Poses are exact until
// they become the matrices of one picture: phases are rational turns, reduced modulo one turn before sine and cosine.
// Frames: `frame_from_place` takes a place's coordinates to the frame's; in the start pose all are parallel. The
// observer's frame is the observed member's own, moved so that it agrees with the frame's in the start pose. Lengths in
// mm, Z up, z = 0 on top of the stand.
#pragma once

#include <array>
#include <glm/mat4x4.hpp>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "motion/pose.hpp"
#include "solid/machine.hpp"
#include "view/picture.hpp"

namespace couplet {

struct Stage {
    Train train;
    TrainTeeth teeth;
    Placement placement;
    StartingRotations rotations;
    Machine machine;
    std::vector<int> wheels_before;  // by member: how many members with external gears come before it
    // The machine's shapes: with tooth marks, without, and plain; then the same with sharp edges, for line drawings.
    std::array<std::shared_ptr<const std::vector<Shape>>, 6> shapes;
};

// The train must have no faults. Throws what teeth_of and place_members throw; geometry that does not close still gives
// a stage.
[[nodiscard]] Stage stage_of(const Train& train);

// Where everything stands at an instant.
struct Standing {
    std::vector<glm::dmat4> frame_from_place;  // by PlaceIndex
    std::vector<double> rates_on_frame;  // by member, turns per turn of the driver the way it is driven; for arrows
    std::vector<MemberIndex> drivers;
    bool moves = false;
};

// After `turns` of the reference driver from the start pose. A motion that does not move leaves the start pose.
[[nodiscard]] Standing standing_at(const Stage& stage, const Motion& motion, const Ratio& turns);

// The same at the phases of all joints (motion/pose.hpp); `motion` gives the rates, for arrows.
[[nodiscard]] Standing standing_with(const Stage& stage, const Motion& motion,
                                     const std::vector<Ratio>& joint_phases_turns);

struct StageLook {
    Look look = Look::metal;
    MemberIndex observer = kFrame;
    bool marks = true;
    bool plain = false;  // nothing tells one tooth or one copy from another: no marks, keys, holes or bolts
    bool pitch_circles = false;
    bool centre_lines = false;
    bool arrows = false;
    bool contacts = false;
    bool names = false;
    bool cutaway = false;
    double spread = 0.0;  // 0 to 1: how far the parts are pulled apart along their axes
    bool transparent = false;
    std::optional<MemberIndex> lit_up;
    std::vector<std::optional<Material>> materials;  // by member; none: by what the part is

    friend bool operator==(const StageLook&, const StageLook&) = default;
};

// The camera stands as the caller has put it.
[[nodiscard]] Picture picture_of(const Stage& stage, const Standing& standing, const StageLook& look,
                                 const Camera& camera);

// What the camera has to hold, in the observer's frame: where each part reaches while the machine turns. Never empty.
[[nodiscard]] std::vector<Bounds> reaches_of(const Stage& stage, const StageLook& look);

// A camera turned to the view that holds the whole machine.
[[nodiscard]] Camera camera_for(const Stage& stage, const StageLook& look, NamedView view, double width_over_height);

// The camera moved to look at where the member's axis stands (of its first copy); its height stays.
[[nodiscard]] Camera looking_at(Camera camera, const Stage& stage, const Standing& standing, const StageLook& look,
                                MemberIndex member);

[[nodiscard]] glm::dmat4 observer_from_frame(const Stage& stage, const Standing& standing, MemberIndex observer);

// Takes the coordinates of a place (none: the frame itself) to the frame's.
[[nodiscard]] glm::dmat4 frame_from_place(const Standing& standing, PlaceIndex place);
// How far the look pulls a part up out of its place.
[[nodiscard]] double spread_shift_mm(const Stage& stage, const StageLook& look, const Part& part);
// Takes the coordinates of a part's shape to its place's, as the look has it.
[[nodiscard]] glm::dmat4 place_from_part(const Stage& stage, const StageLook& look, const Part& part);
// The wedge that the look takes out of the parts that open, seen with the camera.
[[nodiscard]] Cut cut_of(const Stage& stage, const StageLook& look, const Camera& camera);

}  // namespace couplet
