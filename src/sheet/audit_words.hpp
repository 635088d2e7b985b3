// Audit words: the verdict on a typed coupling, and the mistake behind it in one plain sentence.
#pragma once

#include <string>
#include <string_view>

#include "couple/coupling.hpp"

namespace couplet {

// "right", "rounded" or "wrong".
[[nodiscard]] std::string_view verdict_name(const Audit& audit);

// The name of the mistake for programs: "bare_tooth_ratio"; "none" where the coupling is right.
[[nodiscard]] std::string_view mistake_name(Mistake mistake);

// One sentence that tells what was typed, or that it is right. The coupling must have an audit.
[[nodiscard]] std::string audit_explanation(const Train& train, const Coupling& coupling);

// The whole verdict for eyes: joints, angles typed, how far off, why, and what to type instead.
[[nodiscard]] std::string audit_text(const Train& train, const Coupling& coupling);

// What to type instead, and why or by how much it drifts; empty where it is right.
[[nodiscard]] std::string audit_mend(const Train& train, const Coupling& coupling);

}  // namespace couplet
