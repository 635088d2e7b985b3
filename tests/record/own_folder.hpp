// Own folder: a folder for one test, empty at first and gone afterwards.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace couplet {

class OwnFolder : public testing::Test {
  protected:
    OwnFolder() {
        const testing::TestInfo* test = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = std::filesystem::path(testing::TempDir()) /
                  (std::string("couplet_record_") + test->test_suite_name() + "_" + test->name());
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
    }
    ~OwnFolder() override { std::filesystem::remove_all(folder_); }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;

    [[nodiscard]] std::filesystem::path in_folder(const std::string& name) const { return folder_ / name; }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
    }
    [[nodiscard]] std::string read(const std::string& name) const {
        std::ifstream file(folder_ / name, std::ios::binary);
        std::stringstream text;
        text << file.rdbuf();
        return text.str();
    }
    // All that lies in it, unfinished or not, in alphabetical order.
    [[nodiscard]] std::vector<std::string> names() const {
        std::vector<std::string> found;
        for (const auto& entry : std::filesystem::directory_iterator(folder_))
            found.push_back(entry.path().filename().string());
        std::ranges::sort(found);
        return found;
    }

    std::filesystem::path folder_;
};

using Names = std::vector<std::string>;

}  // namespace couplet
