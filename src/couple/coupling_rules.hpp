// Coupling rules: whether a setting moves, whether two joints can be coupled, and whether what was typed for them is
// right.
//
// Their mends are left empty: outcomes and mistakes are explained by the words of the sheets.
#pragma once

#include "couple/coupling.hpp"
#include "train/finding.hpp"

namespace couplet {

// A setting must have as many drivers as its freedom, and each of them must be able to turn as it is driven (mobility:
// Gruebler; Kutzbach; from memory). The figure counts the drivers; the limit the freedom, less where drivers are
// blocked or contradict each other. Fails where the setting is free, locked or conflicting.
[[nodiscard]] Finding mobility_finding(const CouplingSheet& sheet);

// The figure counts the ratios that two joints have, of which one is needed: 0 where one can turn without the other.
[[nodiscard]] Finding existence_finding(const Train& train, const Coupling& coupling);

// The figure is how far the second joint is off after one turn of the first, in degrees; where what was typed is right
// but for rounding, a caution, how far it drifts in 1000 turns. Where the first angle is 0 it is the joint's whole way.
// The coupling must have an audit.
[[nodiscard]] Finding audit_finding(const Train& train, const Coupling& coupling);

}  // namespace couplet
