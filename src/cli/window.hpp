// Window: the program of the window, started in the place of this one.
#pragma once

#include <string>
#include <vector>

namespace couplet {

// Runs couplet-window, which stands beside this program, with the arguments; it takes over standard output and the exit
// status. Returns only by throwing: std::runtime_error where it cannot be started.
[[noreturn]] void become_the_window(const std::vector<std::string>& arguments);

}  // namespace couplet
