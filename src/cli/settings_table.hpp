// Settings table: what `--settings all` prints, whichever verb it is given to.
#pragma once

#include "cli/options.hpp"
#include "cli/scene_input.hpp"

namespace couplet {

// Prints the row of every setting and returns the exit status. The output is the member asked for, else the one that is
// the output of all settings. UsageError where there is no setting or no such member.
[[nodiscard]] int print_settings(const SceneInput& scene, const SheetOptions& options);

}  // namespace couplet
