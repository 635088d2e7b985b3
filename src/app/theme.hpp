// Theme: the window's colours and sizes, by daylight and scale.
//
// Colours that mean something are told apart by colour-blind eyes (blue, orange and green of different lightness, after
// M. Okabe and K. Ito, Color Universal Design, 2008, from memory) and never stand without a sign or a word. sRGB.
#pragma once

#include <imgui.h>

#include "app/keepsakes.hpp"
#include "view/picture.hpp"

namespace couplet {

struct Theme {
    ImVec4 panel, panel_edge, field, row, row_lit;  // grounds
    ImVec4 ink, faint, line;
    ImVec4 accent, on_accent;  // what is chosen
    ImVec4 driver, held;       // roles of members
    ImVec4 good, caution, bad;
    Backdrop backdrop;
};

[[nodiscard]] const Theme& theme_of(Daylight light);

// Fonts of the window; sizes in pixels follow the scale.
struct Fonts {
    ImFont* text = nullptr;   // 14.5 px at scale 1
    ImFont* bold = nullptr;   // the same
    ImFont* small = nullptr;  // 12
    ImFont* large = nullptr;  // 21, bold
};

// Puts the colours into the style of the ImGui context that is current.
void colour_style(const Theme& theme);
// Colours, sizes and fonts, for the scale; the backend has to make its image of the letters anew.
[[nodiscard]] Fonts dress(const Theme& theme, float scale);

}  // namespace couplet
