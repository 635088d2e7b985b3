#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "app/couple_parts.hpp"
#include "app/joint_edits.hpp"
#include "app/panel_parts.hpp"
#include "sheet/coupling_words.hpp"
#include "sheet/numbers.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr float kRemove_u = 26;

std::string title_of(const Train& train, const Coupling& coupling) {
    return fmt::format("{} \u2192 {}", joint_label(train, coupling.first), joint_label(train, coupling.second));
}

// The second joint's name; where several couplings have it, the whole title, and a number where that is met again.
std::vector<std::string> keys_of(const Train& train, const std::vector<Coupling>& couplings) {
    std::map<std::string, int> seconds;
    for (const Coupling& coupling : couplings) ++seconds[joint_name(train, coupling.second)];
    std::map<std::string, int> met;
    std::vector<std::string> keys;
    for (const Coupling& coupling : couplings) {
        std::string key = joint_name(train, coupling.second);
        if (seconds[key] > 1) key = title_of(train, coupling);
        const int nth = ++met[key];
        keys.push_back(nth == 1 ? key : fmt::format("{} ({})", key, nth));
    }
    return keys;
}

bool stands_still(const Coupling& coupling) {
    return coupling.second_per_first && coupling.second_per_first->is_zero();
}

// The whole point of the panel: two numbers, large, and the ways to take them along.
void draw_pair_to_type(Screen& screen, Edits& edits, const Coupling& coupling, const std::string& key) {
    const std::string first = decimal_cell(coupling.to_type.degrees[0]).shown;
    const std::string second = decimal_cell(coupling.to_type.degrees[1]).shown;
    ImGui::PushFont(screen.fonts.large);
    // The large numbers stand in the middle of their buttons' height.
    constexpr float kButton_u = 26;
    const float above = std::max(0.0F, 0.5F * (screen.px(kButton_u) - ImGui::GetFontSize()));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {ImGui::GetStyle().FramePadding.x, above});
    copyable(screen, edits, key + ": first angle", first);
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(":");
    flow(screen, 22 + 11.0F * static_cast<float>(second.size()));
    copyable(screen, edits, key, second);
    ImGui::PopStyleVar();
    ImGui::PopFont();
    flow(screen, 90);
    if (button(screen, "copy both## " + key))
        edits.ask(CopyText{pair_text(coupling.to_type.degrees[0], coupling.to_type.degrees[1])});
}

void draw_formula(Screen& screen, Edits& edits, const Coupling& coupling, const std::string& key) {
    constexpr std::size_t kMostRead = 120;
    const std::string name = key + ": formula";
    copy_button(screen, edits, name, coupling.expression);
    ImGui::SameLine();
    const bool is_long = coupling.expression.size() > kMostRead;
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted((is_long ? coupling.expression.substr(0, kMostRead) + " ..." : coupling.expression).c_str());
    ImGui::PopTextWrapPos();
    say(screen, "text", name, coupling.expression);
}

void draw_numbers(Screen& screen, Edits& edits, const Coupling& coupling, const std::string& key) {
    NamedRows rows(screen, "numbers " + key, 108);
    rows.row("turns per turn");
    const std::string exact = fraction_cell(*coupling.second_per_first).shown;
    const std::string rough = rough_text(*coupling.second_per_first);
    const std::string ratio = fmt::format("{}{}, {}", exact, rough == exact ? "" : fmt::format(" ({})", rough),
                                          coupling.opposite ? "opposite" : "same sense");
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(ratio.c_str());
    say(screen, "text", key + ": ratio", ratio);
    rows.row("whole degrees");
    copyable(screen, edits, key + ": whole degrees", pair_text(coupling.whole_degrees[0], coupling.whole_degrees[1]));
    rows.row(fmt::format("formula for {}", decimal_cell(coupling.degrees[0]).shown));
    draw_formula(screen, edits, coupling, key);
}

void draw_correction(Screen& screen, const Train& train, const CouplingSheet& sheet, const Coupling& coupling,
                     const std::string& key) {
    const CarrierCorrection& correction = *coupling.correction;
    const std::optional<MemberIndex> carrier = turning_carrier(train, sheet, coupling);
    teach(
        screen, key + ": carrier correction",
        fmt::format("A carrier that turns takes the joints on it round, and tooth counts do not see that: the carrier "
                    "correction adds it. {}",
                    why_corrected(train, sheet, coupling)),
        {300, 120}, [&theme = *screen.theme](ImDrawList& list, ImVec2 from, ImVec2 to) {
            draw_correction_picture(theme, list, from, to);
        });
    ImGui::SameLine();
    faint_words(screen, fmt::format("tooth counts alone say {}: wrong by {} deg a turn, since {} turns too",
                                    rough_text(coupling.degrees[0] * correction.bare_second_per_first),
                                    rough_text(correction.difference_deg_per_turn.magnitude()),
                                    carrier ? name_of(train, *carrier) : "a carrier between them"));
}

void draw_obstacle(Screen& screen, const Session& session, Edits& edits, const Coupling& coupling,
                   const std::string& key) {
    words(screen, obstacle_text(session.train(), coupling));
    std::size_t offered = 0;
    for (const MemberIndex member : coupling.holds_to_exist) {
        if (offered == kLongestList) break;
        const std::string& name = name_of(session.train(), member);
        if (offered++ > 0) flow(screen, 60 + 8.0F * static_cast<float>(name.size()));
        if (button(screen, fmt::format("hold {}## for {}", name, key)))
            edits.change("hold " + name, pinned(session.draft(), member));
    }
}

// At the right end of a coupling's first line, which began at `line_from`: takes it out of those that the scene names.
void draw_remove(Screen& screen, const Session& session, Edits& edits, std::size_t which, const std::string& key,
                 ImVec2 line_from) {
    const Train& train = session.train();
    if (train.couplings.empty()) return;
    const ImVec2 below = ImGui::GetCursorScreenPos();
    const float gap = ImGui::GetStyle().ItemSpacing.y;
    const float right = ImGui::GetWindowPos().x + ImGui::GetContentRegionMax().x;
    ImGui::SetCursorScreenPos({right - screen.px(kRemove_u), line_from.y});
    if (icon_button(screen, Icon::cross, "##remove coupling " + key)) {
        ChangedTrain changed = without_coupling(train, session.study->sheet().couplings, which);
        if (changed.train)
            take_train(session, edits, "coupling " + key + " removed", std::move(*changed.train));
        else
            refuse_click(screen, key + ": removed", std::move(changed.why_not));
    }
    tip(screen, train.couplings.size() > 1 ? "remove this coupling"
                                           : "remove this coupling; where a scene names none, all joints are coupled");
    ImGui::SetCursorScreenPos({below.x, std::max(below.y, line_from.y + screen.px(kRemove_u) + gap)});
    show_refusal(screen, key + ": removed");
}

// The joints that need no coupling, and what was typed for them all the same.
void draw_still_joints(Screen& screen, const Session& session, Edits& edits, const std::vector<std::string>& keys) {
    const std::vector<Coupling>& couplings = session.study->sheet().couplings;
    std::vector<std::size_t> still;
    for (std::size_t i = 0; i < couplings.size(); ++i)
        if (stands_still(couplings[i])) still.push_back(i);
    if (still.empty()) return;
    heading(screen, "Stands still: fix this joint instead of coupling it");
    for (std::size_t i = 0; i < std::min(still.size(), kMostShown); ++i) {
        const Coupling& coupling = couplings[still[i]];
        const ImVec2 line_from = ImGui::GetCursorScreenPos();
        if (!session.train().couplings.empty()) ImGui::AlignTextToFramePadding();
        words(screen, joint_label(session.train(), coupling.second));
        draw_remove(screen, session, edits, still[i], keys[still[i]], line_from);
        if (coupling.typed) draw_typed(screen, session, edits, still[i], keys[still[i]]);
    }
    if (still.size() > kMostShown) faint_words(screen, fmt::format("and {} more", still.size() - kMostShown));
}

}  // namespace

void draw_coupling_card(Screen& screen, const Session& session, Edits& edits, std::size_t which,
                        const std::string& key) {
    const Train& train = session.train();
    const CouplingSheet& sheet = session.study->sheet();
    const Coupling& coupling = sheet.couplings[which];
    const bool lit = coupling.second.turns != kFrame && session.view.pointed == coupling.second.turns;
    const Card card(screen, "card " + key, lit ? Card::Look::lit : Card::Look::plain);
    const ImVec2 line_from = ImGui::GetCursorScreenPos();
    const float removing = train.couplings.empty() ? 0 : screen.px(kRemove_u) + ImGui::GetStyle().ItemSpacing.x;
    ImGui::PushFont(screen.fonts.bold);
    ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + ImGui::GetContentRegionAvail().x - removing);
    const std::string title = title_of(train, coupling);
    if (removing > 0) ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(title.c_str());
    ImGui::PopTextWrapPos();
    ImGui::PopFont();
    say(screen, "card", key + ": coupling", title);
    if (ImGui::IsItemHovered() && coupling.second.turns != kFrame) edits.view.pointed = coupling.second.turns;
    draw_remove(screen, session, edits, which, key, line_from);
    if (!coupling.second_per_first) return draw_obstacle(screen, session, edits, coupling, key);
    draw_pair_to_type(screen, edits, coupling, key);
    if (!coupling.to_type.exact) verdict(screen, Verdict::caution, key + ": rounding", drift_text(train, coupling));
    draw_numbers(screen, edits, coupling, key);
    if (coupling.correction) draw_correction(screen, train, sheet, coupling, key);
    draw_typed(screen, session, edits, which, key);
}

void draw_coupling_cards(Screen& screen, const Session& session, Edits& edits) {
    const Train& train = session.train();
    const CouplingSheet& sheet = session.study->sheet();
    if (sheet.motion.outcome == Outcome::locked || sheet.motion.outcome == Outcome::conflicting) return;
    heading(screen, "Couplings: the two angles to type");
    std::vector<std::size_t> turning;
    for (std::size_t i = 0; i < sheet.couplings.size(); ++i)
        if (!stands_still(sheet.couplings[i])) turning.push_back(i);
    if (turning.empty()) words(screen, "No joint turns with another one here.");
    const std::vector<std::string> keys = keys_of(train, sheet.couplings);
    for (const std::size_t i : narrowed(screen, "couplings named", edits.view.panels.joints_named, turning.size(),
                                        [&](std::size_t t) { return title_of(train, sheet.couplings[turning[t]]); }))
        draw_coupling_card(screen, session, edits, turning[i], keys[turning[i]]);
    draw_coupling_list_end(screen, session, edits);
    draw_still_joints(screen, session, edits, keys);
}

}  // namespace couplet
