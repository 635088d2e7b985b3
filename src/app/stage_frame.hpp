// Stage frame: the camera as the user handles it, and as it stands so that the train shows between the panels.
//
// The stage fills the window behind everything. The handled camera looks at its target through the middle of what the
// panels leave free; the shown one is that camera moved sideways. Window coordinates as in camera.hpp.
#pragma once

#include "app/frame_parts.hpp"
#include "view/camera.hpp"

namespace couplet {

// Middle of the free part, in [-1, 1].
[[nodiscard]] glm::dvec2 free_middle(const Places_px& places);

[[nodiscard]] Camera shown_camera(const Camera& handled, const Places_px& places);

// The camera, its direction kept, so that everything shows within the free part.
[[nodiscard]] Camera fitted_between(const Camera& camera, const Stage& stage, const StageLook& look,
                                    const Places_px& places);

// Where the smallest gap of a mesh (its position in MeshProof::meshes) lies on the stage now, in the observer's frame,
// at the top of its gears: between two flanks, wherever they have come to; or beside them, at the instant of the proof.
// Nothing where there is no such proof, or where no flanks are in reach of each other now.
[[nodiscard]] std::optional<glm::dvec3> gap_on_stage(const Session& session, const Standing& standing,
                                                     std::size_t mesh);
// The crank at the instant of that gap, and a camera close above it.
void go_to_gap(Session& session, const Places_px& places, std::size_t mesh);

// A point of the window (pixels, from the top left) in [-1, 1].
[[nodiscard]] glm::dvec2 in_window(ImVec2 point_px, ImVec2 window_px);

}  // namespace couplet
