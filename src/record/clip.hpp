// Clip: all that its frames are drawn from, as plain values.
#pragma once

#include <glm/vec2.hpp>

#include "record/camera_path.hpp"
#include "record/captions.hpp"
#include "record/schedule.hpp"
#include "view/exposure.hpp"
#include "view/stage.hpp"

namespace couplet {

struct Clip {
    Stage stage;
    Schedule schedule;
    StageLook look;
    CameraPath path;
    CaptionChoice captions;
    Quality quality = kStillQuality;
    Grain grain;
    glm::ivec2 size_px{1920, 1080};
};

// How long the shutter is open, as a part of the time from frame to frame (half is what cinematography calls 180
// degrees; common practice).
inline constexpr int kOpenPart = 2;

// What one of the frame's drawings shows; drawing 0 of grain.drawings is the instant of the frame itself.
[[nodiscard]] Picture picture_at(const Clip& clip, int frame, int drawing = 0);

}  // namespace couplet
