#include <fmt/format.h>

#include <array>

#include "app/couple_parts.hpp"
#include "app/joint_edits.hpp"
#include "app/panel_parts.hpp"
#include "couple/joints.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::string pair_of(const Train& train, const Joint& joint) {
    return fmt::format("{} against {}", name_of(train, joint.turns), name_of(train, joint.against));
}

constexpr std::array<PanelColumn, 3> kColumns = {PanelColumn{"joint", 0}, {"", 84}, {"", 30}};

void draw_name(Screen& screen, const Session& session, Edits& edits, const Joint& joint, const std::string& name) {
    const Train& train = session.train();
    if (!is_explicit(train, joint)) {
        ImGui::AlignTextToFramePadding();
        return words(screen, name);
    }
    const auto renamed = checked_text_field(
        screen, "name of " + name, joint.name, "name",
        [&](const std::string& text) { return with_joint_named(train, joint, text).why_not; }, 200);
    if (renamed) take_train(session, edits, "joint " + *renamed, *with_joint_named(train, joint, *renamed).train);
    if (name != default_joint_name(train, joint.turns, joint.against)) faint_words(screen, pair_of(train, joint));
}

void draw_joint(Screen& screen, const Session& session, Edits& edits, const Joint& joint) {
    const Train& train = session.train();
    const std::string name = joint_name(train, joint);
    const MemberIndex lit = joint.turns == kFrame ? joint.against : joint.turns;
    (void)member_row(screen, session.view.pointed, edits, lit, "joint " + name);
    ImGui::BeginGroup();
    draw_name(screen, session, edits, joint, name);
    ImGui::EndGroup();
    ImGui::TableNextColumn();
    if (const auto flipped = on_off(screen, "flipped## " + name, joint.flipped))
        take_train(session, edits, fmt::format("{} {}", name, *flipped ? "flipped" : "not flipped"),
                   with_joint_flipped(train, joint, *flipped));
    tip(screen, "its axis points to -Z in your model, so its angle counts the other way");
    ImGui::TableNextColumn();
    if (!is_explicit(train, joint)) return;
    if (icon_button(screen, Icon::cross, "##remove joint " + name))
        take_train(session, edits, "joint " + name + " removed", without_joint(train, joint));
    tip(screen, "remove this joint");
}

void choose_against(Screen& screen, const Session& session, Edits& edits, MemberIndex turns) {
    const Train& train = session.train();
    const std::vector<MemberIndex> members = could_turn_against(train, turns);
    const auto against = member_choice(screen, "joint: against", train, members, "against ...");
    if (!against) return;
    const ChangedTrain changed = with_joint(train, turns, *against);
    if (!changed.train) return refuse_click(screen, "add joint", changed.why_not);
    take_train(session, edits, "joint " + joint_name(train, changed.train->joints.back()), *changed.train);
    edits.view.joint_pick.reset();
}

// The member that was named first; kFrame, which never turns, where none was.
MemberIndex picked_turns(const Session& session) {
    const MemberIndex turns = session.view.joint_pick->turns.value_or(kFrame);
    return turns != kFrame && turns.position() < session.train().members.size() ? turns : kFrame;
}

// By clicks on the stage, or by the two lists here.
void draw_joint_pick(Screen& screen, const Session& session, Edits& edits) {
    const Train& train = session.train();
    const MemberIndex turns = picked_turns(session);
    words(screen, turns != kFrame ? fmt::format("{} turns. Click the member that it turns against, or choose it here.",
                                                name_of(train, turns))
                                  : "Click the member that turns, then the one that it turns against; or choose them "
                                    "here.");
    std::vector<MemberIndex> members;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) members.push_back({m});
    const std::string first = turns != kFrame ? name_of(train, turns) + " turns" : "turns ...";
    if (const auto chosen = member_choice(screen, "joint: turns", train, members, first))
        edits.view.joint_pick = JointPick{*chosen};
    if (turns != kFrame) {
        flow(screen, 150);
        choose_against(screen, session, edits, turns);
    }
    flow(screen, 70);
    if (button(screen, "cancel## the joint", ButtonKind::quiet)) edits.view.joint_pick.reset();
    show_refusal(screen, "add joint");
}

}  // namespace

void draw_joint_section(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Joints");
    const std::vector<Joint> joints = joints_of(session.train());
    const std::vector<std::size_t> shown =
        narrowed(screen, "joints named", edits.view.panels.joints_named, joints.size(),
                 [&](std::size_t j) { return joint_label(session.train(), joints[j]); });
    if (begin_rows(screen, "joint rows", kColumns)) {
        for (const std::size_t i : shown) draw_joint(screen, session, edits, joints[i]);
        ImGui::EndTable();
    }
    if (session.view.joint_pick) return draw_joint_pick(screen, session, edits);
    if (button(screen, "add a joint")) {
        forget_refusal(screen, "add joint");
        edits.view.joint_pick = JointPick{};
    }
    tip(screen, "for a joint in your model between two other members");
}

}  // namespace couplet
