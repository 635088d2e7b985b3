// Clip choice: what the Record panel has been told of a clip. All that `couplet record` takes, as plain values.
//
// From where the stage is seen, and how it looks, is part of the view itself (view_state.hpp).
#pragma once

#include <glm/vec2.hpp>
#include <optional>
#include <string>

#include "exact/ratio.hpp"
#include "record/camera_path.hpp"
#include "record/captions.hpp"
#include "record/clip_kind.hpp"
#include "record/pacing.hpp"

namespace couplet {

struct ClipChoice {
    ClipKind kind = ClipKind::mp4;  // never `picture`: a clip has many
    std::string target;             // as typed; empty: named after the scene, beside it
    glm::ivec2 size_px{1280, 720};
    std::optional<Ratio> fps;      // none: the kind's usual one
    std::optional<Ratio> seconds;  // none: as a loop needs
    std::optional<LoopKind> loop;  // none: the best
    enum class Settings { running, all };
    Settings settings = Settings::running;  // all: one after the other
    PathKind path = PathKind::turntable;
    enum class Closeness { whole, as_shown };
    Closeness closeness = Closeness::whole;  // the whole machine, or as close as the stage shows it
    CaptionChoice captions;
    bool transparent = false;
    int supersample = 1;  // points a side for each pixel
    int blur = 1;         // drawings for each frame

    friend bool operator==(const ClipChoice&, const ClipChoice&) = default;
};

}  // namespace couplet
