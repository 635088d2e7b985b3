#include <fmt/format.h>

#include "app/keys.hpp"
#include "app/panels.hpp"
#include "sheet/cautions.hpp"

namespace couplet {

namespace {

// Keys as caps, so that they are told from words at a glance.
void draw_cap(Screen& screen, const std::string& text) {
    ImFont* font = screen.fonts.small;
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e6F, 0, text.c_str());
    const ImVec2 whole(size.x + screen.px(12), size.y + screen.px(6));
    ImGui::Dummy(whole);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(from, to, colour(screen.theme->row), screen.px(4));
    list.AddRect(from, to, colour(screen.theme->panel_edge), screen.px(4), 0, screen.scale);
    list.AddText(font, font->FontSize, {from.x + screen.px(6), from.y + screen.px(3)}, colour(screen.theme->ink),
                 text.c_str());
}

// All strokes of one deed, and behind them what it does.
void draw_entry(Screen& screen, std::span<const KeyEntry> same_deed) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    for (const KeyEntry& entry : same_deed) {
        if (&entry != &same_deed.front()) ImGui::SameLine(0, screen.px(4));
        draw_cap(screen, stroke_text(entry.stroke));
    }
    ImGui::TableNextColumn();
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(same_deed.front().words.data(),
                           same_deed.front().words.data() + same_deed.front().words.size());
    ImGui::PopTextWrapPos();
    say(screen, "key", strokes_text(same_deed.front().deed), std::string(same_deed.front().words));
}

void draw_group(Screen& screen, std::span<const KeyEntry> entries) {
    const std::string name(kKeyGroupNames[static_cast<std::size_t>(entries.front().group)]);
    heading(screen, name);
    if (!ImGui::BeginTable(name.c_str(), 2, ImGuiTableFlags_NoSavedSettings)) return;
    ImGui::TableSetupColumn("key", ImGuiTableColumnFlags_WidthFixed, screen.px(158));
    ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch);
    while (!entries.empty()) {
        std::size_t count = 1;
        while (count < entries.size() && entries[count].deed == entries.front().deed) ++count;
        draw_entry(screen, entries.first(count));
        entries = entries.subspan(count);
    }
    ImGui::EndTable();
}

struct Thanks {
    const char* library;
    const char* what_for;
};
constexpr Thanks kThanks[] = {
    {"Dear ImGui", "panels and fields"},
    {"GLFW", "the window"},
    {"glad", "the functions of OpenGL"},
    {"GLM", "vectors and matrices"},
    {"GMP", "whole numbers of any size"},
    {"toml++", "scene files"},
    {"JSON for Modern C++", "JSON sheets"},
    {"CLI11", "the command line"},
    {"{fmt}", "texts"},
    {"libpng and zlib", "stills"},
    {"stb", "letters on the stage"},
    {"B612", "the font"},
};

void draw_about(Screen& screen) {
    heading(screen, "About");
    words(screen, fmt::format("Couplet {}", COUPLET_VERSION));
    words(screen,
          "Works out how a gear train moves, and which angles to type so that a model of it moves the same way. All "
          "ratios are exact; every coupling names both members of both joints.");
    for (const std::string_view caution : kCautions) verdict(screen, Verdict::caution, caution, caution);
    heading(screen, "With thanks to the makers of");
    for (const Thanks& one : kThanks) fact(screen, one.library, one.what_for);
}

}  // namespace

void draw_keys_panel(Screen& screen, const Session& /*session*/, Edits& /*edits*/) {
    std::span<const KeyEntry> entries = key_table();
    while (!entries.empty()) {
        std::size_t count = 1;
        while (count < entries.size() && entries[count].group == entries.front().group) ++count;
        draw_group(screen, entries.first(count));
        entries = entries.subspan(count);
    }
    draw_about(screen);
}

}  // namespace couplet
