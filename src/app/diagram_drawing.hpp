// Diagram drawing: a lever or a section of the speed plan as a small drawing at the panel's width.
//
// Velocity goes to the right of a line that stands for standing still, the other sense to its left; members are named
// at their height on the left. A member under the cursor lights up everywhere and a lit one stands out here. Each
// member is said as a "point" called "<name>: <member>".
#pragma once

#include <string>

#include "app/session.hpp"
#include "app/widgets.hpp"
#include "sheet/diagrams.hpp"

namespace couplet {

void draw_lever(Screen& screen, const Session& session, Edits& edits, const Lever& lever, const std::string& name);
void draw_plan_section(Screen& screen, const Session& session, Edits& edits, const PlanSection& section,
                       const std::string& name);

// Heights for labels that want to stand at `wanted` (rising): at least `gap` apart, as near as can be and within the
// range where it has room for them.
[[nodiscard]] std::vector<float> apart(std::vector<float> wanted, float gap, float least, float most);

}  // namespace couplet
