// Program: the command line as a whole.
#pragma once

#include <string>
#include <vector>

namespace couplet {

// Runs the verb named by the arguments (without the program's own name); without a verb it
// becomes the window. Prints errors on
// standard error as one line and returns the exit status. Throws nothing.
[[nodiscard]] int run_program(std::vector<std::string> arguments) noexcept;

}  // namespace couplet
