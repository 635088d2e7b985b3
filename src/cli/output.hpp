// Output: where a sheet goes.
#pragma once

#include <string>

#include "cli/options.hpp"

namespace couplet {

// To standard output, or to the file asked for: a reader finds the old file or the new one and never a half. A device
// or a pipe is written into. Throws UsageError where the file is the scene itself, SceneError or std::runtime_error
// where it cannot be written.
void deliver(const std::string& sheet, const SheetOptions& options);

// Bytes into a file, in the same way. `scene` is the file that was read, or empty.
void deliver_file(const std::string& bytes, const std::string& output, const std::string& scene);

// UsageError where the file to write is the scene that was read (empty: none).
void expect_not_the_scene(const std::string& output, const std::string& scene);

// Standard output, whole; std::runtime_error where it cannot be written.
void print(const std::string& text);

}  // namespace couplet
