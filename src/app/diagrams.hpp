// Diagrams: lever diagram and speed plan of the running setting, as small live drawings.
//
// Lever diagram: members on one axis and their carriers as points of one straight lever, whose distances follow from
// tooth counts and whose ends move sideways with speed (common practice for planetary sets; H. Benford and M. Leising,
// SAE 810102, from memory). Speed plan: pitch-line velocities across a section of the train, each member a straight
// ray from its own axis (Kutzbach's plan; texts on planetary gears, from memory).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "motion/motion.hpp"
#include "place/placement.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

// One lever: members that share an axis and mesh through the same carried members. Heights are exact positions along
// the lever (carrier at 0; sun at 1, ring at -S/R in a simple set); speeds are turns per driver turn.
struct Lever {
    struct Point {
        MemberIndex member;
        Ratio height;
        std::optional<Ratio> speed;  // nothing where it is not known
    };
    std::vector<Point> points;  // by height, falling
};
// One lever for each carrier with at least one central gear. Empty for trains without carriers.
[[nodiscard]] std::vector<Lever> levers_of(const Train& train, const Motion& motion);

// One line of the plan: a member's velocity along the line through the axes of a mesh, from one radius to another.
struct SpeedPlan {
    struct Ray {
        MemberIndex member;
        double from_mm;  // places on the section line, from the central axis
        double to_mm;
        double velocity_from;  // mm per driver turn x 2 pi at those places, at right angles to the section
        double velocity_to;
    };
    std::vector<Ray> rays;
};
// Through the first copy of each carried member, in the start pose; for a train on the frame, along its axes.
[[nodiscard]] SpeedPlan speed_plan_of(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                                      const Motion& motion);

}  // namespace couplet
