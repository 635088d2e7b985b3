#include "app/disc_button.hpp"

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <string>

namespace couplet {

namespace {

constexpr float kIconPerDisc = 0.58F;

// With the alpha that ImGui is drawing with: a notice that fades takes its buttons along.
ImU32 faded(const ImVec4& of) {
    return colour(of, ImGui::GetStyle().Alpha);
}

float width_of(const ImFont& font, std::string_view text) {
    return font.CalcTextSizeA(font.FontSize, FLT_MAX, 0, text.data(), text.data() + text.size()).x;
}

bool goes_on(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

}  // namespace

void draw_disc(Screen& screen, Icon icon, ImVec2 middle, const DiscLook& look, bool lit, bool enabled) {
    const Theme& theme = *screen.theme;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float radius = 0.5F * screen.px(look.diameter_u);
    const bool filled = look.filled && enabled;
    ImVec4 ground = filled ? *look.filled : lit ? theme.row_lit : theme.field;
    ground.w = filled || lit || look.has_ring ? 1.0F : 0.0F;
    if (ground.w > 0) list.AddCircleFilled(middle, radius, faded(ground), 0);
    if (look.has_ring) {
        const ImVec4& ring = filled ? (lit ? theme.ink : *look.filled) : enabled ? theme.panel_edge : theme.line;
        list.AddCircle(middle, radius - 0.5F * screen.scale, faded(ring), 0, screen.px(1.2F));
    }
    const ImVec4& ink = !enabled ? theme.panel_edge : filled ? theme.on_accent : theme.ink;
    draw_icon(list, icon, middle, screen.px(look.diameter_u) * kIconPerDisc, faded(ink));
}

bool disc_button(Screen& screen, Icon icon, std::string_view name, std::string_view value, ImVec2 middle,
                 const DiscLook& look, bool enabled) {
    const float side = screen.px(look.diameter_u);
    ImGui::SetCursorScreenPos({middle.x - 0.5F * side, middle.y - 0.5F * side});
    ImGui::BeginDisabled(!enabled);
    const bool clicked = ImGui::InvisibleButton(std::string(name).c_str(), {side, side});
    ImGui::EndDisabled();
    draw_disc(screen, icon, middle, look, enabled && ImGui::IsItemHovered(), enabled);
    if (has_keyboard())
        ImGui::GetWindowDrawList()->AddCircle(middle, 0.5F * side + screen.px(2.5F), colour(screen.theme->accent), 0,
                                              screen.px(2));
    say(screen, "button", name, std::string(value), enabled);
    return clicked && enabled;
}

bool has_keyboard() {
    return ImGui::IsItemFocused() && ImGui::GetIO().NavVisible;
}

std::string fitted(std::string_view text, const ImFont& font, float width) {
    if (width_of(font, text) <= width) return std::string(text);
    const std::string ellipsis = "\xE2\x80\xA6";
    const float room = width - width_of(font, ellipsis);
    // As many bytes as fit, by halving; the widths of longer beginnings only grow.
    std::size_t fits = 0;
    std::size_t too_many = text.size();
    while (fits + 1 < too_many) {
        const std::size_t tried = (fits + too_many) / 2;
        (width_of(font, text.substr(0, tried)) <= room ? fits : too_many) = tried;
    }
    while (fits > 0 && goes_on(text[fits])) --fits;  // a character stays whole
    while (fits > 0 && text[fits - 1] == ' ') --fits;
    return std::string(text.substr(0, fits)) + ellipsis;
}

void draw_text(ImFont* font, ImVec2 at, const ImVec4& ink, std::string_view text) {
    ImGui::GetWindowDrawList()->AddText(font, font->FontSize, {std::round(at.x), std::round(at.y)}, faded(ink),
                                        text.data(), text.data() + text.size());
}

void draw_text_round(ImFont* font, ImVec2 top_middle, const ImVec4& ink, std::string_view text) {
    draw_text(font, {top_middle.x - 0.5F * width_of(*font, text), top_middle.y}, ink, text);
}

}  // namespace couplet
