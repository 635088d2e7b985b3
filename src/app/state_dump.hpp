// State dump: the window in words, as JSON: what a person without eyes, a script or a test can read of it.
//
//   { "couplet": 1, "scene": title, "file": path or null, "saved": bool, "panel": "couple" or null, "setting": name,
//     "trial": bool, "outcome": "moves", "outcome_line": ..., "driver": name or null, "running": bool, "observer":
//     name, "daylight": "light", "scale": 1.0, "window_px": [w, h], "stage_px": [l, t, r, b], "picture": "full",
//     "recording": null or {"target", "state": "recording" or "stopping", "frames_done", "frames": 0 where not yet
//     known}, "frames": n, "stage_frames": n, "undo": what or null, "redo": ..., "dials": [ {"member", "turns":
//     {"exact", "value"}, "held", "driven", "phase_turns": "1/3"} ], "couplings": [ as in `couplet couple` ],
//     "notices": [
//     {"kind", "text", "actions": []} ], "said": [ {"role", "name", "value", "box_px": [l, t, r, b], "enabled"} ],
//     "gl_errors": [] }
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "app/session.hpp"
#include "app/widgets.hpp"

namespace couplet {

struct WindowFacts {
    int width_px = 0;
    int height_px = 0;
    std::array<int, 4> stage_px{};  // what the panels leave free
    std::string picture;            // "full", "light", "half"
    std::uint64_t frames = 0;
    std::uint64_t stage_frames = 0;
    double first_frame_s = 0.0;
    std::vector<std::string> gl_errors;
};

[[nodiscard]] std::string state_dump(const Session& session, const Screen& screen, const WindowFacts& facts);

}  // namespace couplet
