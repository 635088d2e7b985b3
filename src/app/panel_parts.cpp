#include "app/panel_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "exact/decimal.hpp"
#include "sheet/findings.hpp"

namespace couplet {

namespace {

bool is_focused() {
    return ImGui::IsItemFocused() && ImGui::GetIO().NavVisible;
}

std::string in_small_letters(std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

// Moves on so that something `width` wide ends at the right end of what is left.
void move_to_right(float width) {
    const float room = ImGui::GetContentRegionAvail().x - width;
    if (room > 0) ImGui::SetCursorPosX(ImGui::GetCursorPosX() + room);
}

ImGuiID id_of(std::string_view name) {
    return ImGui::GetID(name.data(), name.data() + name.size());
}

}  // namespace

Card::Card(Screen& screen, const std::string& name, Look look)
    : screen_(screen), list_(*ImGui::GetWindowDrawList()), look_(look) {
    layers_.Split(&list_, 2);
    layers_.SetCurrentChannel(&list_, 1);
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, {screen.px(12), screen.px(10)});
    open_ = ImGui::BeginTable(name.c_str(), 1, ImGuiTableFlags_PadOuterX | ImGuiTableFlags_NoSavedSettings);
    ImGui::PopStyleVar();
    if (open_) ImGui::TableNextColumn();
}

Card::~Card() {
    if (open_) ImGui::EndTable();
    layers_.SetCurrentChannel(&list_, 0);
    if (open_) {
        const ImVec2 from = ImGui::GetItemRectMin();
        const ImVec2 to = ImGui::GetItemRectMax();
        list_.AddRectFilled(from, to, colour(screen_.theme->row), screen_.px(8));
        const ImVec4& edge = look_ == Look::lit ? screen_.theme->accent : screen_.theme->panel_edge;
        list_.AddRect(from, to, colour(edge), screen_.px(8), 0, screen_.scale);
    }
    layers_.Merge(&list_);
    ImGui::Dummy({0, screen_.px(2)});
}

NamedRows::NamedRows(Screen& screen, const std::string& name, float name_width_u) : screen_(screen) {
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, {screen.px(2), screen.px(2)});
    open_ = ImGui::BeginTable(name.c_str(), 2, ImGuiTableFlags_NoSavedSettings);
    ImGui::PopStyleVar();
    if (!open_) return;
    ImGui::TableSetupColumn("name", ImGuiTableColumnFlags_WidthFixed, screen.px(name_width_u));
    ImGui::TableSetupColumn("what", ImGuiTableColumnFlags_WidthStretch);
}

NamedRows::~NamedRows() {
    if (open_) ImGui::EndTable();
}

void NamedRows::row(std::string_view name) {
    if (!open_) return;
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    ImGui::AlignTextToFramePadding();
    ImGui::PushStyleColor(ImGuiCol_Text, screen_.theme->faint);
    ImGui::TextUnformatted(name.data(), name.data() + name.size());
    ImGui::PopStyleColor();
    ImGui::TableNextColumn();
}

bool begin_rows(Screen& screen, const char* name, std::span<const PanelColumn> columns) {
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, {screen.px(4), screen.px(2)});
    const bool open = ImGui::BeginTable(name, static_cast<int>(columns.size()),
                                        ImGuiTableFlags_NoSavedSettings | ImGuiTableFlags_PadOuterX);
    ImGui::PopStyleVar();
    if (!open) return false;
    for (const PanelColumn& column : columns)
        ImGui::TableSetupColumn(
            column.heading, column.width_u > 0 ? ImGuiTableColumnFlags_WidthFixed : ImGuiTableColumnFlags_WidthStretch,
            screen.px(column.width_u));
    ImGui::TableNextRow();
    ImGui::PushFont(screen.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, screen.theme->faint);
    for (const PanelColumn& column : columns) {
        ImGui::TableNextColumn();
        if (column.width_u > 0) move_to_right(ImGui::CalcTextSize(column.heading).x);
        ImGui::TextUnformatted(column.heading);
    }
    ImGui::PopStyleColor();
    ImGui::PopFont();
    return true;
}

void right_text(Screen& screen, std::string_view name, std::string_view text) {
    move_to_right(ImGui::CalcTextSize(text.data(), text.data() + text.size()).x);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(text.data(), text.data() + text.size());
    say(screen, "number", name, std::string(text));
}

void right_copyable(Screen& screen, Edits& edits, std::string_view name, std::string_view text) {
    constexpr std::size_t kMostRead = 12;
    constexpr int kDecimals = 6;
    constexpr float kGap_u = 6;
    constexpr float kCopyButton_u = 26;
    const std::optional<Ratio> number = text.size() > kMostRead ? parse_ratio(text) : std::nullopt;
    const std::string shown = number ? decimal_text(*number, kDecimals) : std::string(text);
    move_to_right(ImGui::CalcTextSize(shown.c_str()).x + screen.px(kGap_u + kCopyButton_u));
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(shown.c_str());
    say(screen, "number", name, std::string(text));
    ImGui::SameLine(0, screen.px(kGap_u));
    copy_button(screen, edits, name, std::string(text));
}

void words_beside(const char* text) {
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(text);
}

bool chip(Screen& screen, std::string_view text, std::string_view name) {
    const ImVec2 size = ImGui::CalcTextSize(text.data(), text.data() + text.size());
    const float cross = screen.px(10);
    const ImVec2 whole(size.x + cross + screen.px(26), size.y + screen.px(8));
    const bool clicked = ImGui::InvisibleButton(std::string(name).c_str(), whole);
    const ImVec2 from = ImGui::GetItemRectMin();
    const ImVec2 to = ImGui::GetItemRectMax();
    const bool hot = ImGui::IsItemHovered();
    const Theme& theme = *screen.theme;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float round = 0.5F * (to.y - from.y);
    list.AddRectFilled(from, to, colour(hot ? theme.row_lit : theme.field), round);
    list.AddRect(from, to, colour(is_focused() ? theme.accent : theme.panel_edge), round, 0,
                 (is_focused() ? 2.0F : 1.0F) * screen.scale);
    list.AddText({from.x + screen.px(10), 0.5F * (from.y + to.y - size.y)}, colour(theme.ink), text.data(),
                 text.data() + text.size());
    draw_icon(list, Icon::cross, {to.x - screen.px(13), 0.5F * (from.y + to.y)}, cross,
              colour(hot ? theme.ink : theme.faint));
    say(screen, "button", name, std::string(text));
    tip(screen, name);
    return clicked;
}

void flow(Screen& screen, float width_u) {
    const float right = ImGui::GetWindowPos().x + ImGui::GetContentRegionMax().x;
    const float next = ImGui::GetItemRectMax().x + ImGui::GetStyle().ItemSpacing.x + screen.px(width_u);
    if (next <= right) ImGui::SameLine();
}

std::optional<MemberIndex> member_choice(Screen& screen, std::string_view name, const Train& train,
                                         std::span<const MemberIndex> members, std::string_view what_for,
                                         float width_u) {
    if (members.size() > kMostListed) {
        faint_words(screen, fmt::format("{}: {} members are too many for a list; use its dial or the stage.", what_for,
                                        members.size()));
        return std::nullopt;
    }
    std::vector<std::string> options{std::string(what_for)};
    options.reserve(members.size() + 1);
    for (const MemberIndex member : members) options.push_back(couplet::name_of(train, member));
    const std::optional<std::size_t> chosen = choice(screen, name, options, 0, width_u);
    return chosen ? std::optional(members[*chosen - 1]) : std::nullopt;
}

std::optional<std::string> checked_text_field(Screen& screen, std::string_view name, const std::string& value,
                                              std::string_view usual,
                                              const std::function<std::string(const std::string&)>& fault_of,
                                              float width_u) {
    ImGui::BeginGroup();
    std::optional<std::string> text = text_field(screen, name, value, usual, width_u);
    if (text) {
        if (std::string fault = fault_of(*text); !fault.empty()) {
            screen.drafts[id_of(name)] = *text;
            refuse_click(screen, name, std::move(fault));
            text.reset();
        }
    }
    show_refusal(screen, name);
    ImGui::EndGroup();
    return text;
}

void refuse_click(Screen& screen, std::string_view name, std::string why) {
    screen.faults[id_of(name)] = std::move(why);
}

void show_refusal(Screen& screen, std::string_view name) {
    const auto fault = screen.faults.find(id_of(name));
    if (fault != screen.faults.end()) verdict(screen, Verdict::fails, fmt::format("{}: refused", name), fault->second);
}

void forget_refusal(Screen& screen, std::string_view name) {
    screen.faults.erase(id_of(name));
}

std::vector<std::size_t> narrowed(Screen& screen, std::string_view name, std::string& text, std::size_t count,
                                  const std::function<std::string(std::size_t)>& name_of, std::size_t most) {
    if (count > most)
        if (const std::optional<std::string> wanted = text_field(screen, name, text, "show those named ..."))
            text = *wanted;
    const std::string wanted = count > most ? in_small_letters(text) : "";
    std::vector<std::size_t> shown;
    std::size_t fitting = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (wanted.empty() && fitting >= most) {
            fitting = count;
            break;
        }
        if (!wanted.empty() && in_small_letters(name_of(i)).find(wanted) == std::string::npos) continue;
        if (++fitting <= most) shown.push_back(i);
    }
    if (fitting > shown.size())
        faint_words(screen, fmt::format("the first {} of {}; a name above narrows them", shown.size(), fitting));
    return shown;
}

void finding_line(Screen& screen, const Finding& finding, std::string_view name) {
    verdict(screen, finding.verdict, name, finding_statement(finding));
    if (finding.mend.empty()) return;
    const float behind_sign = ImGui::GetFontSize() + screen.px(6);
    ImGui::Indent(behind_sign);
    faint_words(screen, mend_text(finding));
    ImGui::Unindent(behind_sign);
}

}  // namespace couplet
