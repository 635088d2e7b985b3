// Contacts: where the flanks of a mesh touch at an instant.
//
// The touching points lie on the line of action, the common tangent of both base circles through the pitch point, one
// base pitch apart, within the active path (tooth/active_path.hpp). Which of the two lines it is follows from which
// gear drives. A point lies on the first gear's flank, or half of the play ahead of it, in the middle between both.
// Transverse plane, mm, radians. (Any text on gears.)
#pragma once

#include <optional>
#include <vector>

#include "tooth/gear_pair.hpp"
#include "tooth/profile.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

// The flanks that face counter-clockwise, seen along the first gear's teeth, or the others.
enum class FlankSide { ahead, behind };

struct MeshStanding {
    PlanePoint first_centre_mm;  // of the external gear
    PlanePoint second_centre_mm;
    double first_tooth_rad;  // where one of the first gear's teeth points
    double play_mm = 0.0;    // between the flanks of the side asked for, along the line of action
};

// Nothing where the mesh has no operating angle or no active path.
[[nodiscard]] std::vector<PlanePoint> contact_points(const ToothProfile& first, const MeshSizes& mesh,
                                                     bool second_is_internal, const MeshStanding& standing,
                                                     FlankSide side);
// The one of them nearest to the pitch point.
[[nodiscard]] std::optional<PlanePoint> middle_contact(const ToothProfile& first, const MeshSizes& mesh,
                                                       bool second_is_internal, const MeshStanding& standing,
                                                       FlankSide side);

}  // namespace couplet
