#include <algorithm>

#include "app/couple_parts.hpp"
#include "app/joint_edits.hpp"
#include "app/panel_parts.hpp"
#include "couple/joints.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::optional<Joint> joint_choice(Screen& screen, std::string_view name, const Train& train,
                                  const std::vector<Joint>& joints, std::string what_for) {
    constexpr float kWidth_u = 250;
    if (joints.size() > kMostListed) {
        faint_words(screen, "There are too many joints for a list; name the coupling in the scene file.");
        return std::nullopt;
    }
    std::vector<std::string> options{std::move(what_for)};
    for (const Joint& joint : joints) options.push_back(joint_label(train, joint));
    const std::optional<std::size_t> chosen = choice(screen, name, options, 0, kWidth_u);
    return chosen ? std::optional(joints[*chosen - 1]) : std::nullopt;
}

void choose_second(Screen& screen, const Session& session, Edits& edits, const std::vector<Joint>& joints,
                   const Joint& first) {
    const Train& train = session.train();
    std::vector<Joint> others;
    std::ranges::copy_if(joints, std::back_inserter(others), [&](const Joint& joint) { return joint != first; });
    const std::optional<Joint> second = joint_choice(screen, "coupling: second", train, others, "to ...");
    if (!second) return;
    ChangedTrain changed = with_coupling(train, session.study->sheet().couplings, first, *second);
    if (!changed.train) return refuse_click(screen, "add coupling", std::move(changed.why_not));
    take_train(session, edits,
               "coupling of " + joint_name(train, first) + " and " + joint_name(train, *second) + " added",
               std::move(*changed.train));
    edits.view.coupling_pick.reset();
}

void draw_coupling_pick(Screen& screen, const Session& session, Edits& edits) {
    const Train& train = session.train();
    const std::vector<Joint> joints = joints_of(train);
    std::optional<Joint> first = session.view.coupling_pick->first;
    if (first && std::ranges::find(joints, *first) == joints.end()) first.reset();
    words(screen, "Choose the joint that you turn by, then the one that follows it.");
    if (const std::optional<Joint> chosen =
            joint_choice(screen, "coupling: first", train, joints, first ? joint_label(train, *first) : "from ..."))
        edits.view.coupling_pick = CouplingPick{*chosen};
    if (first) choose_second(screen, session, edits, joints, *first);
    if (button(screen, "cancel## the coupling", ButtonKind::quiet)) edits.view.coupling_pick.reset();
    show_refusal(screen, "add coupling");
}

}  // namespace

void draw_coupling_list_end(Screen& screen, const Session& session, Edits& edits) {
    if (session.view.coupling_pick) return draw_coupling_pick(screen, session, edits);
    if (button(screen, "add a coupling")) {
        forget_refusal(screen, "add coupling");
        edits.view.coupling_pick = CouplingPick{};
    }
    tip(screen, "of any two joints; the scene then names its couplings, and each can be removed");
    if (session.train().couplings.empty()) return;
    flow(screen, 160);
    if (button(screen, "couple all joints again", ButtonKind::quiet))
        take_train(session, edits, "couple all joints", with_default_couplings(session.train()));
    tip(screen, "the driver's joint with every other one; angles typed are forgotten");
}

}  // namespace couplet
