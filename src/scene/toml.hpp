// Toml: the TOML library's parser with errors as this room words them.
#pragma once

#include <string>
#include <string_view>

#include <toml++/toml.h>

namespace couplet {

// Throws SceneError where the text is no TOML 1.0, or none that a scene could be (screen.hpp).
[[nodiscard]] toml::table parse_toml(std::string_view text, const std::string& file_name);

}  // namespace couplet
