#include "app/dial.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/disc_button.hpp"
#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr float kRadius_u = 32;
constexpr float kTop_u = 12;
constexpr float kBelow_u = kTop_u + 2 * kRadius_u + 4;
constexpr double kWholeTurn_rad = 2 * std::numbers::pi;

// All that is drawn of one dial.
struct Dial {
    MemberIndex member;
    const std::string& name;
    bool held = false;
    bool drives = false;
    bool lit = false;
    std::optional<Ratio> turns = {};
    double phase_turns = 0;
    ImVec2 top_left = {};
    ImVec2 middle = {};
};

Dial dial_of(const Screen& screen, const Session& session, MemberIndex member,
             std::span<const Ratio> frame_phases_turns, ImVec2 top_left) {
    const Setting& setting = session.study->setting();
    Dial dial{member, name_of(session.study->train(), member)};
    dial.held = is_held(setting, member);
    dial.drives = is_driven(setting, member);
    dial.lit = session.view.pointed == member;
    dial.turns = turns_seen(session, member);
    const MemberIndex observer = observer_of(session);
    Ratio phase = frame_phases_turns[member.position()];
    if (observer != kFrame) phase -= frame_phases_turns[observer.position()];
    dial.phase_turns = phase.fraction().to_double();
    dial.top_left = top_left;
    dial.middle = {top_left.x + 0.5F * screen.px(kDialWidth_u), top_left.y + screen.px(kTop_u + kRadius_u)};
    return dial;
}

// What stands where there is no number.
std::string no_turns_text(const Session& session) {
    return std::string(outcome_name(session.study->motion().outcome));
}

std::string turns_text(const Session& session, const Dial& dial) {
    return dial.turns ? fraction_cell(*dial.turns).shown : no_turns_text(session);
}

// Why it would not follow the hand; empty where it does.
std::string stuck_text(const Session& session, const Dial& dial) {
    if (dial.member == observer_of(session)) return "observer";
    if (dial.held && observer_of(session) == kFrame) return "held";
    if (!dial.turns) return session.study->motion().outcome == Outcome::free ? "" : no_turns_text(session);
    return dial.turns->is_zero() ? "stands still" : "";
}

ImVec2 on_dial(const Dial& dial, double turns, float radius_px) {
    const double angle = turns * kWholeTurn_rad;
    return {dial.middle.x + radius_px * static_cast<float>(std::cos(angle)),
            dial.middle.y - radius_px * static_cast<float>(std::sin(angle))};
}

void draw_face(Screen& screen, const Dial& dial, bool lit) {
    const Theme& theme = *screen.theme;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float radius = screen.px(kRadius_u);
    list.AddCircleFilled(dial.middle, radius, colour(lit ? theme.row_lit : theme.field), 0);
    constexpr int kTicks = 36;
    for (int i = 0; i < kTicks; ++i) {
        const double turns = static_cast<double>(i) / kTicks;
        const bool quarter = i % (kTicks / 4) == 0;
        list.AddLine(on_dial(dial, turns, radius - screen.px(quarter ? 8.0F : 5.0F)),
                     on_dial(dial, turns, radius - screen.px(2)), colour(quarter ? theme.faint : theme.panel_edge),
                     screen.scale);
    }
    list.AddCircle(dial.middle, radius, colour(lit ? theme.accent : theme.panel_edge), 0, screen.px(lit ? 2.0F : 1.2F));
}

// A needle that carries one tooth at its tip.
void draw_hand(Screen& screen, const Dial& dial) {
    const Theme& theme = *screen.theme;
    const ImU32 ink = colour(dial.held ? theme.held : dial.drives ? theme.driver : theme.ink);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float foot = screen.px(kRadius_u - 12);
    const float tip = screen.px(kRadius_u - 3);
    // Half widths in turns: a tooth is broad where it stands and narrow at its tip.
    constexpr double kFoot_turns = 0.05;
    constexpr double kTip_turns = 0.021;
    list.AddLine(on_dial(dial, dial.phase_turns + 0.5, screen.px(7)), on_dial(dial, dial.phase_turns, foot), ink,
                 screen.px(2));
    list.AddQuadFilled(
        on_dial(dial, dial.phase_turns + kFoot_turns, foot), on_dial(dial, dial.phase_turns + kTip_turns, tip),
        on_dial(dial, dial.phase_turns - kTip_turns, tip), on_dial(dial, dial.phase_turns - kFoot_turns, foot), ink);
    list.AddCircleFilled(dial.middle, screen.px(3.5F), ink, 0);
}

void draw_stuck(Screen& screen, const Dial& dial, const std::string& why) {
    const ImVec2 size = screen.fonts.small->CalcTextSizeA(screen.fonts.small->FontSize, 1e9F, 0, why.c_str());
    const ImVec2 pad(screen.px(6), screen.px(3));
    const ImVec2 from(dial.middle.x - 0.5F * size.x - pad.x, dial.middle.y - 0.5F * size.y - pad.y);
    const ImVec2 to(from.x + size.x + 2 * pad.x, from.y + size.y + 2 * pad.y);
    ImGui::GetWindowDrawList()->AddRectFilled(from, to, colour(screen.theme->held), screen.px(4));
    draw_text(screen.fonts.small, {from.x + pad.x, from.y + pad.y}, screen.theme->on_accent, why);
    say(screen, "text", fmt::format("stuck {}", dial.name), why, from, to);
}

std::string tip_text(const Session& session, const Dial& dial) {
    const Train& train = session.study->train();
    std::string text = member_label(train, dial.member);
    const std::optional<Drive>& reference = session.study->sheet().reference_driver;
    if (dial.turns && reference)
        text += fmt::format("\n{} turns against {} per turn of {}", turns_text(session, dial),
                            name_of(train, observer_of(session)), name_of(train, reference->member));
    return text + "\nDrag its hand to turn the train.";
}

// The face is the handle of the dial: dragging it round turns the member.
void turn_by_hand(Screen& screen, const Session& session, Edits& edits, const Dial& dial) {
    const bool dragged = ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (!dragged) {
        tip(screen, tip_text(session, dial));
        return;
    }
    const ImGuiIO& io = ImGui::GetIO();
    const ImVec2 before(io.MousePos.x - io.MouseDelta.x, io.MousePos.y - io.MouseDelta.y);
    const double turns = turns_round(dial.middle, before, io.MousePos, screen.px(5));
    if (!ImGui::IsItemActivated() && turns != 0) edits.ask(TurnMember{dial.member, turns});
    if (const std::string why = stuck_text(session, dial); !why.empty()) draw_stuck(screen, dial, why);
}

std::string said_value(const Session& session, const Dial& dial) {
    return turns_text(session, dial) + (dial.held ? " held" : "") + (dial.drives ? " driver" : "");
}

bool draw_instrument(Screen& screen, const Session& session, Edits& edits, const Dial& dial) {
    const float radius = screen.px(kRadius_u);
    ImGui::SetCursorScreenPos({dial.middle.x - radius, dial.middle.y - radius});
    (void)ImGui::InvisibleButton("hand", {2 * radius, 2 * radius});
    say(screen, "dial", dial.name, said_value(session, dial));
    const bool by_keyboard = has_keyboard();
    draw_face(screen, dial, dial.lit || by_keyboard);
    draw_hand(screen, dial);
    turn_by_hand(screen, session, edits, dial);
    return by_keyboard;
}

bool draw_pin(Screen& screen, const Session& session, Edits& edits, const Dial& dial) {
    const ImVec2 at(dial.middle.x - screen.px(kRadius_u + 13), dial.middle.y + screen.px(20));
    DiscLook look{24, {}};
    if (dial.held) look.filled = screen.theme->held;
    if (disc_button(screen, Icon::pin, "##pin " + dial.name, dial.held ? "on" : "off", at, look)) {
        if (dial.held)
            edits.change("unpin " + dial.name, unpinned(session.draft(), dial.member));
        else
            edits.change("pin " + dial.name, pinned(session.draft(), dial.member));
    }
    tip(screen, dial.held ? fmt::format("Pull the pin: {} is held no more", dial.name)
                          : fmt::format("Pin {}: hold it against the frame", dial.name));
    return has_keyboard();
}

std::string handle_tip(const Session& session, const Dial& dial) {
    const Train& train = session.study->train();
    const std::vector<Drive>& drive = session.study->setting().drive;
    if (dial.drives)
        return fmt::format("Take the handle off: {} drives no more",
                           drive_text(train, *std::ranges::find(drive, dial.member, &Drive::member)));
    if (drive.size() != 1) return fmt::format("Drive {}", dial.name);
    return fmt::format("Drive {}: in place of {} where the train then moves, else beside it", dial.name,
                       name_of(train, drive.front().member));
}

bool draw_handle(Screen& screen, const Session& session, Edits& edits, const Dial& dial) {
    const ImVec2 at(dial.middle.x + screen.px(kRadius_u + 13), dial.middle.y + screen.px(20));
    DiscLook look{24, {}};
    if (dial.drives) look.filled = screen.theme->driver;
    if (disc_button(screen, Icon::handle, "##drive " + dial.name, dial.drives ? "on" : "off", at, look)) {
        if (dial.drives)
            edits.change("stop driving " + dial.name, not_driven_by(session.draft(), dial.member));
        else
            edits.change("drive " + dial.name, driven_by(session.draft(), dial.member));
    }
    tip(screen, handle_tip(session, dial));
    return has_keyboard();
}

// The exact turns, where they fit, else their decimal, which says that it is one.
void draw_turns(Screen& screen, const Session& session, const Dial& dial, float top) {
    const Theme& theme = *screen.theme;
    const ImVec2 exact_at(dial.middle.x, top);
    const ImVec2 decimal_at(dial.middle.x, top + screen.px(17));
    const std::string exact = turns_text(session, dial);
    if (!dial.turns) return draw_text_round(screen.fonts.text, exact_at, theme.faint, exact);
    const float width = screen.px(kDialWidth_u - 6);
    const std::string decimal = rough_text(*dial.turns);
    const bool fits = fitted(exact, *screen.fonts.bold, width) == exact;
    const ImVec4& ink = dial.turns->is_zero() ? theme.faint : theme.ink;
    draw_text_round(screen.fonts.bold, exact_at, ink, fits ? exact : decimal);
    if (!fits)
        draw_text_round(screen.fonts.small, decimal_at, theme.faint, "rounded");
    else if (!dial.turns->is_whole())
        draw_text_round(screen.fonts.small, decimal_at, theme.faint, decimal);
}

void draw_words(Screen& screen, const Session& session, const Dial& dial) {
    const Theme& theme = *screen.theme;
    const int copies = session.study->train()[dial.member].copies;
    const float top = dial.top_left.y + screen.px(kBelow_u);
    draw_text_round(screen.fonts.small, {dial.middle.x, top}, theme.faint,
                    fitted(dial.name, *screen.fonts.small, screen.px(kDialWidth_u - 8)));
    draw_turns(screen, session, dial, top + screen.px(14));
    if (copies > 1)
        draw_text(screen.fonts.small,
                  {dial.middle.x + screen.px(kRadius_u - 2), dial.middle.y - screen.px(kRadius_u - 2)}, theme.faint,
                  fmt::format("x{}", copies));
}

}  // namespace

MemberIndex observer_of(const Session& session) {
    const MemberIndex observer = session.view.look.observer;
    if (observer == kFrame || observer.position() >= session.study->train().members.size()) return kFrame;
    return observer;
}

std::optional<Ratio> turns_seen(const Session& session, MemberIndex member) {
    const Motion& motion = session.study->motion();
    if (motion.outcome == Outcome::locked || motion.outcome == Outcome::conflicting) return std::nullopt;
    const Combination rate = rate_on(session.study->train(), motion, member, observer_of(session));
    return turns_per_driver_turn(motion, rate);
}

double turns_round(ImVec2 middle, ImVec2 before, ImVec2 now, float least_px) {
    const auto is_near = [&](ImVec2 point) { return std::hypot(point.x - middle.x, point.y - middle.y) < least_px; };
    if (is_near(before) || is_near(now)) return 0;
    const auto angle = [&](ImVec2 point) {
        return std::atan2(static_cast<double>(middle.y - point.y), static_cast<double>(point.x - middle.x));
    };
    const double turns = (angle(now) - angle(before)) / kWholeTurn_rad;
    return turns - std::round(turns);
}

bool draw_dial(Screen& screen, const Session& session, Edits& edits, MemberIndex member,
               std::span<const Ratio> frame_phases_turns, ImVec2 top_left) {
    const Dial dial = dial_of(screen, session, member, frame_phases_turns, top_left);
    ImGui::PushID(member.value);
    bool by_keyboard = draw_instrument(screen, session, edits, dial);
    by_keyboard = draw_pin(screen, session, edits, dial) || by_keyboard;
    by_keyboard = draw_handle(screen, session, edits, dial) || by_keyboard;
    draw_words(screen, session, dial);
    ImGui::PopID();
    if (by_keyboard) edits.view.pointed = member;
    return by_keyboard;
}

}  // namespace couplet
