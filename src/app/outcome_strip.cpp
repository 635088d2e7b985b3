#include "app/outcome_strip.hpp"

#include <algorithm>

#include "app/disc_button.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr float kGap_u = 12;
// As many of the members that could drive as get a button; the words name more.
constexpr std::size_t kMostOffered = 4;

using Tie = std::pair<MemberIndex, MemberIndex>;

bool are_alike(const Tie& a, const Tie& b) {
    return a == b || (a.first == b.second && a.second == b.first);
}

// Above the words that stand at the lower edge of the stage while the view rides on a member or a joint is picked.
float bottom_px(const Screen& screen, const Session& session, const Places_px& places) {
    const bool words_below = session.view.look.observer != kFrame || session.view.joint_pick;
    const float lifted = words_below ? ImGui::GetFontSize() + screen.px(18) : 0;
    return places.stage_to.y - screen.px(kGap_u) - lifted;
}

// It lies on the stage like the stage's own words: nothing of it is clicked.
void draw_chip(Screen& screen, const Session& session, const Places_px& places) {
    const Theme& theme = *screen.theme;
    const std::string text = outcome_line(session.study->motion());
    const float side = ImGui::GetFontSize();
    const ImVec2 pad(screen.px(9), screen.px(5));
    const ImVec2 size(ImGui::CalcTextSize(text.c_str()).x + side + screen.px(6) + 2 * pad.x, side + 2 * pad.y);
    const ImVec2 from(places.stage_from.x + screen.px(kGap_u), bottom_px(screen, session, places) - size.y);
    const ImVec2 to(from.x + size.x, from.y + size.y);
    ImDrawList& list = *ImGui::GetBackgroundDrawList();
    list.AddRectFilled(from, to, colour(theme.panel, 0.86F), screen.px(5));
    draw_icon(list, Icon::good, {from.x + pad.x + 0.5F * side, 0.5F * (from.y + to.y)}, 0.85F * side,
              colour(theme.good));
    list.AddText({from.x + pad.x + side + screen.px(6), from.y + pad.y}, colour(theme.ink), text.c_str());
    say(screen, "verdict", "verdict", text, from, to);
}

// Beside the last button where it fits, else on the next line.
bool flowing_button(Screen& screen, const std::string& name, ButtonKind kind, bool first) {
    const float width = ImGui::CalcTextSize(name.c_str()).x + screen.px(24);
    const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
    const bool fits = ImGui::GetItemRectMax().x + ImGui::GetStyle().ItemSpacing.x + width <= right;
    if (!first && fits) ImGui::SameLine();
    return button(screen, name, kind);
}

void offer_releases(Screen& screen, const Session& session, Edits& edits, const Explanation& explanation) {
    const Study& study = *session.study;
    bool first = true;
    for (const Release& release : explanation.releases) {
        const std::string name = release_name(study.train(), study.setting(), release);
        const ButtonKind kind = first ? ButtonKind::main : ButtonKind::plain;
        if (flowing_button(screen, name, kind, first)) edits.change(name, released(study.draft(), release));
        first = false;
    }
}

void offer_drivers(Screen& screen, const Session& session, Edits& edits, const Explanation& explanation) {
    const std::size_t count = std::min(kMostOffered, explanation.could_drive.size());
    for (std::size_t i = 0; i < count; ++i) {
        const MemberIndex member = explanation.could_drive[i];
        const std::string name = "drive " + name_of(session.study->train(), member);
        const ButtonKind kind = i == 0 ? ButtonKind::main : ButtonKind::plain;
        // Beside the drivers that there are: that is what is missing.
        if (flowing_button(screen, name, kind, i == 0)) edits.change(name, driven_by(session.draft(), member));
        if (ImGui::IsItemHovered()) edits.view.pointed = member;
    }
}

void draw_advice(Screen& screen, const Session& session, Edits& edits) {
    const Study& study = *session.study;
    const bool is_free = study.motion().outcome == Outcome::free;
    const std::vector<std::string> advice = outcome_advice(study.train(), study.sheet());
    for (std::size_t i = 0; i < advice.size(); ++i) {
        if (i == 0)
            verdict(screen, is_free ? Verdict::caution : Verdict::fails, "verdict", advice[i]);
        else
            words(screen, advice[i]);
    }
    if (!study.sheet().explanation) return;
    if (study.motion().outcome == Outcome::locked) offer_releases(screen, session, edits, *study.sheet().explanation);
    if (is_free) offer_drivers(screen, session, edits, *study.sheet().explanation);
}

void draw_strip(Screen& screen, const Session& session, Edits& edits, const Places_px& places) {
    const float room = places.stage_to.x - places.stage_from.x - 2 * screen.px(kGap_u);
    const float width = std::clamp(room, screen.px(200), screen.px(760));
    const float highest = 0.4F * (places.stage_to.y - places.stage_from.y);
    ImGui::SetNextWindowPos({places.stage_from.x + screen.px(kGap_u), bottom_px(screen, session, places)}, 0, {0, 1});
    ImGui::SetNextWindowSize({width, 0});
    ImGui::SetNextWindowSizeConstraints({width, 0}, {width, std::max(highest, screen.px(90))});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, screen.px(8));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, screen.scale);
    ImGui::Begin("outcome", nullptr, kPartOfFrame | ImGuiWindowFlags_NoFocusOnAppearing);
    ImGui::PopStyleVar(2);
    draw_advice(screen, session, edits);
    ImGui::End();
}

}  // namespace

std::string release_name(const Train& train, const Setting& setting, const Release& release) {
    std::vector<std::string> parts;
    for (const std::size_t hold : release.holds) parts.push_back("pull " + name_of(train, setting.hold[hold]));
    for (const std::size_t tie : release.ties) parts.push_back("untie " + tie_text(train, setting.tie[tie]));
    return list_text(parts);
}

Draft released(const Draft& draft, const Release& release) {
    const Setting setting = running_setting(draft);
    Draft result = draft;
    for (const std::size_t hold : release.holds) result = unpinned(result, setting.hold[hold]);
    for (const std::size_t tie : release.ties) {
        // Where it stands by now: a trial that has come to be like the chosen setting has that one's order.
        const std::vector<Tie> ties = running_setting(result).tie;
        const auto found = std::ranges::find_if(ties, [&](const Tie& one) { return are_alike(one, setting.tie[tie]); });
        if (found != ties.end()) result = without_tie(result, static_cast<std::size_t>(found - ties.begin()));
    }
    return result;
}

void draw_outcome(Screen& screen, const Session& session, Edits& edits, const Places_px& places) {
    screen.panel = "outcome";
    if (session.study->motion().outcome == Outcome::moves)
        draw_chip(screen, session, places);
    else
        draw_strip(screen, session, edits, places);
}

}  // namespace couplet
