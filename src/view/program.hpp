// Program: GLSL sources joined, compiled and linked. For files of this room only.
#pragma once

#include <initializer_list>
#include <string_view>

#include "view/gl.hpp"

namespace couplet {

// Each stage is its sources one after the other behind "#version 330 core". Its uniform block Frame is bound to point
// 0. Throws std::logic_error with the driver's log: the sources are ours, so it is our fault.
[[nodiscard]] Program linked(std::initializer_list<std::string_view> vertex,
                             std::initializer_list<std::string_view> fragment);

// The program becomes current; its sampler reads the texture unit.
void set_sampler(const Program& program, const char* name, int unit);

}  // namespace couplet
