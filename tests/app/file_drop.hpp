// File drop: files dragged from another program and let go over a window, by the X protocol of drag and drop.
#pragma once

#include <filesystem>
#include <vector>

namespace couplet {

// `window` is its number on the display that is there. Waits until the window has taken them; a failure of the test
// where it does not. (XDND, version 5: the freedesktop.org page on drag and drop, from memory.)
void drop_files(unsigned long window, const std::vector<std::filesystem::path>& files);

}  // namespace couplet
