// Kept folder: a test with a folder of its own, empty at its beginning and gone at its end.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include <unistd.h>

namespace couplet {

class KeptFolder : public testing::Test {
  protected:
    KeptFolder() {
        const auto* test = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = std::filesystem::path(testing::TempDir()) /
                  (std::string("couplet_") + test->test_suite_name() + test->name() + std::to_string(getpid()));
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
    }
    ~KeptFolder() override { std::filesystem::remove_all(folder_); }
    KeptFolder(const KeptFolder&) = delete;
    KeptFolder& operator=(const KeptFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

    // As another program writes it: in place, with nothing of this project's own.
    static void write(const std::filesystem::path& path, std::string_view text) {
        std::ofstream(path, std::ios::binary) << text;
    }
    static std::string read(const std::filesystem::path& path) {
        std::ifstream file(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(file), {}};
    }

  private:
    std::filesystem::path folder_;
};

}  // namespace couplet
