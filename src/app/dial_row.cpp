#include <imgui_internal.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/dial.hpp"
#include "app/disc_button.hpp"
#include "app/frame_parts.hpp"
#include "app/keys.hpp"
#include "app/outcome_strip.hpp"
#include "motion/pose.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr float kBlockWidth_u = 220;
constexpr float kInset_u = 12;
constexpr double kScrollPerNotch_u = 62;

bool can_run(const Motion& motion) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    return reference && !motion.drivers[*reference].rpm.is_zero() && motion.outcome != Outcome::locked &&
           motion.outcome != Outcome::conflicting;
}

std::string key_text(KeyDeed deed) {
    return fmt::format("  [{}]", strokes_text(deed));
}

void draw_running(Screen& screen, const Session& session, Edits& edits, ImVec2 from) {
    const bool running = session.view.running;
    const bool possible = can_run(session.study->motion());
    const float middle = from.y + screen.px(24);
    const DiscLook large{48, screen.theme->accent};
    if (disc_button(screen, running ? Icon::stop : Icon::run, "##run", running ? "running" : "standing",
                    {from.x + screen.px(24), middle}, large, possible || running))
        edits.view.running = !running;
    tip(screen, !possible && !running ? std::string("nothing drives the train")
                                      : (running ? "stop" : "run") + key_text(KeyDeed::run_or_stop));
    struct Small {
        Icon icon;
        const char* name;
        const char* tip;
        KeyDeed key;
        Command does;
    };
    const Small small[] = {
        {Icon::step_back, "##step back", "back by one tooth of the driver", KeyDeed::step_back, StepTooth{-1}},
        {Icon::step_on, "##step on", "on by one tooth of the driver", KeyDeed::step_on, StepTooth{1}},
        {Icon::to_start, "##to start", "everything back to where it started", KeyDeed::to_start, BackToStart{}}};
    float x = from.x + screen.px(48 + 14 + 15);
    for (const Small& one : small) {
        const bool moves = one.icon == Icon::to_start || possible;
        if (disc_button(screen, one.icon, one.name, "", {x, middle}, {30, {}}, moves)) edits.ask(one.does);
        tip(screen, one.tip + key_text(one.key));
        x += screen.px(30 + 9);
    }
}

std::string setting_name(const Train& train, SettingIndex setting) {
    if (setting.value < 0) return "no setting";
    return train[setting].name.empty() ? "setting" : train[setting].name;
}

// All settings; a trial stands before them.
void choose_setting(Screen& screen, const Session& session, Edits& edits, float width_u) {
    const Draft& draft = session.draft();
    std::vector<std::string> options;
    if (draft.trial) options.push_back(setting_name(draft.train, draft.chosen) + ", changed");
    const std::size_t first = options.size();
    for (std::size_t i = 0; i < draft.train.settings.size(); ++i)
        options.push_back(setting_name(draft.train, {static_cast<std::int32_t>(i)}));
    if (options.empty()) options.emplace_back("no setting");
    const std::size_t now = draft.trial || draft.chosen.value < 0 ? 0 : draft.chosen.position();
    const std::optional<std::size_t> clicked = choice(screen, "setting", options, now, width_u);
    if (clicked && *clicked >= first) edits.ask(ChooseSetting{{static_cast<std::int32_t>(*clicked - first)}});
}

void go_back(const Draft& draft, Edits& edits) {
    if (draft.chosen.value >= 0) return edits.ask(ChooseSetting{draft.chosen});
    Draft without = draft;
    without.trial.reset();
    edits.change("back to no setting", std::move(without));
}

void keep_or_go_back(Screen& screen, const Draft& draft, Edits& edits) {
    if (button(screen, "keep", ButtonKind::quiet)) {
        Draft kept = trial_kept_as_new(draft);
        const std::string name = setting_name(kept.train, kept.chosen);
        edits.change("keep setting " + name, std::move(kept));
    }
    tip(screen, "keep what is tried as a new setting");
    ImGui::SameLine(0, screen.px(4));
    if (button(screen, "back", ButtonKind::quiet)) go_back(draft, edits);
    tip(screen, "back to " + setting_name(draft.train, draft.chosen));
}

void say_drivers(Screen& screen, const Study& study, ImVec2 from, float width) {
    std::vector<std::string> drivers;
    for (const Drive& drive : study.setting().drive) drivers.push_back(drive_text(study.train(), drive));
    const std::string text = drivers.empty() ? "no driver" : list_text(drivers);
    draw_text(screen.fonts.small, from, screen.theme->faint, fitted(text, *screen.fonts.small, width));
    say(screen, "text", "drivers", text, from, {from.x + width, from.y + screen.fonts.small->FontSize});
}

void draw_block(Screen& screen, const Session& session, Edits& edits, ImVec2 from) {
    const float width_u = kBlockWidth_u - 2 * kInset_u;
    const ImVec2 inside(from.x + screen.px(kInset_u), from.y + screen.px(10));
    draw_running(screen, session, edits, inside);
    ImGui::SetCursorScreenPos({inside.x, inside.y + screen.px(56)});
    choose_setting(screen, session, edits, width_u);
    const ImVec2 below(inside.x, inside.y + screen.px(56 + 29));
    if (session.draft().trial) {
        ImGui::SetCursorScreenPos({below.x - screen.px(5), below.y});
        keep_or_go_back(screen, session.draft(), edits);
    } else {
        say_drivers(screen, *session.study, {below.x, below.y + screen.px(6)}, screen.px(width_u));
    }
}

// The row's ground, clicked where nothing else is: ImGui then counts its own handle of the window as active.
bool ground_is_dragged() {
    return GImGui->ActiveId == ImGui::GetCurrentWindow()->MoveId && ImGui::IsMouseDragging(ImGuiMouseButton_Left, 0);
}

double scrolled_px(const Screen& screen, const ViewState& view, double most_px) {
    const ImGuiIO& io = ImGui::GetIO();
    double scroll = view.dial_scroll_px;
    if (ImGui::IsWindowHovered())
        scroll -= (static_cast<double>(io.MouseWheel) + static_cast<double>(io.MouseWheelH)) * kScrollPerNotch_u *
                  static_cast<double>(screen.scale);
    if (ground_is_dragged()) scroll -= static_cast<double>(io.MouseDelta.x);
    return std::clamp(scroll, 0.0, most_px);
}

// Which part of all dials is in sight, at the row's lower edge.
void draw_extent(Screen& screen, ImVec2 from, ImVec2 to, double scroll_px, double whole_px) {
    const float width = to.x - from.x;
    const float y = to.y - screen.px(3);
    const auto x_of = [&](double px) { return from.x + static_cast<float>(px / whole_px) * width; };
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddLine({from.x, y}, {to.x, y}, colour(screen.theme->line), screen.px(2));
    const float left = x_of(scroll_px);
    list.AddLine({left, y}, {std::max(x_of(scroll_px + static_cast<double>(width)), left + screen.px(12)), y},
                 colour(screen.theme->faint), screen.px(2));
}

// The keyboard takes the row along: a dial that it has come to is brought in sight whole, and the edge of the next.
double followed_px(double scroll_px, double left_px, double dial_px, double width_px) {
    const double margin = 0.4 * dial_px;
    const double least = left_px + dial_px + margin - width_px;
    const double most = left_px - margin;
    return least < most ? std::clamp(scroll_px, least, most) : scroll_px;
}

void draw_dials(Screen& screen, const Session& session, Edits& edits, ImVec2 from, ImVec2 to) {
    const Train& train = session.study->train();
    const auto count = static_cast<std::int32_t>(train.members.size());
    const auto dial_px = static_cast<double>(screen.px(kDialWidth_u));
    const auto width_px = static_cast<double>(to.x - from.x);
    const double most_px = std::max(0.0, count * dial_px - width_px);
    double scroll_px = scrolled_px(screen, session.view, most_px);
    const auto first = static_cast<std::int32_t>(scroll_px / dial_px);
    const auto last = std::min(count, static_cast<std::int32_t>((scroll_px + width_px) / dial_px) + 1);
    const std::vector<Ratio> phases = frame_phases_turns(train, session.crank.joint_phases());
    const bool hovered = ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
    ImGui::PushClipRect(from, to, true);
    for (std::int32_t m = first; m < last; ++m) {
        const ImVec2 at(std::round(from.x + static_cast<float>(m * dial_px - scroll_px)), from.y);
        if (draw_dial(screen, session, edits, {m}, phases, at))
            scroll_px = std::clamp(followed_px(scroll_px, m * dial_px, dial_px, width_px), 0.0, most_px);
        if (hovered && ImGui::IsMouseHoveringRect(at, {at.x + screen.px(kDialWidth_u), to.y}))
            edits.view.pointed = MemberIndex{m};
    }
    ImGui::PopClipRect();
    if (most_px > 0) draw_extent(screen, from, to, scroll_px, count * dial_px);
    edits.view.dial_scroll_px = scroll_px;
}

}  // namespace

void draw_dial_row(Screen& screen, const Session& session, Edits& edits, const Places_px& places) {
    draw_outcome(screen, session, edits, places);
    screen.panel = "dials";
    const ImVec2 from(places.rail_width, places.window.y - places.dial_row_height);
    const ImVec2 to = places.window;
    ImGui::SetNextWindowPos(from);
    ImGui::SetNextWindowSize({to.x - from.x, to.y - from.y});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::Begin("dials", nullptr, kPartOfFrame | ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleVar();
    draw_block(screen, session, edits, from);
    const float divide = from.x + screen.px(kBlockWidth_u);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddLine({divide, from.y + screen.px(14)}, {divide, to.y - screen.px(14)}, colour(screen.theme->line),
                 screen.scale);
    list.AddLine({from.x, from.y + 0.5F * screen.scale}, {to.x, from.y + 0.5F * screen.scale},
                 colour(screen.theme->panel_edge), screen.scale);
    draw_dials(screen, session, edits, {divide + screen.scale, from.y + screen.scale}, to);
    ImGui::End();
}

}  // namespace couplet
