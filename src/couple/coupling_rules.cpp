#include "couple/coupling_rules.hpp"

#include <algorithm>

namespace couplet {

namespace {

const char* const kExactRates = "exact rates of the joints";

std::size_t drivers_with_room(const CouplingSheet& sheet) {
    const Motion& motion = sheet.motion;
    const auto freedom = static_cast<std::size_t>(motion.freedom);
    if (motion.outcome == Outcome::moves || motion.outcome == Outcome::free) return freedom;
    const bool is_locked = motion.outcome == Outcome::locked && sheet.explanation;
    const std::size_t stuck = is_locked ? sheet.explanation->blocked.size() : motion.contradictions.size();
    return std::min(freedom, motion.drivers.size() - std::min(stuck, motion.drivers.size()));
}

std::string joints_of_coupling(const Train& train, const Coupling& coupling) {
    const auto name = [&](const Joint& joint) {
        return joint.name.empty() ? default_joint_name(train, joint.turns, joint.against) : joint.name;
    };
    return name(coupling.first) + " to " + name(coupling.second);
}

Verdict verdict_of(const Audit& audit) {
    if (audit.is_right()) return Verdict::holds;
    return audit.mistake == Mistake::rounded ? Verdict::caution : Verdict::fails;
}

}  // namespace

Finding mobility_finding(const CouplingSheet& sheet) {
    return {"drivers as many as the freedom",
            sheet.setting.name,
            static_cast<double>(sheet.motion.drivers.size()),
            static_cast<double>(drivers_with_room(sheet)),
            "",
            sheet.motion.outcome == Outcome::moves ? Verdict::holds : Verdict::fails,
            "mobility (Gruebler, Kutzbach)",
            ""};
}

Finding existence_finding(const Train& train, const Coupling& coupling) {
    const bool exists = coupling.second_per_first.has_value();
    return {"coupling exists",
            joints_of_coupling(train, coupling),
            exists ? 1.0 : 0.0,
            1.0,
            "",
            exists ? Verdict::holds : Verdict::fails,
            kExactRates,
            ""};
}

Finding audit_finding(const Train& train, const Coupling& coupling) {
    const Audit& audit = *coupling.audit;
    const bool rounded = audit.mistake == Mistake::rounded;
    const Ratio off = rounded                          ? audit.drift_deg_per_1000_turns
                      : (*coupling.typed)[0].is_zero() ? *coupling.second_per_first * Ratio(360)
                                                       : audit.off_deg_per_turn;
    return {"typed coupling",
            joints_of_coupling(train, coupling),
            off.magnitude().to_double(),
            0.0,
            rounded ? "deg per 1000 turns" : "deg per turn",
            verdict_of(audit),
            kExactRates,
            ""};
}

}  // namespace couplet
