// Unfinished: a file or folder that is being made beside its final name, and gone again unless it gets that name.
#pragma once

#include <filesystem>

namespace couplet {

class Unfinished {
  public:
    // Nothing is made yet. The name of what is unfinished begins with a dot and ends like no finished file's.
    explicit Unfinished(std::filesystem::path target);
    ~Unfinished();
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    // Gives it its final name, in the place of a file that has it. Throws std::runtime_error.
    void take_place();

  private:
    std::filesystem::path target_;
    std::filesystem::path path_;
};

}  // namespace couplet
