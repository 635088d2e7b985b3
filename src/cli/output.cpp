#include "cli/output.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "scene/error.hpp"
#include "scene/scene.hpp"

namespace couplet {

void print(const std::string& text) {
    const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
    if (!written) throw std::runtime_error(fmt::format("cannot write to standard output: {}", std::strerror(errno)));
}

void deliver(const std::string& sheet, const SheetOptions& options) {
    if (!options.output) {
        print(sheet);
        return;
    }
    std::error_code ignored;
    if (!options.scene.empty() && std::filesystem::equivalent(*options.output, options.scene, ignored))
        throw UsageError(fmt::format("-o {} is the scene itself; name another file", in_quotes(*options.output)));
    save_scene_text(*options.output, sheet);
}

}  // namespace couplet
