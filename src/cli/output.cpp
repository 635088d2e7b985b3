#include "cli/output.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

#include "scene/error.hpp"
#include "scene/scene.hpp"

namespace couplet {

namespace {

void write_whole(std::FILE* file, const std::string& text, std::string_view name) {
    const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size() && std::fflush(file) == 0;
    if (!written) throw std::runtime_error(fmt::format("cannot write to {}: {}", name, std::strerror(errno)));
}

// A device or a pipe takes the text as it comes: there is nothing to replace.
void write_through(const std::string& path, const std::string& text) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "wb"), &std::fclose);
    if (!file) throw std::runtime_error(fmt::format("cannot write to {}: {}", shown(path), std::strerror(errno)));
    write_whole(file.get(), text, shown(path));
}

}  // namespace

void print(const std::string& text) {
    write_whole(stdout, text, "standard output");
}

void deliver(const std::string& sheet, const SheetOptions& options) {
    if (!options.output) {
        print(sheet);
        return;
    }
    deliver_file(sheet, *options.output, options.scene);
}

void expect_not_the_scene(const std::string& output, const std::string& scene) {
    std::error_code ignored;
    if (!scene.empty() && std::filesystem::equivalent(output, scene, ignored))
        throw UsageError(fmt::format("the output {} is the scene itself; name another file", in_quotes(output)));
}

void deliver_file(const std::string& bytes, const std::string& output, const std::string& scene) {
    expect_not_the_scene(output, scene);
    std::error_code ignored;
    if (std::filesystem::is_other(output, ignored))
        write_through(output, bytes);
    else
        save_scene_text(output, bytes);
}

}  // namespace couplet
