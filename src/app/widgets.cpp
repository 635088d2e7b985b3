#include "app/widgets.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

#include "exact/decimal.hpp"
#include "sheet/findings.hpp"

namespace couplet {

namespace {

// What is shown of a name: all before "##".
std::string shown_part(std::string_view name) {
    return std::string(name.substr(0, name.find("##")));
}

std::string said_name(const Screen& screen, std::string_view name) {
    std::string whole(name);
    if (const std::size_t mark = whole.find("##"); mark != std::string::npos) whole.erase(mark, 2);
    return screen.panel.empty() ? whole : screen.panel + "/" + whole;
}

ImGuiID id_of(std::string_view name) {
    return ImGui::GetID(name.data(), name.data() + name.size());
}

// The look of something that is clicked: ground and edge by its state.
struct ClickLook {
    ImVec4 ground;
    ImVec4 edge;
    ImVec4 ink;
};

ClickLook look_of(const Theme& theme, ButtonKind kind, bool lit, bool enabled) {
    ClickLook look{theme.row, theme.panel_edge, theme.ink};
    if (kind == ButtonKind::main) look = {theme.accent, theme.accent, theme.on_accent};
    if (kind == ButtonKind::quiet) look = {ImVec4(0, 0, 0, 0), ImVec4(0, 0, 0, 0), theme.accent};
    if (lit && kind != ButtonKind::main) look.ground = theme.row_lit;
    if (lit && kind == ButtonKind::main) look.edge = theme.ink;
    if (!enabled) look = {ImVec4(0, 0, 0, 0), theme.line, theme.faint};
    return look;
}

void draw_ground(Screen& screen, ImVec2 from, ImVec2 to, const ClickLook& look) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float round = screen.px(5);
    list.AddRectFilled(from, to, colour(look.ground), round);
    if (look.edge.w > 0) list.AddRect(from, to, colour(look.edge), round, 0, screen.scale);
    if (ImGui::IsItemFocused() && ImGui::GetIO().NavVisible)
        list.AddRect(ImVec2(from.x - 2, from.y - 2), ImVec2(to.x + 2, to.y + 2), colour(screen.theme->accent),
                     round + 2, 0, 2 * screen.scale);
}

// An area that is clicked, by mouse or keyboard.
bool clicked_area(std::string_view name, ImVec2 size, bool enabled) {
    ImGui::BeginDisabled(!enabled);
    const bool clicked = ImGui::InvisibleButton(std::string(name).c_str(), size);
    ImGui::EndDisabled();
    return clicked && enabled;
}

bool is_hot(bool enabled) {
    return enabled && ImGui::IsItemHovered();
}

// A field's text while it is being written in, and its border where it is wrong. Gives the text when it is finished.
std::optional<std::string> edited_text(Screen& screen, std::string_view name, const std::string& shown,
                                       std::string_view usual, float width_u) {
    const ImGuiID id = id_of(name);
    const auto kept = screen.drafts.find(id);
    std::string text = kept == screen.drafts.end() ? shown : kept->second;
    const bool wrong = screen.faults.contains(id);
    if (wrong) ImGui::PushStyleColor(ImGuiCol_Border, screen.theme->bad);
    ImGui::SetNextItemWidth(screen.px(width_u));
    const std::string label = "##" + std::string(name);
    ImGui::PushID(static_cast<int>(id));
    const bool entered =
        ImGui::InputTextWithHint(label.c_str(), std::string(usual).c_str(), &text,
                                 ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    ImGui::PopID();
    if (wrong) ImGui::PopStyleColor();
    say(screen, "field", name, text);
    if (ImGui::IsItemActive()) screen.drafts[id] = text;
    if (!entered && !ImGui::IsItemDeactivated()) return std::nullopt;
    screen.drafts.erase(id);
    screen.faults.erase(id);
    const bool given_up = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape));
    if (given_up || text == shown) return std::nullopt;
    return text;
}

// Keeps what was written and says what would be right.
void refuse(Screen& screen, std::string_view name, std::string text, std::string right) {
    const ImGuiID id = id_of(name);
    screen.drafts[id] = std::move(text);
    screen.faults[id] = std::move(right);
}

void show_fault(Screen& screen, std::string_view name) {
    const auto fault = screen.faults.find(id_of(name));
    if (fault == screen.faults.end()) return;
    ImGui::PushStyleColor(ImGuiCol_Text, screen.theme->bad);
    ImGui::PushFont(screen.fonts.small);
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(fault->second.c_str());
    ImGui::PopTextWrapPos();
    ImGui::PopFont();
    ImGui::PopStyleColor();
    say(screen, "fault", "fault of " + std::string(name), fault->second);
}

void write(Screen& screen, ImFont* font, const ImVec4& ink, std::string_view text, std::string_view role) {
    ImGui::PushFont(font);
    ImGui::PushStyleColor(ImGuiCol_Text, ink);
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    ImGui::PopTextWrapPos();
    ImGui::PopStyleColor();
    ImGui::PopFont();
    say(screen, role, "", std::string(text));
}

}  // namespace

ImU32 colour(const ImVec4& of, float alpha) {
    return ImGui::ColorConvertFloat4ToU32({of.x, of.y, of.z, of.w * alpha});
}

void say(Screen& screen, std::string_view role, std::string_view name, std::string value, bool enabled) {
    say(screen, role, name, std::move(value), ImGui::GetItemRectMin(), ImGui::GetItemRectMax(), enabled);
    const ImGuiID id = ImGui::GetItemID();
    screen.said.back().id = enabled ? id : 0;
    if (id == 0 || screen.focus_wish != id) return;
    screen.focus_wish = 0;
    ImGui::SetFocusID(id, ImGui::GetCurrentWindow());
    ImGui::GetCurrentContext()->NavDisableHighlight = false;
    ImGui::SetScrollHereY();
}

void move_focus(Screen& screen, Going going) {
    std::vector<ImGuiID> stops;
    for (const Said& one : screen.said)
        if (one.id != 0 && (stops.empty() || stops.back() != one.id)) stops.push_back(one.id);
    if (stops.empty()) return;
    const ImGuiContext& context = *ImGui::GetCurrentContext();
    const auto at = context.NavDisableHighlight ? stops.end() : std::ranges::find(stops, context.NavId);
    if (going == Going::on)
        screen.focus_wish = at == stops.end() || at + 1 == stops.end() ? stops.front() : *(at + 1);
    else
        screen.focus_wish = at == stops.end() || at == stops.begin() ? stops.back() : *(at - 1);
    screen.wants_frame = true;
}

void say(Screen& screen, std::string_view role, std::string_view name, std::string value, ImVec2 from, ImVec2 to,
         bool enabled) {
    screen.said.push_back(
        {std::string(role), said_name(screen, name), std::move(value), {from.x, from.y, to.x, to.y}, enabled});
}

void heading(Screen& screen, std::string_view text) {
    ImGui::Dummy({0, screen.px(3)});
    write(screen, screen.fonts.bold, screen.theme->accent, text, "heading");
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddLine({at.x, at.y - screen.px(3)},
                                        {at.x + ImGui::GetContentRegionAvail().x, at.y - screen.px(3)},
                                        colour(screen.theme->line), screen.scale);
    ImGui::Dummy({0, screen.px(1)});
}

void words(Screen& screen, std::string_view text) {
    write(screen, screen.fonts.text, screen.theme->ink, text, "text");
}

void faint_words(Screen& screen, std::string_view text) {
    write(screen, screen.fonts.small, screen.theme->faint, text, "text");
}

void fact(Screen& screen, std::string_view name, std::string_view value) {
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const ImVec2 size = ImGui::CalcTextSize(value.data(), value.data() + value.size());
    ImGui::PushStyleColor(ImGuiCol_Text, screen.theme->faint);
    ImGui::TextUnformatted(name.data(), name.data() + name.size());
    ImGui::PopStyleColor();
    const float left = ImGui::GetItemRectMax().x + screen.px(10);
    // Where both do not fit on a line, the value goes on to the next.
    if (from.x + width - size.x >= left) ImGui::SameLine();
    ImGui::SetCursorScreenPos({std::max(from.x + width - size.x, from.x), ImGui::GetCursorScreenPos().y});
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(value.data(), value.data() + value.size());
    ImGui::PopTextWrapPos();
    say(screen, "text", name, std::string(value));
}

namespace {

constexpr float kSegmentPad = 17;

bool padded_button(Screen& screen, std::string_view name, ButtonKind kind, bool enabled, float pad_u) {
    const std::string text = shown_part(name);
    const ImVec2 size = ImGui::CalcTextSize(text.c_str());
    const ImVec2 whole(size.x + screen.px(pad_u), size.y + screen.px(10));
    const bool clicked = clicked_area(name, whole, enabled);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    const ClickLook look = look_of(*screen.theme, kind, is_hot(enabled), enabled);
    draw_ground(screen, from, to, look);
    ImGui::GetWindowDrawList()->AddText(
        {std::round(0.5F * (from.x + to.x - size.x)), std::round(0.5F * (from.y + to.y - size.y))}, colour(look.ink),
        text.c_str());
    say(screen, "button", name, "", enabled);
    return clicked;
}

}  // namespace

bool button(Screen& screen, std::string_view name, ButtonKind kind, bool enabled) {
    return padded_button(screen, name, kind, enabled, kind == ButtonKind::quiet ? 12 : 24);
}

bool icon_button(Screen& screen, Icon icon, std::string_view name, std::string_view key, bool enabled, bool chosen) {
    const float side = screen.px(26);
    const bool clicked = clicked_area(name, {side, side}, enabled);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    const ClickLook look =
        look_of(*screen.theme, chosen ? ButtonKind::main : ButtonKind::plain, is_hot(enabled), enabled);
    draw_ground(screen, from, to, look);
    draw_icon(*ImGui::GetWindowDrawList(), icon, {0.5F * (from.x + to.x), 0.5F * (from.y + to.y)}, screen.px(16),
              colour(look.ink));
    say(screen, "button", name, chosen ? "on" : "", enabled);
    const std::string text = shown_part(name);
    if (!text.empty()) tip(screen, key.empty() ? text : fmt::format("{}  [{}]", text, key));
    return clicked;
}

std::optional<bool> on_off(Screen& screen, std::string_view name, bool on) {
    const std::string text = shown_part(name);
    const ImVec2 size = ImGui::CalcTextSize(text.c_str());
    const float side = std::round(screen.px(15));
    const ImVec2 whole(side + screen.px(8) + size.x, std::max(size.y, side) + screen.px(6));
    const bool clicked = clicked_area(name, whole, true);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    const float top = std::round(0.5F * (from.y + to.y - side));
    draw_ground(screen, {from.x, top}, {from.x + side, top + side},
                look_of(*screen.theme, on ? ButtonKind::main : ButtonKind::plain, is_hot(true), true));
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (on)
        draw_icon(list, Icon::good, {from.x + 0.5F * side, top + 0.5F * side}, side * 0.85F,
                  colour(screen.theme->on_accent));
    list.AddText({from.x + side + screen.px(8), std::round(0.5F * (from.y + to.y - size.y))}, colour(screen.theme->ink),
                 text.c_str());
    say(screen, "switch", name, on ? "on" : "off");
    return clicked ? std::optional(!on) : std::nullopt;
}

std::optional<std::size_t> segments(Screen& screen, std::string_view name, std::span<const std::string> options,
                                    std::size_t chosen) {
    std::optional<std::size_t> result;
    ImGui::PushID(name.data(), name.data() + name.size());
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {screen.px(4), screen.px(4)});
    const float right = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
    for (std::size_t i = 0; i < options.size(); ++i) {
        const float width = ImGui::CalcTextSize(options[i].c_str()).x + screen.px(kSegmentPad);
        if (i > 0 && ImGui::GetItemRectMax().x + screen.px(4) + width <= right) ImGui::SameLine();
        const std::string said = fmt::format("{}##{}: ", options[i], shown_part(name));
        const bool is_chosen = i == chosen;
        if (padded_button(screen, said, is_chosen ? ButtonKind::main : ButtonKind::plain, true, kSegmentPad) &&
            !is_chosen)
            result = i;
        // As one of several it is called "look: clay".
        screen.said.back().role = "choice";
        screen.said.back().name = said_name(screen, fmt::format("{}: {}", shown_part(name), options[i]));
        screen.said.back().value = is_chosen ? "on" : "off";
    }
    ImGui::PopStyleVar();
    ImGui::PopID();
    return result;
}

std::optional<std::size_t> choice(Screen& screen, std::string_view name, std::span<const std::string> options,
                                  std::size_t chosen, float width_u) {
    const std::string now = chosen < options.size() ? options[chosen] : "";
    const float height = ImGui::GetFrameHeight();
    std::optional<std::size_t> result;
    ImGui::PushID(name.data(), name.data() + name.size());
    if (clicked_area("open", {screen.px(width_u), height}, !options.empty())) ImGui::OpenPopup("options");
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    ClickLook look = look_of(*screen.theme, ButtonKind::plain, is_hot(true), true);
    if (!ImGui::IsItemHovered()) look.ground = screen.theme->field;
    draw_ground(screen, from, to, look);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.PushClipRect(from, {to.x - screen.px(22), to.y}, true);
    list.AddText({from.x + screen.px(8), std::round(0.5F * (from.y + to.y - ImGui::GetFontSize()))},
                 colour(screen.theme->ink), now.c_str());
    list.PopClipRect();
    const ImVec2 tick(to.x - screen.px(12), 0.5F * (from.y + to.y));
    const float arm = screen.px(4);
    const ImVec2 points[] = {
        {tick.x - arm, tick.y - arm * 0.5F}, {tick.x, tick.y + arm * 0.5F}, {tick.x + arm, tick.y - arm * 0.5F}};
    list.AddPolyline(points, 3, colour(screen.theme->faint), 0, screen.px(1.6F));
    say(screen, "choice", name, now);
    // Upwards where the window has no room below.
    const float wanted = std::min(
        screen.px(360), static_cast<float>(options.size()) * ImGui::GetTextLineHeightWithSpacing() + screen.px(28));
    const bool up = to.y + wanted > ImGui::GetIO().DisplaySize.y;
    ImGui::SetNextWindowPos({from.x, up ? from.y - screen.px(2) : to.y + screen.px(2)}, 0, {0, up ? 1.0F : 0.0F});
    ImGui::SetNextWindowSizeConstraints({to.x - from.x, 0}, {screen.px(420), screen.px(360)});
    if (ImGui::BeginPopup("options")) {
        for (std::size_t i = 0; i < options.size(); ++i) {
            if (ImGui::Selectable(fmt::format("{}##{}", options[i], i).c_str(), i == chosen)) result = i;
            say(screen, "option", fmt::format("{}: {}", shown_part(name), options[i]), i == chosen ? "on" : "off");
        }
        ImGui::EndPopup();
    }
    ImGui::PopID();
    return result == chosen ? std::nullopt : result;
}

std::optional<double> slider(Screen& screen, std::string_view name, double value, double least, double most,
                             std::string_view shown, float width_u) {
    const bool logarithmic = least > 0 && most > 20 * least;
    const auto part_of = [&](double v) {
        return logarithmic ? std::log(v / least) / std::log(most / least) : (v - least) / (most - least);
    };
    const auto value_at = [&](double part) {
        return logarithmic ? least * std::pow(most / least, part) : least + part * (most - least);
    };
    const float height = screen.px(22);
    (void)clicked_area(name, {screen.px(width_u), height}, true);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    const float inset = screen.px(8);
    std::optional<double> result;
    const double room = to.x - from.x - 2 * inset;
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left))
        result = value_at(std::clamp((ImGui::GetIO().MousePos.x - from.x - inset) / room, 0.0, 1.0));
    // By keyboard in twentieths.
    if (ImGui::IsItemFocused())
        for (const auto& [key, step] : {std::pair(ImGuiKey_LeftArrow, -0.05), std::pair(ImGuiKey_RightArrow, 0.05)})
            if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(key)))
                result = value_at(std::clamp(part_of(value) + step, 0.0, 1.0));
    const double now = std::clamp(part_of(result.value_or(value)), 0.0, 1.0);
    const ImVec2 knob(from.x + inset + static_cast<float>(now * room), 0.5F * (from.y + to.y));
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddLine({from.x + inset, knob.y}, {to.x - inset, knob.y}, colour(screen.theme->panel_edge), screen.px(3));
    list.AddLine({from.x + inset, knob.y}, knob, colour(screen.theme->accent), screen.px(3));
    list.AddCircleFilled(knob, screen.px(7), colour(screen.theme->accent));
    list.AddCircleFilled(knob, screen.px(3), colour(screen.theme->on_accent));
    say(screen, "slider", name, std::string(shown));
    if (!shown.empty()) {
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        ImGui::TextUnformatted(shown.data(), shown.data() + shown.size());
    }
    return result == value ? std::nullopt : result;
}

std::optional<int> whole_field(Screen& screen, std::string_view name, int value, int least, int most, float width_u) {
    ImGui::BeginGroup();
    std::optional<int> result;
    const std::optional<std::string> text = edited_text(screen, name, std::to_string(value), "", width_u);
    const ImGuiID id = id_of(name);
    // Up and down count while the field is being written in.
    if (ImGui::IsItemActive())
        for (const auto& [key, step] : {std::pair(ImGuiKey_UpArrow, 1), std::pair(ImGuiKey_DownArrow, -1)})
            if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(key)) && value + step >= least && value + step <= most) {
                result = value + step;
                screen.drafts.erase(id);
                ImGui::ClearActiveID();
            }
    if (text) {
        const std::optional<Ratio> number = parse_ratio(*text);
        if (number && number->is_whole() && *number >= Ratio(least) && *number <= Ratio(most))
            result = static_cast<int>(number->small_numerator());
        else
            refuse(screen, name, *text, fmt::format("a whole number from {} to {}", least, most));
    }
    show_fault(screen, name);
    ImGui::EndGroup();
    return result == value ? std::nullopt : result;
}

std::optional<Ratio> number_field(Screen& screen, std::string_view name, const Ratio& value, const NumberLimits& limits,
                                  float width_u) {
    const auto result = optional_number_field(screen, name, value, limits, "", width_u);
    if (!result || !*result) return std::nullopt;
    return *result;
}

std::optional<std::optional<Ratio>> optional_number_field(Screen& screen, std::string_view name,
                                                          const std::optional<Ratio>& value, const NumberLimits& limits,
                                                          std::string_view usual, float width_u) {
    ImGui::BeginGroup();
    std::optional<std::optional<Ratio>> result;
    const std::string shown = value ? exact_text(*value) : "";
    if (const std::optional<std::string> text = edited_text(screen, name, shown, usual, width_u)) {
        const std::optional<Ratio> number = parse_ratio(*text);
        const bool blank = text->find_first_not_of(' ') == std::string::npos;
        if (blank && !usual.empty())
            result = std::optional<Ratio>();
        else if (number && limits.allow(*number) && has_few_decimals(*number))
            result = number;
        else
            refuse(screen, name, *text, limits.described());
    }
    show_fault(screen, name);
    ImGui::EndGroup();
    if (result && *result == value) return std::nullopt;
    return result;
}

std::optional<std::string> text_field(Screen& screen, std::string_view name, const std::string& value,
                                      std::string_view usual, float width_u) {
    return edited_text(screen, name, value, usual, width_u);
}

void copyable(Screen& screen, Edits& edits, std::string_view name, std::string_view text) {
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    say(screen, "number", name, std::string(text));
    ImGui::SameLine(0, screen.px(6));
    copy_button(screen, edits, name, std::string(text));
}

void copy_button(Screen& screen, Edits& edits, std::string_view name, const std::string& text) {
    const std::string called = fmt::format("##copy {}", name);
    if (icon_button(screen, Icon::copy, called)) edits.ask(CopyText{text});
    tip(screen, fmt::format("copy {}", text));
}

void verdict(Screen& screen, Verdict verdict_of, std::string_view name, std::string_view text) {
    const Theme& theme = *screen.theme;
    const auto [icon, ink] = verdict_of == Verdict::holds   ? std::pair(Icon::good, theme.good)
                             : verdict_of == Verdict::fails ? std::pair(Icon::bad, theme.bad)
                                                            : std::pair(Icon::caution, theme.caution);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float side = ImGui::GetFontSize();
    draw_icon(*ImGui::GetWindowDrawList(), icon, {at.x + 0.5F * side, at.y + 0.5F * side}, side * 0.95F, colour(ink));
    ImGui::SetCursorScreenPos({at.x + side + screen.px(6), at.y});
    ImGui::PushStyleColor(ImGuiCol_Text, ink);
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    ImGui::PopTextWrapPos();
    ImGui::PopStyleColor();
    say(screen, "verdict", name, fmt::format("{}: {}", verdict_name(verdict_of), text));
}

void teach(Screen& screen, std::string_view name, std::string_view text, ImVec2 picture_u, const DrawPicture& picture) {
    const float side = screen.px(18);
    (void)clicked_area(fmt::format("##teach {}", name), {side, side}, true);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 middle(from.x + 0.5F * side, from.y + 0.5F * side);
    const bool open = ImGui::IsItemHovered() || (ImGui::IsItemFocused() && ImGui::GetIO().NavVisible);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddCircle(middle, 0.5F * side, colour(open ? screen.theme->accent : screen.theme->faint), 0, screen.scale);
    draw_icon(list, Icon::question, middle, side * 0.7F, colour(open ? screen.theme->accent : screen.theme->faint));
    say(screen, "help", name, std::string(text));
    if (!open) return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(screen.px(340));
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    ImGui::PopTextWrapPos();
    if (picture) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const ImVec2 to(at.x + screen.px(picture_u.x), at.y + screen.px(picture_u.y));
        ImGui::Dummy({to.x - at.x, to.y - at.y});
        picture(*ImGui::GetWindowDrawList(), at, to);
    }
    ImGui::EndTooltip();
}

void tip(Screen& screen, std::string_view text) {
    if (!ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(screen.px(320));
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

bool member_row(Screen& screen, const std::optional<MemberIndex>& pointed, Edits& edits, MemberIndex member,
                std::string_view name) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    if (pointed == member) ImGui::TableSetBgColor(ImGuiTableBgTarget_RowBg0, colour(screen.theme->row_lit));
    const bool clicked = ImGui::Selectable(fmt::format("##row {}", name).c_str(), false,
                                           ImGuiSelectableFlags_SpanAllColumns | ImGuiSelectableFlags_AllowItemOverlap);
    if (ImGui::IsItemHovered()) edits.view.pointed = member;
    say(screen, "row", name, "");
    ImGui::SameLine(0, 0);
    return clicked;
}

}  // namespace couplet
