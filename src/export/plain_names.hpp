// Plain names: names that every file system and every reader of robot descriptions takes.
#pragma once

#include <string>
#include <vector>

namespace couplet {

// By entry: ASCII letters, digits and '_' only, none empty, none beginning with a digit, all different whatever the
// case of their letters; what had to be changed for that is numbered ("gear", "gear_2"). Names that are plain already
// come first to keep theirs.
[[nodiscard]] std::vector<std::string> plain_names(const std::vector<std::string>& names);

}  // namespace couplet
