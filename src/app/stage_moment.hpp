// Stage moment: what the stage shows at an instant: the train as the crank has it and the camera as the user holds it,
// or the clip that the Record panel previews, in real time from its beginning, over and over.
#pragma once

#include "app/frame_parts.hpp"
#include "app/session.hpp"

namespace couplet {

struct StageMoment {
    Standing standing;
    Camera shown;
    StageLook look;
    std::optional<int> clip_frame;  // of the clip; none: no preview
};

// A preview needs a clip that can be planned; without, the stage shows what it always does.
[[nodiscard]] StageMoment moment_on_stage(const Session& session, const Places_px& places, double now_s);

// Where the clip's edges lie between the panels, as large as they fit there.
struct ClipEdges {
    ImVec2 from;
    ImVec2 to;
};
[[nodiscard]] ClipEdges clip_edges(const Places_px& places, glm::ivec2 size_px);

// How many times closer than the whole machine the user has come.
[[nodiscard]] double stage_zoom(const Session& session, const Places_px& places);

}  // namespace couplet
