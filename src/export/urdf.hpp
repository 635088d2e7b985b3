// URDF: a train as a robot description, its meshes in files beside it.
//
// A link for each copy of a member and one for the frame; a joint for each copy, about its own axis, in the order of
// the riding: continuous where it turns in the setting, fixed where it stands. One joint leads, the driver's own where
// that turns; every other one follows it by <mimic>, at the exact ratio of the two joints, rounded once to a double.
// All joints are at zero in the scene's start pose, where every tooth meets its gap: starting rotations are turned into
// the meshes' poses, and every offset is 0. Lengths in metres; a mesh is in mm and is scaled.
//
// Source: the XML specification of URDF, joint and link elements (from memory; files are read back by its own parser).
#pragma once

#include <string>
#include <vector>

#include "export/member_body.hpp"

namespace couplet {

struct UrdfOptions {
    std::string mesh_folder;  // where the meshes are, as the description names it: "capstan_meshes"
};

// The file of each body's mesh, by body (stl.hpp makes it).
[[nodiscard]] std::vector<std::string> mesh_file_names(const std::vector<MemberBody>& bodies);

// ExportRefused where the setting does not move, where it has more than one driver to follow, and where a ratio is
// beyond what a double can hold.
[[nodiscard]] std::string urdf_of(const ExportModel& model, const std::vector<MemberBody>& bodies,
                                  const UrdfOptions& options);

}  // namespace couplet
