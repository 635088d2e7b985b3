// Default scene: the one that the program carries, scenes/harbour_capstan.toml as it was when the program was built.
#pragma once

#include <string_view>

namespace couplet {

[[nodiscard]] std::string_view default_scene();

}  // namespace couplet
