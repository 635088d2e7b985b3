// Last words: what another program says on standard error, kept in a file without a name until it has ended. POSIX.
#pragma once

#include <string>

namespace couplet {

// A new file descriptor, closed in programs that are started. Throws std::runtime_error.
[[nodiscard]] int unnamed_file();

// The file's end, at most kMostLastWords bytes of it.
inline constexpr int kMostLastWords = 4096;
[[nodiscard]] std::string last_words(int file);

}  // namespace couplet
