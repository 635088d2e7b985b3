// Given name: names that the user types for settings and joints.
#pragma once

#include <span>
#include <string>

namespace couplet {

// What makes the text no name of a scene file: empty, several lines, too long, or another one's name already. Empty
// where it is one. `what` is what is named: "setting".
[[nodiscard]] std::string name_fault(const std::string& name, std::string_view what,
                                     std::span<const std::string> taken);

// The name itself, or the first of "name 2", "name 3" ... that is not taken; "hauling 2" is the second "hauling", and
// is counted on from.
[[nodiscard]] std::string unused_name(const std::string& name, std::span<const std::string> taken);

}  // namespace couplet
