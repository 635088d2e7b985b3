// The one place where the TOML library's own code is compiled.
#define TOML_IMPLEMENTATION
#include "scene/toml.hpp"
