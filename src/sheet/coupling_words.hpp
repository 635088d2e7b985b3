// Coupling words: why a coupling is not what tooth counts say, and what rounding costs, in plain sentences.
#pragma once

#include <optional>
#include <string>

#include "couple/coupling.hpp"

namespace couplet {

// The member whose turning tooth counts do not see: one that turns and carries a member of the two joints. Nothing
// where the carrier stands elsewhere on the way between them. The coupling is one of the sheet's and has a ratio.
[[nodiscard]] std::optional<MemberIndex> turning_carrier(const Train& train, const CouplingSheet& sheet,
                                                         const Coupling& coupling);

// Why the coupling has a carrier correction, in two or three sentences.
[[nodiscard]] std::string why_corrected(const Train& train, const CouplingSheet& sheet, const Coupling& coupling);

// How far the pair to type leaves the true ratio; for a pair that is not exact.
[[nodiscard]] std::string drift_text(const Train& train, const Coupling& coupling);

}  // namespace couplet
