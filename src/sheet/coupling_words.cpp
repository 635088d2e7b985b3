#include "sheet/coupling_words.hpp"

#include <fmt/format.h>

#include <vector>

#include "couple/rates.hpp"
#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

std::optional<MemberIndex> turning_carrier(const Train& train, const CouplingSheet& sheet, const Coupling& coupling) {
    const auto turns = [&](MemberIndex member) {
        const Combination& rate = sheet.members[member.position()].combination;
        return rate.empty() || !is_still(rate);
    };
    for (const MemberIndex member :
         {coupling.second.turns, coupling.second.against, coupling.first.turns, coupling.first.against}) {
        const MemberIndex carrier = member == kFrame ? kFrame : rides_on(train, member);
        if (carrier != kFrame && turns(carrier)) return carrier;
    }
    return std::nullopt;
}

std::string why_corrected(const Train& train, const CouplingSheet& sheet, const Coupling& coupling) {
    const std::optional<MemberIndex> carrier = turning_carrier(train, sheet, coupling);
    if (!carrier)
        return "Tooth counts hold while every carrier on the way from one joint to the other stands still. Here one "
               "turns, and its turning has to be counted in.";
    const std::string name = fmt::format("'{}'", name_of(train, *carrier));
    std::vector<std::string> sitting;
    std::vector<std::string> elsewhere;
    for (const Joint* joint : {&coupling.first, &coupling.second})
        (*carrier == joint->against ? sitting : elsewhere).push_back(fmt::format("'{}'", joint_name(train, *joint)));
    std::string why = fmt::format("Tooth counts hold for an eye that rides on {0}, and {0} turns too.", name);
    if (!sitting.empty()) why += fmt::format(" The joint {} sits there.", list_text(sitting));
    if (!elsewhere.empty())
        why += fmt::format(" {} {} not measured from there, so the turning of {} has to be counted in.",
                           list_text(elsewhere), elsewhere.size() == 1 ? "is" : "are", name);
    return why;
}

std::string drift_text(const Train& train, const Coupling& coupling) {
    std::string text =
        fmt::format("{}: {} drifts by {} deg per 1000 turns of {}", joint_name(train, coupling.second),
                    pair_text(coupling.to_type.degrees[0], coupling.to_type.degrees[1]),
                    rough_text(coupling.to_type.drift_deg_per_1000_turns), joint_name(train, coupling.first));
    if (coupling.turns_to_quarter_tooth)
        text +=
            fmt::format("; a quarter tooth out after {} turns", rough_text(coupling.turns_to_quarter_tooth->floor()));
    return text + ". The formula is exact.";
}

}  // namespace couplet
