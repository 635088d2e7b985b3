// Disc button: a round button with an icon, for what always stands on the window: rail, dial row and notices.
#pragma once

#include <optional>
#include <string_view>

#include "app/widgets.hpp"

namespace couplet {

// How it stands there. `filled`: the colour of what it stands for while that is so; none: a bare ring.
struct DiscLook {
    float diameter_u = 28;
    std::optional<ImVec4> filled;
    bool has_ring = true;
};

// A button of ImGui's round `middle`, said by `name` (what stands before "##" is not shown either) and `value`. True
// where it was clicked or pressed by keyboard.
[[nodiscard]] bool disc_button(Screen& screen, Icon icon, std::string_view name, std::string_view value, ImVec2 middle,
                               const DiscLook& look, bool enabled = true);

// The disc alone, for what is clicked over a larger area. `lit`: under the cursor.
void draw_disc(Screen& screen, Icon icon, ImVec2 middle, const DiscLook& look, bool lit, bool enabled = true);

// True where the last item has the keyboard and shows it.
[[nodiscard]] bool has_keyboard();

// The text, or as much of it as is `width` wide in that font with an ellipsis behind it.
[[nodiscard]] std::string fitted(std::string_view text, const ImFont& font, float width);

// Text in a font from a point, or round the middle of its line.
void draw_text(ImFont* font, ImVec2 at, const ImVec4& ink, std::string_view text);
void draw_text_round(ImFont* font, ImVec2 top_middle, const ImVec4& ink, std::string_view text);

// What a window of the frame is not: it has no title, is not moved or sized by hand, and is not remembered.
inline constexpr ImGuiWindowFlags kPartOfFrame = ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                                                 ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoCollapse |
                                                 ImGuiWindowFlags_NoSavedSettings;

}  // namespace couplet
