// Delivery: files and folders that get their names together, or not at all.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace couplet {

using TakeBytes = std::function<void(std::string_view)>;

struct DeliveredFile {
    std::string name;  // in its folder
    // Called once, when the file is written, so that not all files of a folder need lie in memory together; gives its
    // bytes in one piece or in many.
    std::function<void(const TakeBytes& take)> write;
};

// A file whose bytes are made in one piece.
[[nodiscard]] DeliveredFile whole_file(std::string name, std::function<std::string()> bytes);

// A file, or a folder of files.
struct Delivery {
    std::filesystem::path target;
    std::vector<DeliveredFile> files;  // of a file: itself alone, its name does not count
    bool is_folder = false;
};

// keep: what is there already is an error. replace: it is replaced, a folder only where it holds nothing but files with
// the endings of the new ones.
enum class ExistingFiles { keep, replace };

// UsageError where something is in the way, before anything is made; std::runtime_error where something cannot be
// written; Stopped (record/recorder.hpp) where the user wants the work to end (interrupt.hpp), which is looked at
// before each file and after each piece. Whatever is thrown, by the files' makers too, everything is as it was before.
void deliver_together(const std::vector<Delivery>& deliveries, ExistingFiles existing);

}  // namespace couplet
