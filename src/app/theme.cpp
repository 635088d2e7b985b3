#include "app/theme.hpp"

#include <cmath>
#include <span>

#include "view/text.hpp"

namespace couplet {

namespace {

ImVec4 rgb(unsigned hex, float alpha = 1.0F) {
    return {static_cast<float>(hex >> 16U & 255U) / 255.0F, static_cast<float>(hex >> 8U & 255U) / 255.0F,
            static_cast<float>(hex & 255U) / 255.0F, alpha};
}

// Paper and brass.
const Theme kLight = {
    .panel = rgb(0xFBF8F1, 0.97F),
    .panel_edge = rgb(0xCFC6B2),
    .field = rgb(0xFFFFFF),
    .row = rgb(0xF1EBDD),
    .row_lit = rgb(0xEFDFB4),
    .ink = rgb(0x1D2A35),
    .faint = rgb(0x5F6B75),
    .line = rgb(0xDDD5C4),
    .accent = rgb(0x7E5C12),
    .on_accent = rgb(0xFFFDF7),
    .driver = rgb(0x075A9C),
    .held = rgb(0xB54708),
    .good = rgb(0x00704F),
    .caution = rgb(0x8A5A00),
    .bad = rgb(0xA61E1E),
    .backdrop = {{0.60F, 0.585F, 0.56F}, {0.25F, 0.25F, 0.255F}, {0.42F, 0.425F, 0.435F}},
};

// The bench by night.
const Theme kDark = {
    .panel = rgb(0x161D25, 0.97F),
    .panel_edge = rgb(0x36424F),
    .field = rgb(0x0D1218),
    .row = rgb(0x202A35),
    .row_lit = rgb(0x3A3A24),
    .ink = rgb(0xEAE6DB),
    .faint = rgb(0x9DA8B2),
    .line = rgb(0x2E3945),
    .accent = rgb(0xDDB04A),
    .on_accent = rgb(0x15191E),
    .driver = rgb(0x63B7F4),
    .held = rgb(0xFF9A5C),
    .good = rgb(0x3CCB9F),
    .caution = rgb(0xF0C04A),
    .bad = rgb(0xFF8A7E),
    .backdrop = {{0.155F, 0.16F, 0.17F}, {0.035F, 0.04F, 0.05F}, {0.075F, 0.085F, 0.10F}},
};

ImFont* font_of(std::span<const std::byte> file, float size_px) {
    // Latin with its neighbours, Greek, punctuation, arrows, fractions: what B612 has of them.
    static constexpr ImWchar kLetters[] = {0x20,   0x24F,  0x370,  0x3FF,  0x2010, 0x2027, 0x2030, 0x205E,
                                           0x2070, 0x209F, 0x2150, 0x21FF, 0x2200, 0x22FF, 0};
    ImFontConfig how;
    how.FontDataOwnedByAtlas = false;
    how.OversampleH = 2;
    how.OversampleV = 1;
    how.PixelSnapH = true;
    // Dear ImGui reads the bytes and leaves them alone.
    auto* bytes = const_cast<std::byte*>(file.data());  // NOLINT(cppcoreguidelines-pro-type-const-cast)
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(bytes, static_cast<int>(file.size()), std::round(size_px), &how,
                                                      kLetters);
}

}  // namespace

const Theme& theme_of(Daylight light) {
    return light == Daylight::light ? kLight : kDark;
}

void colour_style(const Theme& theme) {
    ImVec4* of = ImGui::GetStyle().Colors;
    const ImVec4 none(0, 0, 0, 0);
    of[ImGuiCol_Text] = theme.ink;
    of[ImGuiCol_TextDisabled] = theme.faint;
    of[ImGuiCol_WindowBg] = theme.panel;
    of[ImGuiCol_ChildBg] = none;
    of[ImGuiCol_PopupBg] = theme.panel;
    of[ImGuiCol_PopupBg].w = 1.0F;
    of[ImGuiCol_Border] = theme.panel_edge;
    of[ImGuiCol_BorderShadow] = none;
    of[ImGuiCol_FrameBg] = theme.field;
    of[ImGuiCol_FrameBgHovered] = theme.field;
    of[ImGuiCol_FrameBgActive] = theme.field;
    of[ImGuiCol_ScrollbarBg] = none;
    of[ImGuiCol_ScrollbarGrab] = theme.line;
    of[ImGuiCol_ScrollbarGrabHovered] = theme.panel_edge;
    of[ImGuiCol_ScrollbarGrabActive] = theme.accent;
    of[ImGuiCol_CheckMark] = theme.accent;
    of[ImGuiCol_SliderGrab] = theme.accent;
    of[ImGuiCol_SliderGrabActive] = theme.accent;
    of[ImGuiCol_Button] = theme.row;
    of[ImGuiCol_ButtonHovered] = theme.row_lit;
    of[ImGuiCol_ButtonActive] = theme.row_lit;
    of[ImGuiCol_Header] = theme.row;
    of[ImGuiCol_HeaderHovered] = theme.row_lit;
    of[ImGuiCol_HeaderActive] = theme.row_lit;
    of[ImGuiCol_Separator] = theme.line;
    of[ImGuiCol_TableHeaderBg] = none;
    of[ImGuiCol_TableBorderStrong] = theme.line;
    of[ImGuiCol_TableBorderLight] = theme.line;
    of[ImGuiCol_TableRowBg] = none;
    of[ImGuiCol_TableRowBgAlt] = none;
    of[ImGuiCol_TextSelectedBg] = theme.row_lit;
    of[ImGuiCol_NavHighlight] = theme.accent;
}

Fonts dress(const Theme& theme, float scale) {
    ImGuiStyle& style = ImGui::GetStyle();
    style = ImGuiStyle();
    style.WindowRounding = 0;
    style.WindowBorderSize = 0;
    style.WindowPadding = {16, 14};
    style.FramePadding = {8, 5};
    style.FrameRounding = 4;
    style.FrameBorderSize = 1;
    style.PopupRounding = 6;
    style.PopupBorderSize = 1;
    style.ItemSpacing = {8, 7};
    style.ItemInnerSpacing = {6, 4};
    style.CellPadding = {6, 3};
    style.ScrollbarSize = 10;
    style.ScrollbarRounding = 5;
    style.GrabRounding = 6;
    style.GrabMinSize = 12;
    style.ScaleAllSizes(scale);
    style.FrameBorderSize = style.PopupBorderSize = std::round(scale);
    colour_style(theme);
    ImGui::GetIO().Fonts->Clear();
    Fonts fonts;
    fonts.text = font_of(font_file(), 14.5F * scale);
    fonts.bold = font_of(bold_font_file(), 14.5F * scale);
    fonts.small = font_of(font_file(), 12.0F * scale);
    fonts.large = font_of(bold_font_file(), 21.0F * scale);
    return fonts;
}

}  // namespace couplet
