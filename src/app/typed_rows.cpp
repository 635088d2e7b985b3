#include <fmt/format.h>

#include "app/couple_parts.hpp"
#include "app/joint_edits.hpp"
#include "app/panel_parts.hpp"
#include "sheet/audit_words.hpp"
#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

// The pair with one angle as entered; the other is what stood or was shown faintly beside it.
std::optional<DegreePair> entered_pair(const Coupling& coupling, std::size_t side,
                                       const std::optional<Ratio>& entered) {
    if (!entered) return std::nullopt;
    DegreePair pair = coupling.typed.value_or(coupling.to_type.degrees);
    pair[side] = *entered;
    return pair;
}

void take_typed(Screen& screen, const Session& session, Edits& edits, std::size_t which, const std::string& key,
                const std::optional<DegreePair>& typed) {
    const std::vector<Coupling>& couplings = session.study->sheet().couplings;
    ChangedTrain changed = with_typed(session.train(), couplings, which, typed);
    if (!changed.train) return refuse_click(screen, key + ": typed", std::move(changed.why_not));
    forget_refusal(screen, key + ": typed");
    const std::string joint = joint_name(session.train(), couplings[which].second);
    take_train(session, edits,
               typed ? fmt::format("typed for {}: {}", joint, pair_text((*typed)[0], (*typed)[1]))
                     : fmt::format("nothing typed for {}", joint),
               std::move(*changed.train), "typed for " + key);
}

Verdict sign_of(const Audit& audit) {
    if (audit.is_right()) return Verdict::holds;
    return audit.mistake == Mistake::rounded ? Verdict::caution : Verdict::fails;
}

void draw_audit(Screen& screen, const Session& session, Edits& edits, const Coupling& coupling,
                const std::string& key) {
    const Audit& audit = *coupling.audit;
    verdict(screen, sign_of(audit), key + ": audit",
            fmt::format("{}. {}", verdict_name(audit), audit_explanation(session.train(), coupling)));
    if (audit.is_right() || audit.corrected == *coupling.typed) return;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("type");
    ImGui::SameLine();
    copyable(screen, edits, key + ": corrected", pair_text(audit.corrected[0], audit.corrected[1]));
    ImGui::SameLine();
    ImGui::TextUnformatted("instead");
}

}  // namespace

void draw_typed(Screen& screen, const Session& session, Edits& edits, std::size_t which, const std::string& key) {
    const Coupling& coupling = session.study->sheet().couplings[which];
    {
        NamedRows rows(screen, "typed " + key, 108);
        rows.row("you typed (deg)");
        for (const std::size_t side : {std::size_t{0}, std::size_t{1}}) {
            const std::optional<Ratio> value = coupling.typed ? std::optional((*coupling.typed)[side]) : std::nullopt;
            const std::string usual = decimal_cell(coupling.to_type.degrees[side]).shown;
            const std::string name = fmt::format("{}: typed {}", key, side == 0 ? "first" : "second");
            if (side == 1) {
                ImGui::SameLine();
                ImGui::TextUnformatted(":");
                ImGui::SameLine();
            }
            if (const auto entered = optional_number_field(screen, name, value, kDegrees, usual, 74))
                take_typed(screen, session, edits, which, key, entered_pair(coupling, side, *entered));
        }
        if (coupling.typed) {
            ImGui::SameLine();
            if (icon_button(screen, Icon::cross, "##forget what was typed for " + key))
                take_typed(screen, session, edits, which, key, std::nullopt);
            tip(screen, "forget what was typed");
        }
    }
    show_refusal(screen, key + ": typed");
    if (coupling.audit) draw_audit(screen, session, edits, coupling, key);
}

}  // namespace couplet
