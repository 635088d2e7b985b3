// Diagrams: lever diagram and speed plan of a motion, as facts; whoever draws them decides how.
//
// Lever diagram: the members on a carrier's axis as points of one straight lever, whose distances follow from tooth
// counts and which lies aslant by their speeds (common practice for planetary sets; H. Benford and M. Leising, SAE
// 810102, from memory). Why it is straight: a mesh ties rates against the carrier c in a fixed proportion
// (equations.hpp), so each rate w_m - w_c is a fixed multiple, the height, of one of them. Speed plan: velocities along
// a straight section through axes, each member a straight line over the places that it reaches (Kutzbach's plan; texts
// on planetary gears, from memory). Both take a train without faults and a motion of it.
#pragma once

#include <optional>
#include <vector>

#include "motion/motion.hpp"
#include "place/placement.hpp"

namespace couplet {

// Heights are exact places along the lever: the carrier at 0, the first central gear at 1, the others where their
// meshes through carried members put them (a simple set's ring at -S/R). Points of one lever satisfy (speed_a -
// speed_b) (height_c - height_d) = (speed_c - speed_d) (height_a - height_b).
struct Lever {
    struct Point {
        MemberIndex member;
        Ratio height;
        std::optional<Ratio> speed;  // turns against the frame per driver turn; nothing where it is not known
    };
    MemberIndex carrier;
    std::vector<Point> points;  // by height, falling
};
// For each carrier one lever for each group of central members that mesh through the same carried ones, in the order of
// the train. Empty for trains without carriers.
[[nodiscard]] std::vector<Lever> levers_of(const Train& train, const Motion& motion);

// A straight section through axes that stand in mesh, in the start pose. Places count along it in mm from the foot of
// the arm's axis (on the frame: from the first axis). Velocities are the parts at right angles to the section, in mm
// per radian that the driver turns.
struct PlanSection {
    // The carrier on which the meshes of the section have their axes; kFrame: a train with fixed axes.
    MemberIndex arm;
    // A member's velocity, straight from one place to the other. It holds the member's axis and its pitch points.
    struct Ray {
        MemberIndex member;
        double from_mm;
        double to_mm;
        double velocity_from;
        double velocity_to;

        [[nodiscard]] double velocity_at(double place_mm) const;
    };
    std::vector<Ray> rays;
    // Where two members in mesh have one velocity.
    struct PitchPoint {
        MeshIndex mesh;
        double place_mm;
        double velocity;
    };
    std::vector<PitchPoint> pitch_points;
};
// Through the first copy of each mesh. Meshes whose axes stand in one line share a section; paired planets get one of
// their own. Members whose speed is not known are left out, and a locked or conflicting motion has no sections.
[[nodiscard]] std::vector<PlanSection> speed_plan_of(const Train& train, const Placement& placement,
                                                     const Motion& motion);

}  // namespace couplet
