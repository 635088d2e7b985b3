#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/disc_button.hpp"
#include "app/frame_parts.hpp"

namespace couplet {

namespace {

constexpr std::size_t kMostShown = 3;
constexpr double kFading_s = 0.5;
constexpr float kWidth_u = 480;
constexpr float kSign_u = 18;

struct Sign {
    Icon icon;
    ImVec4 ink;
    const char* kind;
};

Sign sign_of(const Theme& theme, Notice::Kind kind) {
    switch (kind) {
        case Notice::Kind::note:
            return {Icon::more, theme.accent, "note"};
        case Notice::Kind::question:
            return {Icon::question, theme.driver, "question"};
        case Notice::Kind::error:
            return {Icon::bad, theme.bad, "error"};
    }
    return {};
}

// 1, and falling to 0 in a note's last half second.
float alpha_of(const Notice& notice, double now_s) {
    if (notice.fades_at_s <= 0) return 1;
    return static_cast<float>(std::clamp((notice.fades_at_s - now_s) / kFading_s, 0.0, 1.0));
}

// A bar of the kind's colour down the card's left edge.
void draw_edge(Screen& screen, const Sign& sign) {
    const ImVec2 from = ImGui::GetWindowPos();
    const ImVec2 to(from.x + screen.px(5), from.y + ImGui::GetWindowHeight());
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.PushClipRect(from, to);  // beyond the window's padding, at which ImGui cuts
    list.AddRectFilled(from, {to.x + screen.px(8), to.y}, colour(sign.ink, ImGui::GetStyle().Alpha), screen.px(8));
    list.PopClipRect();
}

void draw_sign(Screen& screen, const Sign& sign) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 middle(at.x + 0.5F * screen.px(kSign_u), at.y + 0.5F * ImGui::GetTextLineHeight());
    draw_icon(*ImGui::GetWindowDrawList(), sign.icon, middle, screen.px(kSign_u),
              colour(sign.ink, ImGui::GetStyle().Alpha));
}

void draw_line(Screen& screen, int number, const std::string& text, bool faulty, ImVec2 from, ImVec2 to) {
    const Theme& theme = *screen.theme;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float numbers = screen.px(46);
    const float baseline = from.y + screen.px(3);
    if (faulty) {
        list.AddRectFilled(from, to, colour(theme.row_lit));
        list.AddRectFilled(from, {from.x + screen.px(4), to.y}, colour(theme.bad));
    }
    const std::string label = std::to_string(number);
    const float width = screen.fonts.small->CalcTextSizeA(screen.fonts.small->FontSize, 1e9F, 0, label.c_str()).x;
    draw_text(screen.fonts.small, {from.x + numbers - screen.px(8) - width, baseline}, faulty ? theme.bad : theme.faint,
              label);
    list.AddLine({from.x + numbers, from.y}, {from.x + numbers, to.y}, colour(theme.line), screen.scale);
    draw_text(screen.fonts.small, {from.x + numbers + screen.px(8), baseline}, theme.ink,
              fitted(text, *screen.fonts.small, to.x - from.x - numbers - screen.px(16)));
    list.AddLine({from.x, to.y}, to, colour(theme.line), screen.scale);
    say(screen, faulty ? "faulty line" : "line", fmt::format("line {}", number), text, from, to);
}

// The lines of the file in a ruled block.
void draw_excerpt(Screen& screen, const Notice::Excerpt& excerpt) {
    const float height = std::round(screen.fonts.small->FontSize + screen.px(7));
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const ImVec2 to(from.x + ImGui::GetContentRegionAvail().x,
                    from.y + height * static_cast<float>(excerpt.lines.size()));
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(from, to, colour(screen.theme->field));
    int number = excerpt.first_line;
    float top = from.y;
    for (const std::string& line : excerpt.lines) {
        draw_line(screen, number, line, number == excerpt.error_line, {from.x, top}, {to.x, top + height});
        top += height;
        ++number;
    }
    list.AddRect(from, to, colour(screen.theme->panel_edge), 0, 0, screen.scale);
    ImGui::Dummy({to.x - from.x, to.y - from.y});
}

void draw_actions(Screen& screen, const Notice& notice, std::size_t position, Edits& edits) {
    for (std::size_t i = 0; i < notice.actions.size(); ++i) {
        const std::string& name = notice.actions[i].name;
        const float width = ImGui::CalcTextSize(name.c_str()).x + screen.px(24);
        const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
        if (i > 0 && ImGui::GetItemRectMax().x + ImGui::GetStyle().ItemSpacing.x + width <= right) ImGui::SameLine();
        if (button(screen, name, i == 0 ? ButtonKind::main : ButtonKind::plain)) edits.ask(Answer{position, i});
    }
}

void draw_text_of(Screen& screen, const Notice& notice, const Sign& sign) {
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + ImGui::GetContentRegionAvail().x - screen.px(26));
    ImGui::TextUnformatted(notice.text.data(), notice.text.data() + notice.text.size());
    ImGui::PopTextWrapPos();
    say(screen, "notice", sign.kind, notice.text);
}

void draw_inside(Screen& screen, const Notice& notice, std::size_t position, Edits& edits) {
    const Sign sign = sign_of(*screen.theme, notice.kind);
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const float right = from.x + ImGui::GetContentRegionAvail().x;
    draw_edge(screen, sign);
    draw_sign(screen, sign);
    const float indent = screen.px(kSign_u + 10);
    ImGui::Indent(indent);
    draw_text_of(screen, notice, sign);
    if (notice.excerpt) draw_excerpt(screen, *notice.excerpt);
    if (!notice.actions.empty()) draw_actions(screen, notice, position, edits);
    ImGui::Unindent(indent);
    const ImVec2 corner(right - screen.px(9), from.y + 0.5F * ImGui::GetTextLineHeight());
    if (disc_button(screen, Icon::cross, "##dismiss", "", corner, {20, {}, false}))
        edits.ask(Answer{position, notice.actions.size()});
    tip(screen, "take it away");
}

// What a card is called before the names of its widgets: by what it is about, where it says so.
std::string card_name(const Notice& notice, std::size_t position) {
    return "notices/" + (notice.about.empty() ? std::to_string(position + 1) : notice.about);
}

// Gives its height.
float draw_card(Screen& screen, const Session& session, Edits& edits, std::size_t position, ImVec2 top_middle,
                float width) {
    const Notice& notice = session.notices[position];
    const float alpha = alpha_of(notice, session.now_s);
    if (alpha < 1) screen.wants_frame = true;
    screen.panel = card_name(notice, position);
    ImGui::SetNextWindowPos(top_middle, 0, {0.5F, 0});
    ImGui::SetNextWindowSize({width, 0});
    // Not 0: ImGui would leave out a window that cannot be seen, and its card would be said no more.
    ImGui::PushStyleVar(ImGuiStyleVar_Alpha, std::max(alpha, 0.02F));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, screen.px(8));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, screen.scale);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {screen.px(16), screen.px(12)});
    ImGui::Begin(screen.panel.c_str(), nullptr,
                 kPartOfFrame | ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoFocusOnAppearing);
    ImGui::PopStyleVar(3);
    draw_inside(screen, notice, position, edits);
    const float height = ImGui::GetWindowHeight();
    ImGui::End();
    ImGui::PopStyleVar();
    return height;
}

// How many older ones wait for these to go.
void draw_rest(Screen& screen, std::size_t count, ImVec2 top_middle) {
    const std::string text = fmt::format("and {} more", count);
    const ImVec2 size = screen.fonts.small->CalcTextSizeA(screen.fonts.small->FontSize, 1e9F, 0, text.c_str());
    const ImVec2 pad(screen.px(8), screen.px(4));
    const ImVec2 from(std::round(top_middle.x - 0.5F * size.x - pad.x), top_middle.y);
    const ImVec2 to(from.x + size.x + 2 * pad.x, from.y + size.y + 2 * pad.y);
    ImDrawList& list = *ImGui::GetBackgroundDrawList();
    list.AddRectFilled(from, to, colour(screen.theme->panel), screen.px(5));
    list.AddText(screen.fonts.small, screen.fonts.small->FontSize, {from.x + pad.x, from.y + pad.y},
                 colour(screen.theme->faint), text.c_str());
    screen.panel = "notices";
    say(screen, "text", "rest", text, from, to);
}

}  // namespace

void draw_notices(Screen& screen, const Session& session, Edits& edits, const Places_px& places) {
    const std::size_t count = session.notices.size();
    const std::size_t older = count > kMostShown ? count - kMostShown : 0;
    const float room = places.stage_to.x - places.stage_from.x - 2 * screen.px(12);
    const float width = std::clamp(room, screen.px(220), screen.px(kWidth_u));
    ImVec2 at(std::round(0.5F * (places.stage_from.x + places.stage_to.x)), places.stage_from.y + screen.px(14));
    for (std::size_t i = older; i < count; ++i) at.y += draw_card(screen, session, edits, i, at, width) + screen.px(8);
    if (older > 0) draw_rest(screen, older, at);
    screen.panel = "notices";
}

}  // namespace couplet
