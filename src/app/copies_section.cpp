#include <fmt/format.h>

#include <algorithm>

#include "app/panel_parts.hpp"
#include "app/size_edits.hpp"
#include "app/size_parts.hpp"
#include "exact/decimal.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

// Beyond this many nobody counts copies one by one; a scene file may ask for more.
constexpr int kMostCopiesAsked = 1000;

std::string places_text(const Member& member) {
    if (member.at_deg.empty()) return member.copies > 1 ? "equally spaced" : "";
    std::vector<std::string> angles;
    for (const Ratio& angle : member.at_deg) angles.push_back(decimal_text(angle, 3));
    return fmt::format("at {} deg", list_text(angles));
}

void take(const Session& session, Edits& edits, std::string what, Train train, std::string key = {}) {
    Draft draft = session.draft();
    draft.train = std::move(train);
    edits.change(std::move(what), std::move(draft), std::move(key));
}

void match_shifts_of(Screen& screen, const Session& session, Edits& edits, const std::string& button_name) {
    forget_refusal(screen, button_name);
    try {
        take(session, edits, "shifts matched", match_shifts(session.train()).train);
    } catch (const TeethError& error) {
        refuse_click(screen, button_name, error.what());
    }
}

void draw_member(Screen& screen, const Session& session, Edits& edits, MemberIndex index,
                 const FindingPlaces& findings) {
    const Train& train = session.train();
    const Member& member = train[index];
    {
        NamedRows rows(screen, "copies " + member.name, 150);
        rows.row(default_joint_name(train, index, member.rides_on));
        if (ImGui::IsItemHovered()) edits.view.pointed = index;
        const int most = std::max(kMostCopiesAsked, member.copies);
        if (const auto copies = whole_field(screen, "copies of " + member.name, member.copies, 1, most))
            take(session, edits, fmt::format("copies of {}: {}", member.name, *copies),
                 with_copies(train, index, *copies), "copies of " + member.name);
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        faint_words(screen, places_text(member));
        if (!member.at_deg.empty())
            if (button(screen, "space equally## " + member.name))
                take(session, edits, member.name + " equally spaced", with_copies(train, index, member.copies));
    }
    const auto found = findings.members.find(index);
    if (found == findings.members.end()) return;
    draw_findings(screen, found->second);
    const bool disagree = std::ranges::any_of(
        found->second, [](const Finding& finding) { return finding.rule == "centre distances agree"; });
    if (!disagree) return;
    const std::string name = "match shifts## of " + member.name;
    if (button(screen, name)) match_shifts_of(screen, session, edits, name);
    tip(screen, "keeps the first mesh of every planet and solves the shift of its other partners");
    show_refusal(screen, name);
}

}  // namespace

void draw_copies_section(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings) {
    const Train& train = session.train();
    std::vector<MemberIndex> carried;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m)
        if (train[MemberIndex{m}].copies > 1 || rides_on(train, {m}) != kFrame) carried.push_back({m});
    if (carried.empty()) return;
    heading(screen, "Copies");
    for (const std::size_t i : narrowed(screen, "copies named", edits.view.panels.gears_named, carried.size(),
                                        [&](std::size_t c) { return name_of(train, carried[c]); }))
        draw_member(screen, session, edits, carried[i], findings);
}

}  // namespace couplet
