// Icons: the window's signs, drawn by strokes so that they are sharp at every scale. All our own.
#pragma once

#include <imgui.h>

namespace couplet {

enum class Icon {
    scene,
    find,
    size,
    place,
    couple,
    watch,
    record,
    keys,  // the rail's stations
    pin,
    handle,  // of a dial: held, driven
    run,
    stop,
    step_on,
    step_back,
    to_start,
    undo,
    redo,
    copy,  // actions
    plus,
    minus,
    cross,
    more,
    eye,
    sun,
    moon,
    good,
    caution,
    bad,
    question,  // verdicts and help
};

// Within a square of `size` pixels round the middle.
void draw_icon(ImDrawList& list, Icon icon, ImVec2 middle, float size, ImU32 colour);

}  // namespace couplet
