// Speeds sheet: the ratios that a train offers, over choices of held members or over its settings.
#pragma once

#include <string>
#include <vector>

#include "motion/speeds.hpp"
#include "sheet/format.hpp"

namespace couplet {

// One row for every choice of held members, driver and output that moves. `ties` turn as one in all of them.
[[nodiscard]] std::string speeds_sheet(const Train& train, const std::vector<std::pair<MemberIndex, MemberIndex>>& ties,
                                       const std::vector<SpeedRow>& rows, Format format);

// One row for every setting of a change-speed train, with the step to the next one.
[[nodiscard]] std::string settings_sheet(const Train& train, MemberIndex output, const std::vector<SettingRow>& rows,
                                         Format format);

}  // namespace couplet
