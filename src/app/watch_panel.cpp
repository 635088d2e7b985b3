#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/diagram_drawing.hpp"
#include "app/keys.hpp"
#include "app/panel_parts.hpp"
#include "app/panels.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

// More members than this make no drawing that can be read.
constexpr std::size_t kMostDrawnMembers = 60;

// A heading with the sign that teaches at its right end.
void taught_heading(Screen& screen, std::string_view text, std::string_view teaching) {
    const ImVec2 from = ImGui::GetCursorScreenPos();
    const float right = from.x + ImGui::GetContentRegionAvail().x;
    heading(screen, text);
    const ImVec2 below = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos({right - screen.px(20), from.y + screen.px(8)});
    teach(screen, text, teaching);
    ImGui::SetCursorScreenPos(below);
}

std::string short_number(double value) {
    return std::abs(value) >= 1000 ? fmt::format("{:.0f}", value) : fmt::format("{:.3g}", value);
}

// Three digits, and exactly 1 near it.
double settled_speed(double speed) {
    if (std::abs(std::log10(speed)) < 0.03) return 1;
    const double unit = std::pow(10, std::floor(std::log10(speed)) - 2);
    return std::clamp(std::round(speed / unit) * unit, ViewState::kSlowest, ViewState::kFastest);
}

void draw_running_buttons(Screen& screen, const ViewState& view, Edits& edits) {
    const auto key = [](KeyDeed deed) { return strokes_text(deed); };
    if (icon_button(screen, Icon::to_start, "to start", key(KeyDeed::to_start))) edits.ask(BackToStart{});
    ImGui::SameLine();
    if (icon_button(screen, Icon::step_back, "back by one tooth", key(KeyDeed::step_back))) edits.ask(StepTooth{-1});
    ImGui::SameLine();
    if (icon_button(screen, view.running ? Icon::stop : Icon::run, "run or stop", key(KeyDeed::run_or_stop), true,
                    view.running))
        edits.view.running = !view.running;
    ImGui::SameLine();
    if (icon_button(screen, Icon::step_on, "on by one tooth", key(KeyDeed::step_on))) edits.ask(StepTooth{1});
    ImGui::SameLine(0, screen.px(18));
    if (const std::optional<bool> backwards = on_off(screen, "backwards", view.backwards))
        edits.view.backwards = *backwards;
}

void draw_speed(Screen& screen, const Session& session, Edits& edits) {
    const ViewState& view = session.view;
    const std::string times = short_number(view.speed) + " x";
    if (const std::optional<double> speed =
            slider(screen, "speed", view.speed, ViewState::kSlowest, ViewState::kFastest, times, 250))
        edits.view.speed = settled_speed(*speed);
    const std::optional<Drive>& driver = session.study->sheet().reference_driver;
    if (!driver) return;
    const double rpm = driver->rpm.to_double() * view.speed * (view.backwards ? -1 : 1);
    faint_words(screen, fmt::format("{} turns at {} rpm", name_of(session.train(), driver->member), short_number(rpm)));
}

void draw_settings(Screen& screen, const Session& session, Edits& edits) {
    const Draft& draft = session.draft();
    if (draft.train.settings.empty()) return;
    std::vector<std::string> names;
    for (const Setting& setting : draft.train.settings) names.push_back(setting.name);
    // What is tried stands beside the settings until it is kept or one of them is chosen again.
    if (draft.trial) names.push_back("tried: " + draft.trial->name);
    const std::size_t chosen = draft.trial ? names.size() - 1 : draft.chosen.position();
    constexpr std::size_t kMostSegments = 6;
    const std::optional<std::size_t> clicked = names.size() <= kMostSegments
                                                   ? segments(screen, "setting", names, chosen)
                                                   : choice(screen, "setting", names, chosen, 300);
    if (clicked && *clicked < draft.train.settings.size())
        edits.ask(ChooseSetting{{static_cast<std::int32_t>(*clicked)}});
}

void draw_outcome(Screen& screen, const Session& session) {
    const Motion& motion = session.study->motion();
    if (motion.outcome == Outcome::moves) return;
    verdict(screen, motion.outcome == Outcome::free ? Verdict::caution : Verdict::fails, "outcome",
            outcome_line(motion));
    for (const std::string& advice : outcome_advice(session.train(), session.study->sheet()))
        faint_words(screen, advice);
}

void draw_driver(Screen& screen, const Session& session, Edits& edits, const Drive& drive, bool is_only_one) {
    const std::string& name = name_of(session.train(), drive.member);
    (void)member_row(screen, session.view.pointed, edits, drive.member, name);
    ImGui::AlignTextToFramePadding();
    ImGui::PushStyleColor(ImGuiCol_Text, screen.theme->driver);
    ImGui::TextUnformatted(name.c_str());
    ImGui::PopStyleColor();
    ImGui::TableNextColumn();
    if (const std::optional<Ratio> rpm = number_field(screen, "rpm of " + name, drive.rpm, kRpm)) {
        const Drive changed{drive.member, *rpm};
        edits.change(drive_text(session.train(), changed), driven_at(session.draft(), drive.member, *rpm),
                     "speed of " + name);
    }
    ImGui::TableNextColumn();
    if (!is_only_one && icon_button(screen, Icon::cross, "let go of " + name))
        edits.change(name + " drives no more", not_driven_by(session.draft(), drive.member));
}

// Members that could drive too, or in the place of the driver.
std::vector<MemberIndex> further_drivers(const Session& session) {
    const CouplingSheet& sheet = session.study->sheet();
    if (sheet.explanation && !sheet.explanation->could_drive.empty()) return sheet.explanation->could_drive;
    std::vector<MemberIndex> found;
    const Setting& setting = sheet.setting;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(session.train().members.size()); ++m) {
        if (!is_held(setting, {m}) && !is_driven(setting, {m}) && rides_on(session.train(), {m}) == kFrame)
            found.push_back({m});
    }
    return found;
}

void draw_drivers(Screen& screen, const Session& session, Edits& edits) {
    const std::vector<Drive>& drivers = session.study->setting().drive;
    constexpr PanelColumn kColumns[] = {{"driven", 0}, {"rpm", 90}, {"", 26}};
    if (!drivers.empty() && begin_rows(screen, "drivers", kColumns)) {
        for (const Drive& drive : drivers) draw_driver(screen, session, edits, drive, drivers.size() == 1);
        ImGui::EndTable();
    }
    const std::vector<MemberIndex> others = further_drivers(session);
    if (others.empty()) return;
    const std::string_view what_for =
        session.study->motion().missing_drivers > 0 ? "drive also..." : "drive instead...";
    if (const std::optional<MemberIndex> member =
            member_choice(screen, "drive", session.train(), others, what_for, 180))
        edits.change(name_of(session.train(), *member) + " drives", driven_by(session.draft(), *member));
}

void draw_observer(Screen& screen, const Session& session, Edits& edits) {
    taught_heading(screen, "Observer",
                   "The view rides on the observer, which then seems to stand still. Ride on a carrier and its planets "
                   "only spin on their pins, as tooth counts say: what the carrier adds to that is the carrier "
                   "correction.");
    const Train& train = session.train();
    std::vector<std::string> names{"frame"};
    for (std::size_t m = 0; m < std::min(train.members.size(), kMostListed); ++m)
        names.push_back(train.members[m].name);
    const auto chosen = static_cast<std::size_t>(session.view.look.observer.value + 1);
    if (const std::optional<std::size_t> clicked = choice(screen, "observer", names, chosen, 220)) {
        edits.view.look.observer = {static_cast<std::int32_t>(*clicked) - 1};
        edits.view.fit_camera = true;
    }
}

void draw_view(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "View");
    static const std::vector<std::string> kViews(std::begin(kNamedViews), std::end(kNamedViews));
    // The hand turns the camera on from any of them, so none is the chosen one.
    if (const std::optional<std::size_t> clicked = segments(screen, "view", kViews, kViews.size()))
        edits.view.go_to = static_cast<NamedView>(*clicked);
    flow(screen, 50);
    if (button(screen, "Fit")) edits.view.fit_camera = true;
    tip(screen, "fill the picture with the machine  [" + strokes_text(KeyDeed::fit) + "]");
    static const std::vector<std::string> kLooks = {"metal", "clay", "line"};
    const auto look = static_cast<std::size_t>(session.view.look.look);
    if (const std::optional<std::size_t> clicked = segments(screen, "look", kLooks, look))
        edits.view.look.look = static_cast<Look>(*clicked);
}

struct Shown {
    const char* name;
    bool StageLook::*shown;
};
constexpr Shown kShown[] = {
    {"pitch circles", &StageLook::pitch_circles},
    {"centres", &StageLook::centre_lines},
    {"speeds", &StageLook::arrows},
    {"contacts", &StageLook::contacts},
    {"names", &StageLook::names},
    {"tooth marks", &StageLook::marks},
    {"cutaway", &StageLook::cutaway},
};

void draw_shown(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Shown");
    if (ImGui::BeginTable("shown", 2, ImGuiTableFlags_NoSavedSettings)) {
        for (const Shown& one : kShown) {
            ImGui::TableNextColumn();
            if (const std::optional<bool> on = on_off(screen, one.name, session.view.look.*one.shown))
                edits.view.look.*one.shown = *on;
        }
        ImGui::EndTable();
    }
    const double spread = session.view.look.spread;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("pulled apart");
    ImGui::SameLine();
    if (const std::optional<double> part =
            slider(screen, "spread", spread, 0, 1, fmt::format("{:.0f} %", 100 * spread), 180))
        edits.view.look.spread = *part;
}

void draw_levers(Screen& screen, const Session& session, Edits& edits) {
    const std::vector<Lever> levers = levers_of(session.train(), session.study->motion());
    if (levers.empty()) return;
    taught_heading(
        screen, levers.size() == 1 ? "Lever diagram" : "Lever diagrams",
        "Each bar is a member's speed, and the tips always lie on one straight lever, whose spacing comes from "
        "tooth counts. Hold one point on the line of standing still, push another, and the lever shows where "
        "all the others go.");
    if (const std::optional<Drive>& driver = session.study->sheet().reference_driver)
        faint_words(screen, "turns per turn of " + name_of(session.train(), driver->member));
    for (std::size_t i = 0; i < levers.size(); ++i)
        draw_lever(screen, session, edits, levers[i],
                   fmt::format("lever {} of {}", i + 1, name_of(session.train(), levers[i].carrier)));
}

void draw_speed_plan(Screen& screen, const Session& session, Edits& edits) {
    taught_heading(
        screen, "Speed plan",
        "A cut through the axes: upwards is the distance from the axis, to the right how fast each member goes "
        "there. Where two gears touch, at the small rings, their lines meet, because they roll on each other "
        "without slipping.");
    const OrWhyNot<std::shared_ptr<const Stage>>& stage = session.study->stage();
    if (!stage.part) {
        faint_words(screen, "No plan: " + stage.why_not);
        return;
    }
    const std::vector<PlanSection> plan =
        speed_plan_of(session.train(), (*stage.part)->placement, session.study->motion());
    if (plan.empty()) faint_words(screen, "No plan: no mesh whose speed is known.");
    for (std::size_t i = 0; i < plan.size(); ++i)
        draw_plan_section(screen, session, edits, plan[i], fmt::format("plan {}", i + 1));
}

}  // namespace

void draw_watch_panel(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Running");
    draw_running_buttons(screen, session.view, edits);
    draw_speed(screen, session, edits);
    draw_settings(screen, session, edits);
    draw_outcome(screen, session);
    draw_drivers(screen, session, edits);
    draw_observer(screen, session, edits);
    draw_view(screen, session, edits);
    draw_shown(screen, session, edits);
    if (session.train().members.size() > kMostDrawnMembers) {
        faint_words(screen, fmt::format("Lever diagrams and speed plans are drawn for trains of at most {} members.",
                                        kMostDrawnMembers));
        return;
    }
    draw_levers(screen, session, edits);
    draw_speed_plan(screen, session, edits);
}

}  // namespace couplet
