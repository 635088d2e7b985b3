#include "cli/window.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <stdexcept>

#include "app/process.hpp"

namespace couplet {

void become_the_window(const std::vector<std::string>& arguments) {
    const std::string window = (this_program().parent_path() / "couplet-window").string();
    std::vector<std::string> texts = arguments;
    texts.insert(texts.begin(), window);
    std::vector<char*> pointers;
    pointers.reserve(texts.size() + 1);
    for (std::string& text : texts) pointers.push_back(text.data());
    pointers.push_back(nullptr);
    execv(window.c_str(), pointers.data());
    throw std::runtime_error(fmt::format("the window's program {} cannot be started ({}); build it: sh src/run.sh",
                                         window, std::strerror(errno)));
}

}  // namespace couplet
